package tomlfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/configs/strict"
)

// A file that is too large, or does not end, is refused before it is read; by every name that the system takes.
func TestRead(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	if err := errors.Join(
		os.WriteFile("good.toml", []byte("name = 'a'"), 0o600),
		os.WriteFile("large.toml", []byte(strings.Repeat("#", strict.Largest+1)), 0o600),
		os.Mkdir("folder.toml", 0o700),
	); err != nil {
		t.Fatal(err)
	}
	for name, want := range map[string]string{
		"good.toml":   "",
		"large.toml":  "large.toml: is larger than 1 MB; ",
		"folder.toml": "folder.toml: is a folder; must be a TOML file",
		"none.toml":   "none.toml: no such file or directory",
	} {
		for _, name := range []string{name, "./" + name, "folder.toml/../" + name, filepath.Join(dir, name)} {
			data, err := Read(name)
			switch {
			case want == "" && (err != nil || string(data) != "name = 'a'"):
				t.Errorf("%s: %q, %v", name, data, err)
			case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
				t.Errorf("%s: %v; must be %q", name, err, want)
			}
		}
	}
	if _, err := Read("none.toml"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a missing file: %v", err)
	}
}
