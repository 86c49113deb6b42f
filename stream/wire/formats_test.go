package wire_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/vectors"
	"halfturn/stream/wire/wiretest"
)

// Every format that is read is reached by some datagram of the tests, under each of its names; no other has the name,
// and the format is found by it.
func TestEveryFormatIsReached(t *testing.T) {
	reached := map[string]bool{}
	for _, name := range encode.Formats() {
		r, _ := wiretest.Warm(t, name)
		reached[r.Format()] = true
	}
	files, err := filepath.Glob("*/testdata/messages.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		for _, m := range vectors.Load(t, file) {
			r := wire.NewReader(format.Options{})
			var s stream.Sample
			if r.Decode(m.Bytes(t), 0, &s) == nil {
				reached[r.Format()] = true
			}
		}
	}
	lines, err := mapping.Load("lines.toml", []byte("separator = \"newline\"\norder = [\"H\", \"P\"]\n"+
		"sources = [{ column = 1, channel = \"heading\", unit = \"deg\" }, { column = 2, channel = \"pitch\", unit = "+
		"\"deg\" }]"))
	if err != nil {
		t.Fatal(err)
	}
	for b, o := range map[string]format.Options{
		"270\n3\n": {Map: lines},
		"DREF+\x00\x00\xcb\x42sim/flightmodel/position/indicated_airspeed" + string(make([]byte, 457)): {},
	} {
		r := wire.NewReader(o)
		var s stream.Sample
		_ = r.Decode([]byte(b), 0, &s)
		reached[r.Format()] = true
	}
	seen := map[string]bool{}
	for _, f := range wire.Formats() {
		if len(f.Names) == 0 {
			t.Error("a format without a name")
		}
		for _, name := range f.Names {
			if !reached[name] {
				t.Errorf("%s: no datagram of the tests is read as that", name)
			}
			if seen[name] || wire.Named(name) != f {
				t.Errorf("%s: the name is not its own", name)
			}
			seen[name] = true
		}
	}
	if wire.Named("") != nil || wire.Named("beacon") != nil {
		t.Error("a format is named that is not read")
	}
}

// Every package that has a format has a fuzz target with seeds.
func TestEveryFormatIsFuzzed(t *testing.T) {
	sources, err := filepath.Glob("*/*.go")
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, file := range sources {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(data, []byte("= &format.Format{")) {
			found[filepath.Dir(file)] = true
		}
	}
	if len(found) < 9 {
		t.Fatalf("only %d packages have a format: %v", len(found), found)
	}
	for dir := range found {
		seeds, err := filepath.Glob(filepath.Join(dir, "testdata", "fuzz", "Fuzz*", "*"))
		if err != nil || len(seeds) < 3 {
			t.Errorf("%s: %d seeds, %v", dir, len(seeds), err)
		}
	}
}
