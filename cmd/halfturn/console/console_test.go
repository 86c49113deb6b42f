package console

import (
	"bytes"
	"encoding/json"
	"testing"
	"unicode/utf8"
)

func TestConsole(t *testing.T) {
	for in, want := range map[string]string{
		"":                              "",
		"Ada Example: ● met, 74°\t±2\n": "Ada Example: ● met, 74°\t±2\n",
		"a\r\nb":                        "a\r\nb",
		"a\rb":                          `a\u000db`,
		"a\r":                           `a\u000d`,
		"\x1b[31mred\x07":               `\u001b[31mred\u0007`,
		"\u009b31m\u0085":               `\u009b31m\u0085`,
		"\x00\x08\x7f":                  `\u0000\u0008\u007f`,
		"a\u202eb\u2066c\u2069":         `a\u202eb\u2066c\u2069`,
		"a\u2028b\ufeff":                `a\u2028b\ufeff`,
		"a\U000e0041":                   `a\udb40\udc41`, // a pair of surrogates, as RFC 8259, section 7
		"a\xffb\x9b":                    `a\xffb\x9b`,
		"\xe2\x80":                      `\xe2\x80`,
		"علی\u200cرضا 👩\u200d✈":         "علی\u200cرضا 👩\u200d✈",
	} {
		for _, chunk := range []int{1, 2, 3, len(in) + 1} {
			if got := through(t, []byte(in), chunk); got != want {
				t.Errorf("%q in pieces of %d: %q, want %q", in, chunk, got, want)
			}
		}
	}
}

// through writes in pieces.
func through(t *testing.T, in []byte, chunk int) string {
	t.Helper()
	var b bytes.Buffer
	c := New(&b)
	for len(in) > 0 {
		n := min(chunk, len(in))
		if m, err := c.Write(in[:n]); m != n || err != nil {
			t.Fatalf("%d of %d written, %v", m, n, err)
		}
		in = in[n:]
	}
	if err := c.Close(); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// harmless fails where a text would do something to a terminal.
func harmless(t *testing.T, what, text string) {
	t.Helper()
	if !utf8.ValidString(text) {
		t.Errorf("%s: not UTF-8: %q", what, text)
	}
	for i, r := range text {
		if r == '\r' && i+1 < len(text) && text[i+1] == '\n' {
			continue
		}
		if Harmful(r) {
			t.Errorf("%s: %+q in %q", what, r, text[max(0, i-40):min(len(text), i+40)])
			return
		}
	}
}

// FuzzConsole: whatever comes, in whatever pieces, nothing harmful goes out, and JSON stays the same JSON.
func FuzzConsole(f *testing.F) {
	for _, s := range []string{"plain", "\x1b[2J", "\xf0\x9f\x9b", "\r\r\n\r", "\u009b\U000e0001", `{"a":"\u001b"}`} {
		f.Add([]byte(s), uint8(1))
	}
	f.Fuzz(func(t *testing.T, in []byte, chunk uint8) {
		out := through(t, in, int(chunk)+1)
		harmless(t, "out", out)
		text, err := json.Marshal(string(in))
		if err != nil {
			t.Fatal(err)
		}
		var was, is string
		if err := json.Unmarshal(text, &was); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal([]byte(through(t, text, int(chunk)+1)), &is); err != nil || is != was {
			t.Fatalf("JSON of %q became %q, %v", was, is, err)
		}
	})
}
