package settings

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is wrong with sharing is said by its key; a key goes in the clear to this machine alone.
func TestShareRefused(t *testing.T) {
	for _, c := range []struct{ text, says string }{
		{"", ""},
		{"url = \"https://desk.example\"\nkey-file = \"k\"", ""},
		{"url = \"https://desk.example/halfturn\"\nkey-file = \"k\"\nstation = \"Seat 3\"", ""},
		{"url = \"http://127.0.0.1:7180\"\nkey-file = \"k\"", ""},
		{"url = \"http://[::1]:7180\"\nkey-file = \"k\"", ""},
		{"url = \"http://desk.example\"\nkey-file = \"k\"", "must begin with https://"},
		{"url = \"ftp://desk.example\"\nkey-file = \"k\"", "must begin with https://"},
		{"url = \"desk.example\"\nkey-file = \"k\"", "must be the address of the school"},
		{"url = \"https://a:b@desk.example\"\nkey-file = \"k\"", "must be the address of the school"},
		{"url = \"https://desk.example?x=1\"\nkey-file = \"k\"", "must be the address of the school"},
		{"url = \"https://desk.example\"", "share.key-file: is empty"},
		{"url = \"https://desk.example\"\nkey-file = \"k\"\n[recording]\nenabled = false", "recording.enabled"},
		{"url = \"https://desk.example\"\nkey-file = \"k\"\nstation = \"a\\u0007\"", "share.station"},
	} {
		_, err := Load(written(t, "[share]\n"+c.text), none)
		if (err == nil) != (c.says == "") || err != nil && !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v; must say %q", c.text, err, c.says)
		}
	}
}

// The key is what is in its file, which must be one word.
func TestShareKey(t *testing.T) {
	dir := t.TempDir()
	for text, want := range map[string]string{
		"abc-_1\n":                 "abc-_1",
		"  abc ":                   "abc",
		"":                         "",
		"a b":                      "",
		"\x7f":                     "",
		strings.Repeat("k", 5<<10): "",
	} {
		file := filepath.Join(dir, "key")
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		c := &Config{Share: Share{KeyFile: file}}
		got, err := c.ShareKey()
		if got != want || (err == nil) != (want != "") {
			t.Errorf("%.10q: %q, %v; must be %q", text, got, err, want)
		}
	}
	c := &Config{Share: Share{KeyFile: filepath.Join(dir, "none")}}
	if _, err := c.ShareKey(); err == nil {
		t.Error("a file that is not there holds a key")
	}
}

// Certificates of one's own must be some.
func TestShareTLS(t *testing.T) {
	if o, err := (&Config{}).ShareTLS(); err != nil || o.RootCAs != nil {
		t.Errorf("without a file: %+v, %v", o, err)
	}
	file := written(t, "nothing")
	_, err := (&Config{Share: Share{CA: file}}).ShareTLS()
	if err == nil || !strings.Contains(err.Error(), "no certificate") {
		t.Error(err)
	}
}
