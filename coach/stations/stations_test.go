package stations

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/ids"
)

var noon = time.Date(2026, 1, 2, 12, 0, 0, 0, time.UTC)

func open(t *testing.T, dir string) *Register {
	t.Helper()
	r, err := Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestIdentity: what keeps a station the same one, and what makes it another. Each step is a start of the program on
// the same folder.
func TestIdentity(t *testing.T) {
	dir := t.TempDir()
	gone := func(s Station) bool { return s.Name == "Seat 3" } // a name that the configuration gives no more
	got := map[string]string{}
	for i, step := range []struct {
		what, name, sender string
		renamed            func(Station) bool
		as                 string // as which of those before; "" is a new one
	}{
		{"a first one", "192.168.1.20", "192.168.1.20", nil, ""},
		{"from another port", "192.168.1.20", "192.168.1.20", nil, "a first one"},
		{"another machine", "192.168.1.21", "192.168.1.21", nil, ""},
		{"given a name", "Seat 3", "192.168.1.20", nil, "a first one"},
		{"from another address", "Seat 3", "192.168.1.30", nil, "a first one"},
		{"in other letters", "SEAT 3", "192.168.1.30", nil, "a first one"},
		{"given another name", "Bench", "192.168.1.30", gone, ""}, // "SEAT 3" is not free
		{"with its old name back", "Seat 3", "192.168.1.31", nil, "a first one"},
		{"another name in the configuration", "Left", "192.168.1.31", gone, "a first one"},
		{"a second simulator of that machine", "192.168.1.31", "192.168.1.31", nil, ""},
	} {
		r := open(t, dir)
		s := r.Of(step.name, step.sender, step.renamed, noon.Add(time.Duration(i)*time.Hour))
		if found, ok := r.Find(step.name, step.sender, step.renamed); !ok || found != s {
			t.Errorf("%s: found is %+v, it is %+v", step.what, found, s)
		}
		if !ids.Valid(s.ID) {
			t.Errorf("%s: the id is %q", step.what, s.ID)
		}
		for before, id := range got {
			if same := id == s.ID; before == step.as && !same {
				t.Errorf("%s: it is not %s any more", step.what, before)
			} else if step.as == "" && same {
				t.Errorf("%s: it is taken for %s", step.what, before)
			}
		}
		got[step.what] = s.ID
		if err := r.Save(); err != nil {
			t.Fatal(err)
		}
	}
	if n := len(open(t, dir).List()); n != 4 {
		t.Errorf("%d stations are kept", n)
	}
}

// TestRestore: a station that a recording names comes back under its id, unless id or name are known.
func TestRestore(t *testing.T) {
	r := open(t, t.TempDir())
	s := Station{ID: ids.New(noon), Name: "Seat 3", Sender: "192.168.1.20", Seen: noon}
	r.Restore(s)
	r.Restore(Station{ID: ids.New(noon), Name: "seat 3"})
	r.Restore(Station{ID: s.ID, Name: "Seat 4"})
	r.Restore(Station{ID: "x", Name: "Seat 5"})
	if d := cmp.Diff([]Station{s}, r.List()); d != "" {
		t.Error(d)
	}
}

// TestBounded: no number of senders grows the memory; the one seen longest ago goes first.
func TestBounded(t *testing.T) {
	r := open(t, t.TempDir())
	for i := range Most + 10 {
		r.Of(fmt.Sprint("station ", i), "", nil, noon.Add(time.Duration(i)*time.Second))
	}
	if n := len(r.List()); n != Most {
		t.Errorf("%d stations are kept", n)
	}
	for name, want := range map[string]bool{
		"station 9":                    false,
		"station 10":                   true,
		fmt.Sprint("station ", Most+9): true,
	} {
		if _, ok := r.Find(name, "-", nil); ok != want {
			t.Errorf("%s is known: %v", name, ok)
		}
	}
}

// TestDamaged: a file that cannot be understood is kept aside, and the program goes on.
func TestDamaged(t *testing.T) {
	id := ids.New(noon)
	for text, says := range map[string]string{
		"":                               "unexpected end",
		`{"version":2}`:                  "version is 2; must be 1",
		`{"version":1,"stations":[{}]}`:  "each needs its own",
		`{"version":1,"stations":"all"}`: "cannot unmarshal",
		`{"version":1,"stations":[{"id":"` + id + `","name":"a"},{"id":"` + id + `","name":"b"}]}`: "station 2",
	} {
		dir := t.TempDir()
		file := filepath.Join(dir, File)
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		r, err := Open(dir)
		if err == nil || !strings.Contains(err.Error(), says) || len(r.List()) != 0 {
			t.Errorf("%s: %v", text, err)
		}
		if kept, err := os.ReadFile(file + ".damaged"); err != nil || string(kept) != text {
			t.Errorf("%s: kept is %q, %v", text, kept, err)
		}
		r.Of("a", "b", nil, noon)
		if err := r.Save(); err != nil || len(open(t, dir).List()) != 1 {
			t.Errorf("%s: afterwards %v", text, err)
		}
	}
}

// TestSaveFails: what could not be written is written later, and nothing is left of the attempt.
func TestSaveFails(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "later")
	r := open(t, dir)
	s := r.Of("a", "b", nil, noon)
	if err := r.Save(); err == nil || !strings.Contains(err.Error(), "cannot be kept") {
		t.Errorf("without a folder: %v", err)
	}
	if err := os.Mkdir(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		if err := r.Save(); err != nil {
			t.Fatal(err)
		}
	}
	if d := cmp.Diff([]Station{s}, open(t, dir).List()); d != "" {
		t.Error(d)
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
		t.Errorf("in the folder are %v, %v", entries, err)
	}
}

// TestManyNames: whatever is renamed, forgotten or comes back, a name finds the station that has it, and no other. Each
// answer is compared with a look at all stations.
func TestManyNames(t *testing.T) {
	var r Register
	random := rand.New(rand.NewPCG(1, 2))
	anyRenamed := func(Station) bool { return true }
	for i := range 3 * Most {
		name, sender := fmt.Sprint("Seat ", random.IntN(2*Most)), fmt.Sprint(random.IntN(Most))
		s := r.Of(name, sender, anyRenamed, noon.Add(time.Duration(i)*time.Second))
		if s.Name != name || s.Sender != sender {
			t.Fatalf("%q at %q is %+v", name, sender, s)
		}
	}
	list := r.List()
	if len(list) > Most || len(r.places) != len(list) {
		t.Fatalf("%d stations, %d names", len(list), len(r.places))
	}
	for _, s := range list {
		if found, ok := r.Find(s.Name, "", nil); !ok || found != s {
			t.Fatalf("%+v is found as %+v", s, found)
		}
	}
	for i := range 2 * Most {
		name := fmt.Sprint("Seat ", i)
		known := slices.ContainsFunc(list, func(s Station) bool { return s.Name == name })
		if _, ok := r.Find(name, "", nil); ok != known {
			t.Fatalf("%q: found is %v; must be %v", name, ok, known)
		}
	}
}
