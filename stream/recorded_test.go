package stream_test

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

// A column says where a recorded text line has a channel, and the factor to its unit.
type column struct {
	channel stream.Channel
	index   int
	factor  float64
}

// What the columns of the recordings in testdata mean. They are read here by position, so
// that these tests hold whatever the decoders do.
var (
	// A home simulator's generic output: testdata/lazy-eight, testdata/startup-stutter.
	simulatorColumns = []column{
		{stream.Time, 0, 1}, {stream.Latitude, 3, 1}, {stream.Longitude, 4, 1}, {stream.Altitude, 5, 1},
		{stream.Airspeed, 8, 1}, {stream.GroundSpeed, 11, 1}, {stream.Pitch, 13, 1}, {stream.Bank, 14, 1},
		{stream.Heading, 15, 1},
	}
	simulatorTruth = []column{
		{stream.VerticalSpeed, 12, 1}, {stream.RollRate, 20, 1}, {stream.PitchRate, 21, 1}, {stream.YawRate, 22, 1},
	}
	// Socket output of a flight dynamics library: the other files.
	libraryColumns = []column{
		{stream.Time, 0, 1}, {stream.Latitude, 1, 1}, {stream.Longitude, 2, 1}, {stream.Altitude, 3, 1},
		{stream.Airspeed, 5, 1}, {stream.Pitch, 9, 1}, {stream.Bank, 10, 1}, {stream.Heading, 11, 1},
	}
	libraryTruth = []column{
		{stream.VerticalSpeed, 8, 60}, {stream.RollRate, 15, 180 / 3.14159265358979},
		{stream.PitchRate, 16, 180 / 3.14159265358979}, {stream.YawRate, 17, 180 / 3.14159265358979},
	}
)

// A line is one recorded datagram.
type line struct {
	received float64
	fields   []string
}

func (l line) sample(columns []column) stream.Sample {
	var s stream.Sample
	for _, c := range columns {
		s.Put(c.channel, l.value(c))
	}
	return s
}

func (l line) value(c column) float64 {
	v, err := strconv.ParseFloat(strings.TrimSpace(l.fields[c.index]), 64)
	if err != nil {
		panic(err)
	}
	return v * c.factor
}

// recorded reads the data lines of a file in testdata.
func recorded(t testing.TB, name string) []line {
	t.Helper()
	file, err := os.ReadFile("testdata/" + name + ".pcap.gz")
	if err != nil {
		t.Fatal(err)
	}
	r, err := capture.Open(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	var lines []line
	for {
		d, err := r.Next()
		if err == io.EOF {
			return lines
		}
		if err != nil {
			t.Fatal(err)
		}
		if text := string(d.Payload); !strings.HasPrefix(text, "<LABELS>") {
			lines = append(lines, line{d.Seconds(), strings.Split(strings.TrimSpace(text), ",")})
		}
	}
}
