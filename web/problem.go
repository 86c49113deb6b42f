package web

import (
	"encoding/json"
	"errors"
	"net/http"

	"halfturn/stream/phrase"
)

// A Problem is an error that is reported to the client: a status, and what is wrong and what to do. Any other error is
// logged and reported as an internal one.
type Problem struct {
	Status int
	Phrase phrase.Phrase
}

func (p *Problem) Error() string { return p.Phrase.String() }

// misuse is a Problem that no page of this server causes: it is for those who write programs against the API, and is
// in English only.
func misuse(status int, words string) error { return &Problem{status, phrase.Plain(words)} }

// retryAfter is how many seconds those wait who are told to come back.
const retryAfter = "5"

// header sets what the answer of a Problem is headed by.
func (p *Problem) header(h http.Header) {
	h.Set("Content-Type", "application/json")
	h.Set("Cache-Control", "no-store")
	if p.Status == http.StatusServiceUnavailable || p.Status == http.StatusTooManyRequests {
		h.Set("Retry-After", retryAfter)
	}
}

// problemBody is the answer of a Problem: the English, and what a page needs to say it in another language.
type problemBody struct {
	Error string         `json:"error"`
	Code  string         `json:"code,omitempty"`
	Args  json.Marshaler `json:"args,omitempty"`
}

func (p *Problem) body() []byte {
	b := problemBody{Error: p.Phrase.String(), Code: p.Phrase.Code()}
	if b.Code != "" {
		b.Args = p.Phrase.Args()
	}
	data, _ := json.Marshal(b) // texts and finite numbers can always be written
	return append(data, '\n')
}

// handler is an HTTP handler whose errors are written in one place.
type handler func(w http.ResponseWriter, r *http.Request) error

// handle runs a handler and tells its error to whom it concerns: the client, the log, or, where the client has left,
// nobody. An answer that is begun is cut off, so that half of one is not taken for a whole one.
func (s *Server) handle(fn handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		v := visitOf(w)
		err := fn(v, r)
		if err == nil {
			return
		}
		var p *Problem
		told := errors.As(err, &p)
		switch {
		case v.late && told: // net/http has ended the context for it
		case v.left != nil || r.Context().Err() != nil:
			s.log.Debug().Err(err).Str("method", r.Method).Str("path", r.URL.Path).Str("remote", r.RemoteAddr).Msg("client left")
			panic(http.ErrAbortHandler)
		case !told || v.begun:
			s.log.Error().Err(err).Str("method", r.Method).Str("path", r.URL.Path).Bool("cut off", v.begun).Msg("request failed")
			p = &Problem{http.StatusInternalServerError, phrase.InternalError.Of()}
		}
		if v.begun {
			panic(http.ErrAbortHandler)
		}
		writeProblem(v, p)
	})
}

func writeProblem(w http.ResponseWriter, p *Problem) {
	p.header(w.Header())
	w.WriteHeader(p.Status)
	_, _ = w.Write(p.body()) // nobody is left to tell
}

// writeJSON encodes first, so that a value that cannot be written is still an error.
func writeJSON(w http.ResponseWriter, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, err = w.Write(append(data, '\n'))
	return err
}
