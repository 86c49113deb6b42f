// Package streamtest holds what tests of several packages read: the recorded streams in stream/testdata, taken apart
// by column, so that those tests hold whatever the decoders do.
package streamtest

import (
	"bytes"
	"errors"
	"io"
	"os"
	"strconv"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/capture"
)

// A Column says where a recorded text line has a channel, and the factor to its unit.
type Column struct {
	Channel stream.Channel
	Index   int
	Factor  float64
}

// What the columns of the recordings mean: what is read, and what the simulator itself says of channels that are
// derived.
var (
	// A home simulator's generic output: lazy-eight, startup-stutter.
	SimulatorColumns = []Column{
		{stream.Time, 0, 1}, {stream.Latitude, 3, 1}, {stream.Longitude, 4, 1}, {stream.Altitude, 5, 1},
		{stream.Airspeed, 8, 1}, {stream.GroundSpeed, 11, 1}, {stream.Pitch, 13, 1}, {stream.Bank, 14, 1},
		{stream.Heading, 15, 1},
	}
	SimulatorTruth = []Column{
		{stream.VerticalSpeed, 12, 1}, {stream.RollRate, 20, 1}, {stream.PitchRate, 21, 1}, {stream.YawRate, 22, 1},
	}
	// Socket output of a flight dynamics library: the other files.
	LibraryColumns = []Column{
		{stream.Time, 0, 1}, {stream.Latitude, 1, 1}, {stream.Longitude, 2, 1}, {stream.Altitude, 3, 1},
		{stream.Airspeed, 5, 1}, {stream.Pitch, 9, 1}, {stream.Bank, 10, 1}, {stream.Heading, 11, 1},
	}
	LibraryTruth = []Column{
		{stream.VerticalSpeed, 8, 60}, {stream.RollRate, 15, 180 / 3.14159265358979},
		{stream.PitchRate, 16, 180 / 3.14159265358979}, {stream.YawRate, 17, 180 / 3.14159265358979},
	}
)

// A Line is a datagram of text columns.
type Line struct {
	Received float64 // s since the Unix epoch
	fields   []string
}

// Sample returns the channels of some columns.
func (l Line) Sample(columns []Column) stream.Sample {
	var s stream.Sample
	for _, c := range columns {
		s.Put(c.Channel, l.Value(c))
	}
	return s
}

// Value returns a column in its channel's unit.
func (l Line) Value(c Column) float64 {
	v, err := strconv.ParseFloat(strings.TrimSpace(l.fields[c.Index]), 64)
	if err != nil {
		panic(err)
	}
	return v * c.Factor
}

// Lines reads the data lines of a recording.
func Lines(t testing.TB, name string) []Line {
	t.Helper()
	var lines []Line
	for _, d := range Datagrams(t, name) {
		if text := string(d.Payload); !strings.HasPrefix(text, "<LABELS>") {
			lines = append(lines, Line{d.Seconds(), strings.Split(strings.TrimSpace(text), ",")})
		}
	}
	return lines
}

// Samples reads the samples of a recording of text columns.
func Samples(t testing.TB, name string, columns []Column) []stream.Sample {
	t.Helper()
	lines := Lines(t, name)
	samples := make([]stream.Sample, len(lines))
	for i, l := range lines {
		samples[i] = l.Sample(columns)
	}
	return samples
}

// Datagrams reads a recording of stream/testdata, from the folder of a package beside it.
func Datagrams(t testing.TB, name string) []capture.Datagram {
	t.Helper()
	return Read(t, "../testdata/"+name+".pcap.gz")
}

// Read reads all datagrams of a recording.
func Read(t testing.TB, file string) []capture.Datagram {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r, err := capture.Open(f)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	var all []capture.Datagram
	for {
		d, err := r.Next()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		d.Payload = bytes.Clone(d.Payload)
		all = append(all, d)
	}
}

// Payloads reads what the datagrams of a recording carry.
func Payloads(t testing.TB, file string) [][]byte {
	t.Helper()
	var list [][]byte
	for _, d := range Read(t, file) {
		list = append(list, d.Payload)
	}
	return list
}
