package guide_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/configs"
	"halfturn/configs/guide"
)

// Every shipped file for simulators arrives with its bytes, but for the guides' own source; a second copy changes
// nothing.
func TestCopy(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "folder")
	var first, second []string
	if err := guide.Copy(dir, func(path string) { first = append(first, path) }); err != nil {
		t.Fatal(err)
	}
	var want []string
	err := fs.WalkDir(configs.FS, "simulators", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == "simulators/guides.toml" {
			return err
		}
		path := filepath.Join(dir, filepath.FromSlash(strings.TrimPrefix(name, "simulators/")))
		want = append(want, path)
		shipped, err := configs.FS.ReadFile(name)
		if err != nil {
			return err
		}
		if copied, err := os.ReadFile(path); err != nil || !bytes.Equal(copied, shipped) {
			t.Errorf("%s: %d bytes of %d, %v", name, len(copied), len(shipped), err)
		}
		return nil
	})
	if err != nil || len(want) < 5 || !slices.Equal(first, want) {
		t.Errorf("%v: copied %v; must be %v", err, first, want)
	}
	if err := guide.Copy(dir, func(path string) { second = append(second, path) }); err != nil ||
		!slices.Equal(second, first) {
		t.Errorf("the second time: %v, %v", second, err)
	}
}

// Nothing is written over, whatever stands in the way, and what is there stays as it is.
func TestCopyOverNothing(t *testing.T) {
	for name, put := range map[string]func(path string) error{
		"another text":         func(path string) error { return os.WriteFile(path, []byte("mine"), 0o600) },
		"a text of equal size": func(path string) error { return os.WriteFile(path, sameSize(t), 0o600) },
		"a folder":             func(path string) error { return os.Mkdir(path, 0o700) },
	} {
		dir := t.TempDir()
		path := filepath.Join(dir, "README.md")
		if err := put(path); err != nil {
			t.Fatal(err)
		}
		before, _ := os.ReadFile(path)
		err := guide.Copy(dir, func(string) {})
		if err == nil || !strings.Contains(err.Error(), path+" is there already and differs") {
			t.Errorf("%s: %v", name, err)
		}
		if after, _ := os.ReadFile(path); !bytes.Equal(after, before) {
			t.Errorf("%s was written over", name)
		}
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	var wrong *fs.PathError
	if err := guide.Copy(file, func(string) {}); !errors.As(err, &wrong) {
		t.Errorf("into a file: %v", err)
	}
}

// sameSize is a text as long as the shipped README, and not it.
func sameSize(t *testing.T) []byte {
	t.Helper()
	shipped, err := configs.FS.ReadFile("simulators/README.md")
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Repeat([]byte("x"), len(shipped))
}
