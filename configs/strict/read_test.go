package strict

import (
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A file that is too large, or none that ends, is refused before it is read.
func TestReadFS(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("good.toml", "name = 'a'")
	write("large.toml", strings.Repeat("#", Largest+1))
	if err := os.Mkdir(filepath.Join(dir, "folder.toml"), 0o700); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"good.toml":   "",
		"large.toml":  "large.toml: is larger than 1 MB; ",
		"folder.toml": "folder.toml: is a folder; must be a TOML file",
		"none.toml":   "none.toml: no such file or directory",
	} {
		data, err := ReadFS(os.DirFS(dir), name)
		switch {
		case want == "" && (err != nil || string(data) != "name = 'a'"):
			t.Errorf("%s: %q, %v", name, data, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
			t.Errorf("%s: %v; must be %q", name, err, want)
		}
	}
	if _, err := ReadFS(os.DirFS(dir), "none.toml"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a missing file: %v", err)
	}
}

func TestTop(t *testing.T) {
	for in, want := range map[string]map[string]string{
		"\ufefftitle = \"a\\u0062\"\nturn = 180\nb.c = 'x'\n[set-up]\ntitle = 'y'\n[[check]]\nid = 'z'\n": {
			"title": "ab", "turn": "", "b": "", "set-up": "", "check": "",
		},
		"title = 'a'\n= 'b'\nturn = 1": {"title": "a"},
		"":                             {},
		"title = 'a'\n#" + strings.Repeat(" ", Largest): {},
	} {
		if got := Top([]byte(in)); !maps.Equal(got, want) {
			t.Errorf("%.40q: got %q; must be %q", in, got, want)
		}
	}
}
