package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"strings"
	"unicode/utf8"

	"halfturn/stream/phrase"
)

// maxBody bounds what most requests may send, in bytes.
const maxBody = 4 << 10

// own makes sure that a request to change something comes from a page of this server, or from no page
// at all, and that its body is of the kind that is wanted.
func (s *Server) own(r *http.Request, kind string) error {
	if err := s.cross.Check(r); err != nil || !sameOrigin(r) {
		return &Problem{http.StatusForbidden, phrase.ForeignPage.Of()}
	}
	if is, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || is != kind {
		return misuse(http.StatusUnsupportedMediaType, "send it as Content-Type: "+kind)
	}
	if e := r.Header.Get("Content-Encoding"); e != "" && !strings.EqualFold(e, "identity") {
		return misuse(http.StatusUnsupportedMediaType, "the body is sent with Content-Encoding: "+e+"; send it without one")
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
	data, err := io.ReadAll(http.MaxBytesReader(w, r.Body, most))
	var big *http.MaxBytesError
	switch {
	case errors.As(err, &big):
		return &Problem{http.StatusRequestEntityTooLarge, phrase.BodyTooLong.Of(phrase.Int("bytes", most))}
	case err != nil:
		return err
	}
	if err := decode(data, to); err != nil {
		return misuse(http.StatusBadRequest, "the body "+err.Error()+": send "+want)
	}
	return nil
}

// decode reads one JSON object that says each thing once, and nothing after it. The error goes on from "the body".
func decode(data []byte, to any) error {
	text := bytes.TrimSpace(data)
	switch {
	case len(text) == 0:
		return errors.New("is empty")
	case !utf8.Valid(text):
		return errors.New("is not UTF-8")
	case text[0] != '{': // null too, which encoding/json takes for anything
		return errors.New("is not a JSON object")
	}
	dec := json.NewDecoder(bytes.NewReader(text))
	dec.DisallowUnknownFields()
	var kind *json.UnmarshalTypeError
	switch err := dec.Decode(to); {
	case errors.As(err, &kind):
		return fmt.Errorf("is not as expected (%q is a %s)", kind.Field, kind.Value)
	case err != nil:
		return fmt.Errorf("is not as expected (%s)", strings.TrimPrefix(err.Error(), "json: "))
	case dec.InputOffset() < int64(len(text)):
		return fmt.Errorf("has something after its end, at byte %d", dec.InputOffset())
	}
	if name := doubled(json.NewDecoder(bytes.NewReader(text))); name != "" {
		return fmt.Errorf("says %q twice", name)
	}
	return nil
}

// doubled returns the name of a member that its object has twice, "" when there is none. What comes next of the
// decoder is well-formed. Names are compared as encoding/json does, without regard to case.
func doubled(dec *json.Decoder) string {
	open, _ := dec.Token()
	if open != json.Delim('{') && open != json.Delim('[') {
		return ""
	}
	seen := map[string]bool{}
	for dec.More() {
		if open == json.Delim('{') {
			token, _ := dec.Token()
			name, _ := token.(string)
			if folded := strings.ToLower(name); seen[folded] {
				return name
			} else {
				seen[folded] = true
			}
		}
		if name := doubled(dec); name != "" {
			return name
		}
	}
	_, _ = dec.Token() // the end of it
	return ""
}
