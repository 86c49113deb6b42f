package web

import (
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"strconv"
)

// maxBody bounds what most requests may send, in bytes.
const maxBody = 4 << 10

// own makes sure that a request to change something comes from a page of this server, or from no page
// at all, and says of what kind its body is.
func (s *Server) own(r *http.Request, kind string) error {
	if err := s.cross.Check(r); err != nil || !sameOrigin(r) {
		return &Problem{http.StatusForbidden, "the request came from another site's page; use Halfturn's own"}
	}
	if is, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || is != kind {
		return misuse(http.StatusUnsupportedMediaType, "send it as Content-Type: "+kind)
	}
	return nil
}

// body reads what a page of this server sent as JSON. Want says what is expected.
func (s *Server) body(w http.ResponseWriter, r *http.Request, to any, want string) error {
	return s.bodyWithin(maxBody, w, r, to, want)
}

// bodyWithin is body with a bound of its own, in bytes.
func (s *Server) bodyWithin(most int64, w http.ResponseWriter, r *http.Request, to any, want string) error {
	if err := s.own(r, "application/json"); err != nil {
		return err
	}
	dec := json.NewDecoder(http.MaxBytesReader(w, r.Body, most))
	dec.DisallowUnknownFields()
	err := dec.Decode(to)
	var big *http.MaxBytesError
	switch {
	case errors.As(err, &big):
		return &Problem{http.StatusRequestEntityTooLarge, "what was sent is longer than " + strconv.FormatInt(most, 10) + " bytes"}
	case errors.Is(err, io.EOF):
		return misuse(http.StatusBadRequest, "the body is empty: send "+want)
	case err != nil:
		return misuse(http.StatusBadRequest, "the body is not as expected ("+err.Error()+"): send "+want)
	}
	return nil
}
