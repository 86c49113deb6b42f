package guard

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

// MaxBody is the usual limit of a request body, in bytes.
const MaxBody = 4 << 10

// cross detects requests that a page of another site makes a browser send.
var cross = http.NewCrossOriginProtection()

// Sent checks that a request to change something comes from a page of this server or from no page at all.
func Sent(r *http.Request) error {
	if err := cross.Check(r); err != nil || !SameOrigin(r) {
		return &Problem{http.StatusForbidden, phrase.ForeignPage.Of()}
	}
	return nil
}

// Own checks that a request to change something comes from a page of this server or from no page at all, and that its
// body has the given media type.
func Own(r *http.Request, kind string) error {
	if err := Sent(r); err != nil {
		return err
	}
	if is, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || is != kind {
		return Misuse(http.StatusUnsupportedMediaType, "send it as Content-Type: "+kind)
	}
	if e := r.Header.Get("Content-Encoding"); e != "" && !strings.EqualFold(e, "identity") {
		return Misuse(http.StatusUnsupportedMediaType,
			"the body is sent with Content-Encoding: "+e+"; send it without one")
	}
	return nil
}

// Body reads the JSON that a page of this server sent, up to a limit in bytes. Form describes it for error messages.
func Body(most int64, w http.ResponseWriter, r *http.Request, to any, form string) error {
	if err := Own(r, "application/json"); err != nil {
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
		return Misuse(http.StatusBadRequest, "the body "+err.Error()+": send "+form)
	}
	return nil
}

// decode reads one JSON object without duplicate names and with nothing after it. The error continues the words "the
// body".
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

// doubled returns the name of a member that its object has twice, "" when there is none. The input must be well-formed.
// Names are compared as encoding/json does, ignoring case.
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
