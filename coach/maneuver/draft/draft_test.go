package draft

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/archive/play"
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream/pipeline"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

func library(t *testing.T) *maneuver.Library {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	return lib
}

func TestFind(t *testing.T) {
	lib := library(t)
	for name, want := range map[string]string{"wing-over": "maneuvers", "check": "standards",
		"light-single": "aircraft", "loop": ""} {
		kind, o, ok := Find(lib, name)
		if kind != want || ok != (want != "") || ok && len(o.Text) == 0 {
			t.Errorf("%s: a card of %q, %t", name, kind, ok)
		}
	}
}

// A card of each kind can be begun from a shipped one: its name alone changes.
func TestRename(t *testing.T) {
	lib := library(t)
	for _, from := range []string{"wing-over", "check", "light-single"} {
		kind, o, _ := Find(lib, from)
		text, err := Rename(kind, "folder/mine.toml", o.Text)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Replace(string(text), `"mine"`, `"`+from+`"`, 1); got != string(o.Text) {
			t.Errorf("%s: more than the name has changed", from)
		}
		for _, bad := range []string{"mine.txt", "Not A Name.toml", ".toml"} {
			if _, err := Rename(kind, bad, o.Text); err == nil {
				t.Errorf("%s was begun as %s", from, bad)
			}
		}
	}
}

func TestCheck(t *testing.T) {
	lib := library(t)
	for _, name := range []string{"wing-over", "check", "light-single"} {
		kind, o, _ := Find(lib, name)
		if err := Check(kind, "a.toml", o.Text); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if err := Check(kind, "a.toml", []byte("name = 3\n")); err == nil ||
			!strings.HasPrefix(err.Error(), "a.toml:1: name: ") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestWrite(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.toml")
	if err := Write(name, []byte("one")); err != nil {
		t.Fatal(err)
	}
	if err := Write(name, []byte("two")); !errors.Is(err, fs.ErrExist) {
		t.Errorf("written over: %v", err)
	}
	if text, err := os.ReadFile(name); string(text) != "one" {
		t.Errorf("%q, %v", text, err)
	}
}

func TestNameOf(t *testing.T) {
	for file, want := range map[string]string{"a/My Plane 2.pcap.gz": "my-plane-2", "172.pcapng": "plane-172",
		"....pcap": "plane"} {
		if got := NameOf(file); got != want {
			t.Errorf("%q is named %q, want %q", file, got, want)
		}
	}
}

// The recorded airplane enters at 118 kt. What is written is a card.
func TestMeasure(t *testing.T) {
	rec, err := play.Open(t.Context(), "../../../cmd/halfturn/testdata/wo-single-b-rolled-out-early-1.pcap.gz")
	if err != nil {
		t.Fatal(err)
	}
	as, err := rec.Settle(session.Options{Station: pipeline.Options{Wire: format.Options{Maps: mapping.Shipped()}}})
	if err != nil {
		t.Fatal(err)
	}
	m, err := Measure(t.Context(), rec, as.Station)
	if err != nil {
		t.Fatal(err)
	}
	text := Aircraft(m, "mine", "flight.pcap")
	for _, want := range []string{"entry = 117", "rpm", "# stall: not found", `source = "measured from flight.pcap"`} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in:\n%s", want, text)
		}
	}
	if err := Check(maneuver.FolderOf([]byte(text)), "mine.toml", []byte(text)); err != nil {
		t.Error(err)
	}
}
