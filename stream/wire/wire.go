// Package wire turns a datagram of a flight simulator into a stream.Sample, and back.
//
// A Reader serves one sender. It tells the format from the content: text lines with labels,
// columns of numbers without labels, name=value pairs, binary DATA rows, JSON lines. All
// conversion of units and signs happens here, by maps: TOML files that say which column or
// name feeds which channel.
package wire

import "errors"

// RowsLayout says how row 16 of a DATA stream (angular velocities) is laid out. Nothing in
// the datagram tells the simulator's version, so that it is found from the data or told.
type RowsLayout uint8

// The layouts of row 16.
const (
	RowsAuto RowsLayout = iota // found by comparing with the change of attitude; until then no rates
	RowsOld                    // pitch, roll, yaw in rad/s: versions 10 and 11
	RowsNew                    // roll, pitch, yaw in °/s: version 12
)

// Options is what a Reader is told. The zero value is ready to use.
type Options struct {
	Maps []*Map     // maps to choose from; ShippedMaps when empty
	Map  *Map       // the user's choice, used for every text stream; nil: choose by content
	Rows RowsLayout // of row 16 in DATA streams

	Datarefs []Dataref // what the indices of RREF replies mean, as asked for; Datarefs() when empty
}

// What a datagram can be besides a sample. Those with an empty Reason are no fault.
var (
	ErrLabels = errors.New("a line of labels, no sample")
	ErrStatus = errors.New("a status line, no sample")
	ErrPart   = errors.New("values without attitude, kept for the next sample")
	ErrOther  = errors.New("about another aircraft, no sample")

	ErrEmpty      = errors.New("empty datagram")
	ErrUnknown    = errors.New("no known format")
	ErrNoLabels   = errors.New("columns without labels that fit no map")
	ErrNoChannels = errors.New("nothing in it that feeds a channel")
	ErrMalformed  = errors.New("malformed record")
	ErrValue      = errors.New("a value that cannot be, without which the record is of no use")
	ErrTruncated  = errors.New("truncated record")
	ErrChecksum   = errors.New("wrong checksum")
	ErrEncoding   = errors.New("not ASCII or UTF-8 text")
	ErrTooLong    = errors.New("line too long")
	ErrChanged    = errors.New("another format than before")
)

var reasons = map[error]string{
	ErrLabels: "", ErrStatus: "", ErrPart: "", ErrOther: "",
	ErrEmpty: "empty", ErrUnknown: "unknown-format", ErrNoLabels: "no-labels",
	ErrNoChannels: "no-channels", ErrMalformed: "malformed", ErrValue: "bad-value", ErrTruncated: "truncated", ErrChecksum: "checksum",
	ErrEncoding: "encoding", ErrTooLong: "too-long", ErrChanged: "format-changed",
}

// Reason gives a short stable label for counting an error of Decode, "" when it is no fault.
func Reason(err error) string {
	if r, ok := reasons[err]; ok || err == nil {
		return r
	}
	return "other"
}

const (
	maxLine    = 8192 // bytes of one text record; real ones are below 1000
	maxColumns = 512
)
