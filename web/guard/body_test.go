package guard

import (
	"encoding/json"
	"errors"
	"maps"
	"net/http/httptest"
	"strings"
	"testing"
)

// RFC 8259: a text is one value (section 2), the names in an object should be unique (section 4), and the encoding is
// UTF-8 (section 8.1).
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

// What is accepted is one JSON object, and is the same when it is encoded and decoded again.
func FuzzDecode(f *testing.F) {
	for _, s := range []string{`{"from":5,"pace":8}`, `{"from":1,"From":2}`, "null", `{"pace":[{}]}`, `{"from":1}x`} {
		f.Add([]byte(s))
	}
	type start struct {
		From float64 `json:"from"`
		Pace float64 `json:"pace"`
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var was, is start
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

func TestBody(t *testing.T) {
	const here = "127.0.0.1:7180"
	page := map[string]string{"Content-Type": "application/json", "Origin": "http://" + here}
	with := func(name, value string) map[string]string {
		h := maps.Clone(page)
		h[name] = value
		return h
	}
	tests := []struct {
		name   string
		header map[string]string
		text   string
		status int // 0 when it is accepted
		says   string
	}{
		{"of a page", page, `{"name":"x"}`, 0, ""},
		{"of a program", map[string]string{"Content-Type": "application/json"}, `{"name":"x"}`, 0, ""},
		{"with a character set", with("Content-Type", "application/json; charset=utf-8"), `{"name":"x"}`, 0, ""},
		{"not encoded", with("Content-Encoding", "Identity"), `{"name":"x"}`, 0, ""},
		{"of a page of another site", with("Origin", "http://evil.example"), `{"name":"x"}`, 403, "another"},
		{"of a page of another port", with("Origin", "http://127.0.0.1:80"), `{"name":"x"}`, 403, "another"},
		{"of a page without an origin", with("Origin", "null"), `{"name":"x"}`, 403, "another"},
		{"said to be of another site", with("Sec-Fetch-Site", "cross-site"), `{"name":"x"}`, 403, "another"},
		{"a form", with("Content-Type", "application/x-www-form-urlencoded"), `{"name":"x"}`, 415, "application/json"},
		{"without a media type", with("Content-Type", ""), `{"name":"x"}`, 415, "application/json"},
		{"compressed", with("Content-Encoding", "gzip"), `{"name":"x"}`, 415, "Content-Encoding: gzip"},
		{"long", page, `{"name":"` + strings.Repeat("x", MaxBody) + `"}`, 413, "4096"},
		{"bad", page, `{"power":1}`, 400, `send {"name": NAME}`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := httptest.NewRequest("POST", "/", strings.NewReader(tt.text))
			r.Host = here
			for name, value := range tt.header {
				r.Header.Set(name, value)
			}
			var body struct {
				Name string `json:"name"`
			}
			err := Body(MaxBody, httptest.NewRecorder(), r, &body, `{"name": NAME}`)
			if tt.status == 0 {
				if err != nil || body.Name != "x" {
					t.Errorf("%+v, %v", body, err)
				}
				return
			}
			var p *Problem
			if !errors.As(err, &p) || p.Status != tt.status || !strings.Contains(p.Error(), tt.says) {
				t.Errorf("%v; must be %d and say %q", err, tt.status, tt.says)
			}
		})
	}
}
