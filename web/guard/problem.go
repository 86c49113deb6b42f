package guard

import (
	"encoding/json"
	"errors"
	"net/http"

	"github.com/rs/zerolog"

	"halfturn/stream/phrase"
)

// A Problem is an error that is reported to the client: a status, what is wrong, and what to do. Any other error is
// logged and reported as an internal one.
type Problem struct {
	Status int
	Phrase phrase.Phrase
}

// Error is the English sentence.
func (p *Problem) Error() string { return p.Phrase.String() }

// Misuse is a Problem that no page of this server causes. It is for authors of programs that use the API, and is in
// English only.
func Misuse(status int, words string) error { return &Problem{status, phrase.Plain(words)} }

// retryAfter is how many seconds a client should wait before it tries again.
const retryAfter = "5"

// header sets the headers of the answer.
func (p *Problem) header(h http.Header) {
	h.Set("Content-Type", "application/json")
	h.Set("Cache-Control", "no-store")
	if p.Status == http.StatusServiceUnavailable || p.Status == http.StatusTooManyRequests {
		h.Set("Retry-After", retryAfter)
	}
}

// problemBody is the answer: the English sentence, and what a page needs to translate it.
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

// A Handler is an HTTP handler whose errors are written by Handle.
type Handler func(w http.ResponseWriter, r *http.Request) error

// Handle runs a handler inside Visits and reports its error to the client, to the log, or, if the client has left, to
// nobody. An answer that has begun is cut off, so that half of an answer is not taken for a whole one.
func Handle(log zerolog.Logger, fn Handler) http.Handler {
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
			log.Debug().Err(err).Str("method", r.Method).Str("path", r.URL.Path).Str("remote", r.RemoteAddr).
				Msg("client left")
			panic(http.ErrAbortHandler)
		case !told || v.begun:
			log.Error().Err(err).Str("method", r.Method).Str("path", r.URL.Path).Bool("cut off", v.begun).
				Msg("request failed")
			p = &Problem{http.StatusInternalServerError, phrase.InternalError.Of()}
		}
		if v.begun {
			panic(http.ErrAbortHandler)
		}
		WriteProblem(v, p)
	})
}

// WriteProblem answers with a problem.
func WriteProblem(w http.ResponseWriter, p *Problem) {
	p.header(w.Header())
	w.WriteHeader(p.Status)
	_, _ = w.Write(p.body()) // nobody is left to tell
}

// WriteJSON writes a value as JSON. It encodes first, so that a value that cannot be encoded is still an error.
func WriteJSON(w http.ResponseWriter, v any) error {
	data, err := json.Marshal(v)
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, err = w.Write(append(data, '\n'))
	return err
}
