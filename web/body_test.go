package web

import (
	"encoding/json"
	"strings"
	"testing"
)

// TestDecode is strict: RFC 8259 knows one value a text, and its section 4 asks that names in an object be unique;
// section 8.1 asks for UTF-8.
func TestDecode(t *testing.T) {
	type body struct {
		Name string   `json:"name"`
		At   *float64 `json:"at"`
		On   bool     `json:"on"`
	}
	tests := []struct{ name, text, says string }{
		{"whole", `{"name":"x","at":1.5,"on":true}`, ""},
		{"with space around it", " \n{\"name\":\"x\"}\r\n\t", ""},
		{"with nothing in it", `{}`, ""},
		{"null where it may be", `{"name":"x","at":null}`, ""},
		{"the same name in a text", `{"name":"\"name\":"}`, ""},
		{"no body", "", "is empty"},
		{"only space", " \n", "is empty"},
		{"null", "null", "is not a JSON object"},
		{"null with space", " null ", "is not a JSON object"},
		{"a number", "7", "is not a JSON object"},
		{"a text", `"x"`, "is not a JSON object"},
		{"a list", `[{"name":"x"}]`, "is not a JSON object"},
		{"cut off", `{"name":"x"`, "not as expected"},
		{"not closed", `{"name":"x`, "not as expected"},
		{"of another type", `{"name":7}`, `"name" is a number`},
		{"a list for a number", `{"at":[1]}`, `"at" is a array`},
		{"too large a number", `{"at":1e999}`, `"at" is a number 1e999`},
		{"an unknown name", `{"name":"x","power":1}`, `unknown field "power"`},
		{"text after it", `{"name":"x"} and more`, "after its end, at byte 12"},
		{"a bracket after it", `{"name":"x"}}`, "after its end, at byte 12"},
		{"twice", `{"name":"x"}{"name":"y"}`, "after its end, at byte 12"},
		{"null after it", `{"name":"x"}null`, "after its end, at byte 12"},
		{"a NUL after it", "{\"name\":\"x\"}\x00", "after its end, at byte 12"},
		{"a name twice", `{"name":"x","on":true,"name":"y"}`, `says "name" twice`},
		{"a name twice, in capitals", `{"on":true,"On":false}`, `says "On" twice`},
		{"a name twice, escaped", `{"on":true,"\u006fn":false}`, `says "on" twice`},
		{"not UTF-8", "{\"name\":\"\xff\"}", "is not UTF-8"},
		{"UTF-16", "{\x00}\x00", "not as expected"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			err := decode([]byte(tt.text), &body{})
			if err == nil && tt.says != "" || err != nil && (tt.says == "" || !strings.Contains(err.Error(), tt.says)) {
				t.Errorf("%v, want %q", err, tt.says)
			}
		})
	}
}

// FuzzDecode: whatever is taken is one JSON object, and says the same when it is written again.
func FuzzDecode(f *testing.F) {
	for _, s := range []string{`{"from":5,"pace":8}`, `{"from":1,"From":2}`, "null", `{"pace":[{}]}`, `{"from":1}x`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var was, is ReplayStart
		if decode(data, &was) != nil {
			return
		}
		if !json.Valid(data) {
			t.Fatalf("%q is no JSON", data)
		}
		again, err := json.Marshal(was)
		if err != nil {
			t.Fatal(err)
		}
		if err := decode(again, &is); err != nil || is != was {
			t.Errorf("%q is %+v, then %+v, %v", data, was, is, err)
		}
	})
}

// A body that is packed is refused: what comes out of it would have no bound.
func TestBodyEncoding(t *testing.T) {
	s, _, d := newServer(t, Config{Captures: captures{}})
	for path, kind := range map[string]string{"/api/stations/Seat%203/choose": asJSON, "/api/sessions/import": asStream} {
		header := map[string]string{"Content-Type": kind, "Content-Encoding": "gzip"}
		if w := request(s, "POST", path, `{"maneuver":"wing-over"}`, header); w.Code != 415 || !strings.Contains(w.Body.String(), "Content-Encoding") {
			t.Errorf("%s: %d, %s", path, w.Code, w.Body)
		}
	}
	if d.chosen != nil {
		t.Errorf("chosen: %q", d.chosen)
	}
}
