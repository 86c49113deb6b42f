package web

import (
	"encoding/json"
	"errors"
	"net/http"
)

// A Problem is an error told to whoever asked: a status and plain words, what is wrong and
// what to do. Any other error is logged and told as an internal one.
type Problem struct {
	Status int
	Words  string
}

func (p *Problem) Error() string { return p.Words }

// misuse is a Problem that no page of this server causes: it is told to whoever writes a program against
// the API, and has no words in other languages.
func misuse(status int, words string) error { return &Problem{status, words} }

// handler is an HTTP handler whose errors are written in one place.
type handler func(w http.ResponseWriter, r *http.Request) error

// handle runs a handler and writes its error.
func (s *Server) handle(fn handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		err := fn(w, r)
		if err == nil {
			return
		}
		var p *Problem
		if !errors.As(err, &p) {
			s.log.Error().Err(err).Str("method", r.Method).Str("path", r.URL.Path).Msg("request failed")
			p = &Problem{http.StatusInternalServerError, "something went wrong here; the server's log says what"}
		}
		writeProblem(w, p)
	})
}

func writeProblem(w http.ResponseWriter, p *Problem) {
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(p.Status)
	_ = json.NewEncoder(w).Encode(map[string]string{"error": p.Words}) // nobody is left to tell
}

// writeJSON encodes first, so that a value that cannot be written is still an error.
func writeJSON(w http.ResponseWriter, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(append(data, '\n')) // a client that left is no error
	return nil
}
