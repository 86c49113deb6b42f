package wire

import (
	"bytes"
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"halfturn/stream"
)

// readFile reads a file of testdata.
func readFile(t testing.TB, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// datagrams reads a recording of one text datagram a line, line ends kept.
func datagrams(t testing.TB, name string) [][]byte {
	t.Helper()
	lines := bytes.SplitAfter(readFile(t, name), []byte("\n"))
	return lines[:len(lines)-1]
}

// loadMap loads a map of testdata/maps.
func loadMap(t testing.TB, name string) *Map {
	t.Helper()
	m, err := LoadMap(name, readFile(t, "maps/"+name))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// mustDecode decodes a datagram that must give a sample.
func mustDecode(t testing.TB, r *Reader, b []byte) stream.Sample {
	t.Helper()
	var s stream.Sample
	if err := r.Decode(b, &s); err != nil {
		t.Fatalf("Decode(%.80q): %v", b, err)
	}
	return s
}

// decodeAllOf returns the samples of the datagrams; errors are skipped.
func decodeAllOf(r *Reader, all [][]byte) []stream.Sample {
	var out []stream.Sample
	for _, b := range all {
		var s stream.Sample
		if r.Decode(b, &s) == nil {
			out = append(out, s)
		}
	}
	return out
}

// near compares in a channel's unit, angles the short way round.
func near(c stream.Channel, got, want, tol float64) bool {
	d := got - want
	if c.Info().Circular {
		d = stream.Wrap180(d)
	}
	return math.Abs(d) <= tol
}

// truth reads a table of truth: channel values by time, in the channels' units.
func truth(t *testing.T, name string) (times []float64, rows []map[string]float64) {
	t.Helper()
	table, err := csv.NewReader(bytes.NewReader(readFile(t, name))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, rec := range table[1:] {
		row := map[string]float64{}
		for i, head := range table[0] {
			v, err := strconv.ParseFloat(rec[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			row[head] = v
		}
		times = append(times, row["t_s"])
		rows = append(rows, row)
	}
	return times, rows
}
