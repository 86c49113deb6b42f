// Package streamtest holds what tests of several packages read: the recorded streams in stream/testdata, taken apart
// by column, so that those tests hold whatever the decoders do.
package streamtest

import (
	"bytes"
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

// A Datagram is one recorded datagram.
type Datagram struct {
	Payload  []byte
	Received float64 // s since the Unix epoch
}

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
			lines = append(lines, Line{d.Received, strings.Split(strings.TrimSpace(text), ",")})
		}
	}
	return lines
}

// Datagrams reads a recording of stream/testdata, from the folder of a package beside it.
func Datagrams(t testing.TB, name string) []Datagram {
	t.Helper()
	file, err := os.ReadFile("../testdata/" + name + ".pcap.gz")
	if err != nil {
		t.Fatal(err)
	}
	r, err := capture.Open(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	var all []Datagram
	for {
		d, err := r.Next()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, Datagram{bytes.Clone(d.Payload), d.Seconds()})
	}
}
