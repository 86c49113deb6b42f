package maneuver

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

// load reads a card of the kind its folder names.
func load(file string, data []byte) error {
	if filepath.Base(filepath.Dir(file)) == "aircraft" {
		_, err := LoadAircraft(file, data)
		return err
	}
	_, err := LoadCard(file, data)
	return err
}

func read(t testing.TB, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// The cards that the wrong ones were made from are right.
func TestGoodCards(t *testing.T) {
	if _, err := LoadCard("good-maneuver.toml", read(t, "testdata/good-maneuver.toml")); err != nil {
		t.Error(err)
	}
	if _, err := LoadAircraft("good-aircraft.toml", read(t, "testdata/good-aircraft.toml")); err != nil {
		t.Error(err)
	}
}

// message is the form of every error: file, line, key, what is wrong; what is allowed.
var message = regexp.MustCompile(`^([a-z]+/[a-z-]+\.toml)(?::(\d+))?(?:: ([a-z][a-z0-9.\[\]-]*))?: (.+)$`)

// Each file of testdata/bad is wrong in one way, that its first line tells.
func TestBadCards(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*/*.toml")
	if err != nil || len(files) < 100 {
		t.Fatalf("%d wrong cards, %v", len(files), err)
	}
	var got strings.Builder
	seen := map[string]string{}
	for _, file := range files {
		data := read(t, file)
		name := filepath.Join(filepath.Base(filepath.Dir(file)), filepath.Base(file))
		err := load(name, data)
		if err == nil {
			t.Errorf("%s was accepted", name)
			continue
		}
		got.WriteString(err.Error() + "\n")
		checkMessage(t, name, string(data), err.Error())
		_, what, _ := strings.Cut(err.Error(), ".toml")
		what = filepath.Dir(name) + what
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
	if diff := cmp.Diff(string(read(t, golden)), got.String()); diff != "" {
		t.Errorf("errors differ from %s (run with -update to accept):\n%s", golden, diff)
	}
}

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
		t.Errorf("does not say what is wrong; what is allowed: %s", err)
	}
	for _, word := range []string{"strict.", "maneuver.Card", "float64", "interface", "struct", "map[", "%!", "0x"} {
		if strings.Contains(what, word) {
			t.Errorf("speaks of the program, not of the card: %s", err)
		}
	}
}

// written tells whether a card has a key or table at its top level.
func written(card, key string) bool {
	top, _, _ := strings.Cut(card, "\n[")
	return strings.Contains(top, "\n"+key+" =") || strings.Contains(card, "\n["+key+"]") || strings.Contains(card, "\n[["+key+"]]")
}
