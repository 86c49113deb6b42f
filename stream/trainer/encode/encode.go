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

// formats are all that can be written, a file each. Those that send some of it only now and then go by the samples'
// time.
var formats = []struct {
	name string
	make func() (Encoder, error)
}{
	{"labels", newLabels}, // text columns with a line of labels first
	{"columns", func() (Encoder, error) { return newProtocol("halfturn.xml") }},     // text columns without labels
	{"pairs", func() (Encoder, error) { return newProtocol("halfturn-pairs.xml") }}, // name=value
	{"rows", ready(rows{})},      // DATA rows, row 16 as in version 12
	{"json", ready(json{})},      // JSON lines
	{"rref", ready(replies{})},   // dataref replies
	{"rpos", ready(positions{})}, // position replies
	{"xatt", func() (Encoder, error) { return &tabletText{}, nil }}, // text for tablets: a Splitter
	{"gdl90", func() (Encoder, error) { return &gdl{}, nil }},
	{"fdm24", ready(native{version: 24})}, // native flight model
	{"fdm25", ready(native{version: 25})},
	{"binary", newBinary}, // generic binary, as the shipped protocol file has it
	{"mavlink1", func() (Encoder, error) { return &mavlinkFrames{}, nil }},
	{"mavlink2", func() (Encoder, error) { return &mavlinkFrames{second: true}, nil }},
	{"dis", ready(entityState{})},
}

func ready(e Encoder) func() (Encoder, error) {
	return func() (Encoder, error) { return e, nil }
}

// Formats lists the names that New knows.
func Formats() []string {
	names := make([]string, len(formats))
	for i := range formats {
		names[i] = formats[i].name
	}
	return names
}

// New makes an encoder of a format. The error for an unknown name lists those there are.
func New(format string) (Encoder, error) {
	for i := range formats {
		if formats[i].name == format {
			return formats[i].make()
		}
	}
	names := Formats()
	last := len(names) - 1
	return nil, fmt.Errorf("format is %q; must be %s or %s", format, strings.Join(names[:last], ", "), names[last])
}
