// Package validtest tests how wrong cards are refused: a folder of files, each wrong in one way, against a file of
// their errors.
package validtest

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files")

// A Load reads a card; the file name is used in errors.
type Load func(file string, data []byte) error

// Read returns a file of the test data.
func Read(t testing.TB, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Folder checks the cards of testdata/bad, at least the given number, against testdata/bad/errors.golden. Each file is
// wrong in one way, which its first line tells. kind is the folder that errors speak of.
func Folder(t *testing.T, kind string, least int, load Load) {
	t.Helper()
	files, err := filepath.Glob("testdata/bad/*.toml")
	if err != nil || len(files) < least {
		t.Fatalf("%d wrong cards, %v", len(files), err)
	}
	var got strings.Builder
	seen := map[string]string{}
	for _, file := range files {
		data := Read(t, file)
		name := kind + "/" + filepath.Base(file)
		err := load(name, data)
		if err == nil {
			t.Errorf("%s was accepted", name)
			continue
		}
		got.WriteString(err.Error() + "\n")
		checkMessage(t, name, string(data), err.Error())
		_, what, _ := strings.Cut(err.Error(), ".toml")
		if other, twice := seen[what]; twice {
			t.Errorf("%s and %s give the same error", name, other)
		}
		seen[what] = name
	}
	const golden = "testdata/bad/errors.golden"
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if diff := cmp.Diff(string(Read(t, golden)), got.String()); diff != "" {
		t.Errorf("errors differ from %s (run with -update to accept):\n%s", golden, diff)
	}
}

// message is the form of every error: file, line, key, what is wrong; what must be.
var message = regexp.MustCompile(`^([a-z]+/[a-z-]+\.toml)(?::(\d+))?(?:: ([a-z][a-z0-9.\[\]-]*))?: (.+)$`)

func checkMessage(t *testing.T, name, card, err string) {
	t.Helper()
	m := message.FindStringSubmatch(err)
	if m == nil || m[1] != name {
		t.Errorf("not of the form file:line: key: what is wrong: %s", err)
		return
	}
	line, key, what := m[2], m[3], m[4]
	if top := regexp.MustCompile(`^[a-z-]*`).FindString(key); line == "" && written(card, top) {
		t.Errorf("no line: %s", err)
	}
	syntax := strings.Contains("not-toml key-twice bracket", strings.TrimSuffix(filepath.Base(name), ".toml"))
	if !syntax && (key == "" || !strings.Contains(what, "; ")) {
		t.Errorf("does not say what is wrong; what must be: %s", err)
	}
	for _, word := range []string{"strict.", "maneuver.Card", "float64", "interface", "struct", "map[", "%!", "0x"} {
		if strings.Contains(what, word) {
			t.Errorf("speaks of the program, not of the card: %s", err)
		}
	}
}

// written reports whether a card has a key or table at its top level.
func written(card, key string) bool {
	top, _, _ := strings.Cut(card, "\n[")
	table := strings.Contains(card, "\n["+key+"]") || strings.Contains(card, "\n[["+key+"]]")
	return table || strings.Contains(top, "\n"+key+" =")
}

// OneLine fails the test unless the error of a card called x.toml is one line that names it.
func OneLine(t *testing.T, err error) {
	t.Helper()
	if s := err.Error(); !strings.HasPrefix(s, "x.toml") || strings.ContainsAny(s, "\n\r") {
		t.Fatalf("error %q", s)
	}
}

// Seed adds to a fuzz test the files of a pattern, of which there must be at least the given number.
func Seed(f *testing.F, pattern string, least int) {
	f.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) < least {
		f.Fatalf("%d files of %s, %v", len(files), pattern, err)
	}
	for _, file := range files {
		f.Add(Read(f, file))
	}
}
