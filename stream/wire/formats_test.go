package wire_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/vectors"
	"halfturn/stream/wire/wiretest"
)

// A seed is a datagram that some format reads, after those that its reader needs before it.
type seed struct {
	options format.Options
	before  [][]byte
	b       []byte
}

// seeds are datagrams of every format: of every encoder, of the published messages of every package, and those of the
// formats that have neither.
func seeds(t testing.TB) (all []seed) {
	t.Helper()
	for _, name := range encode.Formats() {
		e, in := wiretest.NewEncoder(t, name), wiretest.FullSample()
		b := e.Append(nil, &in)
		all = append(all, seed{before: append([][]byte{e.Preamble()}, b, b, b, b), b: b})
	}
	files, err := filepath.Glob("*/testdata/messages.json")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		for _, m := range vectors.Load(t, file) {
			all = append(all, seed{b: m.Bytes(t)})
		}
	}
	lines, err := mapping.Load("lines.toml", []byte(`separator = "newline"
		order = ["H", "P"]
		sources = [
			{ column = 1, channel = "heading", unit = "deg" },
			{ column = 2, channel = "pitch", unit = "deg" },
		]`))
	if err != nil {
		t.Fatal(err)
	}
	dataref := "DREF+\x00\x00\xcb\x42sim/flightmodel/position/indicated_airspeed" + string(make([]byte, 457))
	return append(all, seed{options: format.Options{Map: lines}, b: []byte("270\n3\n")}, seed{b: []byte(dataref)})
}

// reader returns a reader that was given what comes before the seed.
func (d *seed) reader() *wire.Reader {
	r := wire.NewReader(d.options)
	var s stream.Sample
	for _, b := range d.before {
		_ = r.Decode(b, 0, &s)
	}
	return r
}

// Every format that is read is reached by some seed, under each of its names; no other has the name, and the format is
// found by it.
func TestEveryFormatIsReached(t *testing.T) {
	reached := map[string]bool{}
	for _, d := range seeds(t) {
		r := d.reader()
		var s stream.Sample
		if err := r.Decode(d.b, 0, &s); err == nil || fault.Reason(err) == "" {
			reached[r.Format()] = true
		}
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

// Every format that is read has datagrams with the values they hold, under each of its names: in its package, or here
// when they need labels, a map or other datagrams before them.
func TestEveryFormatHasVectors(t *testing.T) {
	files, err := filepath.Glob("*/testdata/messages.json")
	if err != nil {
		t.Fatal(err)
	}
	held := map[string]bool{}
	for _, file := range append(files, "testdata/vectors.json") {
		for _, m := range vectors.Load(t, file) {
			held[m.Format] = held[m.Format] || len(m.Want) > 0
		}
	}
	for _, f := range wire.Formats() {
		for _, name := range f.Names {
			if !held[name] {
				t.Errorf("%s has no vector; it needs one in %s/testdata/messages.json", name, home(f))
			}
		}
	}
}

// Every package of formats has a fuzz target for each of those that are read, with seeds.
func TestEveryFormatIsFuzzed(t *testing.T) {
	read := map[string]int{}
	for _, f := range wire.Formats() {
		read[home(f)]++
	}
	for dir, formats := range read {
		tests, err := filepath.Glob(dir + "/*_test.go")
		if err != nil {
			t.Fatal(err)
		}
		fuzzed := 0
		for _, file := range tests {
			parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range parsed.Decls {
				target, ok := d.(*ast.FuncDecl)
				if !ok || !strings.HasPrefix(target.Name.Name, "Fuzz") {
					continue
				}
				fuzzed++
				seeds, err := filepath.Glob(dir + "/testdata/fuzz/" + target.Name.Name + "/*")
				if err != nil || len(seeds) < 3 {
					t.Errorf("%s: %s has %d seeds; must be 3 or more", file, target.Name.Name, len(seeds))
				}
			}
		}
		if fuzzed < formats {
			t.Errorf("%s has %d fuzz targets; must be %d, one per format", dir, fuzzed, formats)
		}
	}
}

// home is the folder of the package that a format comes from: the one its decoders are made in.
func home(f *format.Format) string {
	made := strings.TrimPrefix(runtime.FuncForPC(reflect.ValueOf(f.New).Pointer()).Name(), "halfturn/stream/wire/")
	dir, _, _ := strings.Cut(made, ".")
	return dir
}

// FuzzDatagrams feeds each format, after a stream of its own, what is near to its datagrams and to those of all others.
// It takes up a new format by its encoder or its published messages.
func FuzzDatagrams(f *testing.F) {
	all := seeds(f)
	for i, d := range all {
		f.Add(uint16(i), d.b, uint16(len(d.b)/2))
	}
	f.Fuzz(func(t *testing.T, i uint16, b []byte, cut uint16) {
		d := &all[int(i)%len(all)]
		r := d.reader()
		var s stream.Sample
		n := min(int(cut), len(b))
		for _, part := range [][]byte{b, b[:n], b[n:], d.b} {
			before := bytes.Clone(part)
			err := r.Decode(part, 0, &s)
			if !bytes.Equal(part, before) {
				t.Fatal("the datagram was changed")
			}
			if err != nil && s != (stream.Sample{}) || err == nil && s.Has == 0 {
				t.Fatalf("%v with the sample %+v", err, s)
			}
			if err != nil && fault.Reason(err) == "other" {
				t.Fatalf("error without a label: %v", err)
			}
			if err == nil {
				wiretest.CheckSample(t, &s)
			}
			_ = r.Advice()
		}
	})
}

// The sets of formats have room for all.
func TestFormatsFit(t *testing.T) {
	if n := len(wire.Formats()); n == 0 || n > 60 {
		t.Errorf("%d formats; at most 64 fit in a set", n)
	}
}

var update = flag.Bool("update", false, "write the golden files")

// TestNames holds how formats are named to testdata/names.json, from which the pages' texts are told; go test -update
// writes it.
func TestNames(t *testing.T) {
	const golden = "testdata/names.json"
	var names []string
	for _, f := range wire.Formats() {
		names = append(names, f.Names...)
	}
	slices.Sort(names)
	text, err := json.MarshalIndent(slices.Compact(names), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	text = append(text, '\n')
	if *update {
		if err := os.WriteFile(golden, text, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(golden); err != nil || string(want) != string(text) {
		t.Errorf("%s differs from %s (%v); go test -update rewrites it", golden, text, err)
	}
}
