// Package encode writes samples as simulators would send them: for the built-in aircraft, tests and load. What it
// writes is read back by the decoders below stream/wire with the shipped maps. Channels that a format has no place for
// are left out.
package encode

import (
	"fmt"
	"strings"

	"halfturn/stream"
)

// An Encoder writes one stream. It is not safe for concurrent use.
type Encoder interface {
	// Preamble is the datagram to send before all others, nil when there is none.
	Preamble() []byte
	// Channels are those that the format has a place for.
	Channels() stream.Set
	// Append adds one datagram to dst and returns the longer slice.
	Append(dst []byte, s *stream.Sample) []byte
}

// A Splitter is an Encoder whose format sends one state in several datagrams. Append puts them all into one, which the
// decoder takes too.
type Splitter interface {
	Encoder
	// Datagrams calls emit with each datagram of a sample, valid only during the call.
	Datagrams(s *stream.Sample, emit func([]byte))
}

// A written is a format that can be written, declared in the file of its encoder.
type written struct {
	Name  string // as a user writes it
	Reads string // what a reader calls the stream
	Loss  Loss
	make  func() (Encoder, error)
}

// A Loss is what a format loses of the channels that it has. The tests hold encoder and decoder to it.
type Loss struct {
	Abs, Rel float64                    // what its digits lose, absolute in the channel's unit and relative
	Coarse   map[stream.Channel]float64 // Abs, where it is more
	Magnetic bool                       // a magnetic heading stays one; else it is left out
	Mute     bool                       // nothing is sent of a sample without position
	Blanks   bool                       // what a sample lacks is sent as NaN
}

// formats are all that can be written. Messages that are not sent with each sample are due by the samples' time.
var formats = []*written{
	labelsFormat, columnsFormat, pairsFormat, rowsFormat, jsonFormat, rrefFormat, rposFormat, xattFormat, gdl90Format,
	fdm24Format, fdm25Format, binaryFormat, mavlink1Format, mavlink2Format, disFormat,
}

// The channels that many binary formats have.
const (
	flown = stream.Set(1<<stream.Heading | 1<<stream.Pitch | 1<<stream.Bank | 1<<stream.Latitude | 1<<stream.Longitude |
		1<<stream.Altitude | 1<<stream.GroundSpeed | 1<<stream.Track | 1<<stream.VerticalSpeed)
	bodyRates = stream.Set(1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate)
	loads     = stream.Set(1<<stream.NormalLoad | 1<<stream.LateralLoad | 1<<stream.AxialLoad)
)

func ready(e Encoder) func() (Encoder, error) {
	return func() (Encoder, error) { return e, nil }
}

// Formats lists the names that New knows.
func Formats() []string {
	names := make([]string, len(formats))
	for i := range formats {
		names[i] = formats[i].Name
	}
	return names
}

// New makes an encoder of a format. The error for an unknown name lists those there are.
func New(format string) (Encoder, error) {
	for i := range formats {
		if formats[i].Name == format {
			return formats[i].make()
		}
	}
	names := Formats()
	last := len(names) - 1
	return nil, fmt.Errorf("format is %q; must be %s or %s", format, strings.Join(names[:last], ", "), names[last])
}
