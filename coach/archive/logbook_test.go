package archive

import (
	"encoding/json"
	"errors"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook/sqlite"
)

func open(t *testing.T) *Archive {
	t.Helper()
	b, err := Open(t.TempDir(), Options{Engine: sqlite.Engine{}})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b
}

func newID(t *testing.T, b *Archive, station string) string {
	t.Helper()
	id, err := b.NewID(began, station)
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func TestOpen(t *testing.T) {
	data := filepath.Join(t.TempDir(), "not", "there", "yet")
	for range 2 { // the second time it is there
		b, err := Open(data, Options{Engine: sqlite.Engine{}})
		if err != nil {
			t.Fatal(err)
		}
		if info, err := os.Stat(b.Dir()); err != nil || !info.IsDir() || b.Dir() != filepath.Join(data, "sessions") {
			t.Errorf("%s: %v", b.Dir(), err)
		}
		must(t, b.Close())
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(file, Options{Engine: sqlite.Engine{}}); err == nil || !strings.Contains(err.Error(), file) ||
		!strings.Contains(err.Error(), "--data") || strings.Contains(err.Error(), "\n") {
		t.Errorf("a file as the data directory: %v", err)
	}
}

func TestNewID(t *testing.T) {
	east := began.In(time.FixedZone("east", 2*3600))
	for station, want := range map[string]string{
		"127.0.0.1:50123":     "127.0.0.1-50123",
		"[2001:db8::1]:49002": "2001-db8--1--49002",
		"Seat-3":              "Seat-3",
		"":                    "",
		"...":                 "",
		"../../etc/passwd":    "etc-passwd",
		`..\..\boot.ini`:      "boot.ini",
		"/":                   "",
		"a/b":                 "a-b",
		"a\x00b\n":            "a-b",
		"Sitz größe":          "Sitz-gr--e",
		"座席":                  "",
		"\xff\xfe":            "",
		"C:":                  "C",
		"a<b>|*?\"":           "a-b",
	} {
		b := open(t)
		id, err := b.NewID(east, station)
		if err != nil {
			t.Errorf("%q: %v", station, err)
			continue
		}
		if want = "2031-05-04T09-00-07Z_" + want; id != want {
			t.Errorf("%q: %s, want %s", station, id, want)
		}
	}
}

// Whatever a station is called, its session is one folder of the book, with a name that every
// file system takes.
func FuzzNewID(f *testing.F) {
	for _, s := range []string{"127.0.0.1:50123", "../..", "..\\..", "/abs", "a\x00", "座席", strings.Repeat("x", 5000),
		strings.Repeat(".x", 100), strings.Repeat("x", 59) + "." + "y", "con", "~", "$HOME", "%2e%2e%2f"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, station string) {
		b := open(t)
		ids := map[string]bool{}
		for range 3 {
			id := newID(t, b, station)
			if ids[id] {
				t.Fatalf("%q twice", id)
			}
			ids[id] = true
			if len(id) > 100 || !utf8.ValidString(id) || filepath.Base(id) != id || strings.ContainsAny(id,
				`/\:*?"<>| `) || strings.HasSuffix(id, ".") || id[0] != '2' {
				t.Fatalf("%q from station %q", id, station)
			}
		}
		entries, err := os.ReadDir(b.Dir())
		if err != nil || len(entries) != 3 {
			t.Fatalf("%d folders, %v", len(entries), err)
		}
		for _, e := range entries {
			if !e.IsDir() || !ids[e.Name()] {
				t.Fatalf("%s", e.Name())
			}
		}
	})
}

// Many sessions that begin in the same second on stations of the same name, all at once.
func TestNewIDUnique(t *testing.T) {
	b := open(t)
	var wait sync.WaitGroup
	var mu sync.Mutex
	seen := map[string]int{}
	for range 8 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for range 25 {
				id, err := b.NewID(began, "seat")
				if err != nil {
					t.Error(err)
					return
				}
				mu.Lock()
				seen[id]++
				mu.Unlock()
			}
		}()
	}
	wait.Wait()
	if len(seen) != 200 {
		t.Errorf("%d names for 200 sessions", len(seen))
	}
}

func TestNewIDNoFolder(t *testing.T) {
	b := open(t)
	if err := os.RemoveAll(b.Dir()); err != nil {
		t.Fatal(err)
	}
	if id, err := b.NewID(began, "seat"); err == nil || id != "" || !strings.Contains(err.Error(),
		"2031-05-04T09-00-07Z_seat") {
		t.Errorf("%q, %v", id, err)
	}
}

func report(score float64) *debrief.Report {
	r := debrief.New()
	r.Session = &debrief.SessionDates{ID: "x", Began: "2031-05-04T09:00:07Z", Ended: "2031-05-04T09:30:00Z"}
	series := coach.Series{
		Maneuver: "wing-over",
		Verdict:  coach.Met,
		Score:    score,
		Checks:   []coach.Check{},
		Legs:     []coach.Leg{},
	}
	station := debrief.StationReport{
		Station:  "seat",
		Samples:  1800,
		Duration: 60.5,
		Channels: []string{"time"},
		Derived:  []string{},
		Series:   []coach.Series{series},
	}
	r.Files = []debrief.FileReport{{Stations: []debrief.StationReport{station}}}
	return r
}

func TestSave(t *testing.T) {
	b := open(t)
	id := newID(t, b, "seat")
	for _, score := range []float64{90.5, 12} { // the second takes the place of the first
		want := report(score)
		path, err := b.Save(id, want)
		if err != nil {
			t.Fatal(err)
		}
		if path != filepath.Join(b.Dir(), id, "summary.json") {
			t.Errorf("saved as %s", path)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		var got debrief.Report
		if err := json.Unmarshal(data, &got); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want, &got); diff != "" {
			t.Errorf("read back:\n%s", diff)
		}
		if data[len(data)-1] != '\n' {
			t.Error("no line end at the end")
		}
		alone(t, filepath.Join(b.Dir(), id), "summary.json")
	}
}

// alone fails when a folder holds anything but the named files.
func alone(t *testing.T, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	if strings.Join(got, " ") != strings.Join(want, " ") {
		t.Errorf("%s holds %v, want %v", dir, got, want)
	}
}

// A write that fails leaves no part of a file, and the old file as it was.
func TestSaveFails(t *testing.T) {
	t.Run("a folder in the place of the file", func(t *testing.T) {
		b := open(t)
		id := newID(t, b, "seat")
		dir := filepath.Join(b.Dir(), id)
		if err := os.MkdirAll(filepath.Join(dir, "summary.json", "x"), 0o750); err != nil {
			t.Fatal(err)
		}
		wantError(t, b, id, report(1))
		alone(t, dir, "summary.json")
	})
	t.Run("no such session", func(t *testing.T) {
		b := open(t)
		wantError(t, b, "never-begun", report(1))
		alone(t, b.Dir())
	})
	t.Run("a number that JSON does not have", func(t *testing.T) {
		b := open(t)
		id := newID(t, b, "seat")
		before := saved(t, b, id)
		wantError(t, b, id, report(math.NaN()))
		unchanged(t, b, id, before)
	})
	t.Run("a folder that may not be written", func(t *testing.T) {
		if os.Getuid() == 0 || runtime.GOOS == "windows" {
			t.Skip("this user may write everywhere")
		}
		b := open(t)
		id := newID(t, b, "seat")
		before := saved(t, b, id)
		dir := filepath.Join(b.Dir(), id)
		if err := os.Chmod(dir, 0o500); err != nil {
			t.Fatal(err)
		}
		defer func() { _ = os.Chmod(dir, 0o700) }()
		wantError(t, b, id, report(2))
		unchanged(t, b, id, before)
	})
}

func wantError(t *testing.T, b *Archive, id string, r *debrief.Report) {
	t.Helper()
	path, err := b.Save(id, r)
	if err == nil || path != "" || !strings.Contains(err.Error(), id) || strings.Contains(err.Error(), "\n") {
		t.Errorf("%q, %v", path, err)
	}
}

func saved(t *testing.T, b *Archive, id string) []byte {
	t.Helper()
	path, err := b.Save(id, report(90))
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func unchanged(t *testing.T, b *Archive, id string, before []byte) {
	t.Helper()
	dir := filepath.Join(b.Dir(), id)
	after, err := os.ReadFile(filepath.Join(dir, "summary.json"))
	if err != nil || string(after) != string(before) {
		t.Errorf("the old file is gone or changed: %v", err)
	}
	alone(t, dir, "summary.json")
}

// While one writes, a reader sees a whole report, the old or the new one.
func TestSaveWhileRead(t *testing.T) {
	b := open(t)
	id := newID(t, b, "seat")
	saved(t, b, id)
	done := make(chan struct{})
	go func() {
		defer close(done)
		for i := range 30 {
			if _, err := b.Save(id, report(float64(i))); err != nil {
				t.Error(err)
				return
			}
		}
	}()
	for reading := true; reading; {
		select {
		case <-done:
			reading = false
		default:
		}
		data, err := os.ReadFile(filepath.Join(b.Dir(), id, "summary.json"))
		if errors.Is(err, os.ErrNotExist) || err == nil && !json.Valid(data) {
			t.Fatalf("a part of a report: %d bytes, %v", len(data), err)
		}
	}
}
