// Package format defines what the program needs to know about a wire format: one value of type Format per format. The
// families of formats import it; stream/wire lists them all.
//
// To add a format, write a package below stream/wire with a Format and its Decoder, and add the Format to the list in
// formats.go of stream/wire. The tests there fail until the package has published messages in testdata/messages.json
// and a fuzz target with seeds; they also cover recognition and changes of format. With an encoder in
// stream/trainer/encode, which states the channels the format has, the built-in aircraft can send it too, and the round
// trip and allocations are tested.
package format

import (
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/mapping"
)

// A Format describes one wire format.
type Format struct {
	// Names are what a decoder may call the stream, as people read it: "MAVLink 1".
	Names []string

	// First are the bytes a datagram may begin with; "" is any. Other datagrams are not passed to
	// Recognize.
	First string

	// Possible reports whether the options allow the format at all; nil is always. It is asked once per sender instead
	// of once per datagram.
	Possible func(o *Options) bool

	// Recognize says how sure the format is of a datagram. It keeps nothing of it.
	Recognize func(d *Datagram) Claim

	// New makes the decoder for one sender; nil for a format that is known but not read.
	New func(o *Options) Decoder

	// Instead says what to send in place of a format that is not read.
	Instead *phrase.Definition

	// Setting says what to change in the simulator so that a channel comes, as the end of a sentence that begins with
	// the channel; nothing where the format has no place for it. May be nil.
	Setting func(name string, c stream.Channel) phrase.Phrase

	// Rate says where the number of datagrams per second is set. nil where that is not known.
	Rate func(name string) phrase.Phrase
}

// A Datagram is what a format is recognized by.
type Datagram struct {
	Bytes   []byte
	Head    []byte // the first bytes of its text, 64 at most, without byte order mark and leading blanks
	Known   bool   // the sender sent this format before
	Options *Options
}

// A Claim is how sure a format is of a datagram.
type Claim uint8

// The claims.
const (
	No   Claim = iota
	Yes        // one alone may still be a stray datagram
	Sure       // nothing else looks like it
)

// Is turns a condition into Yes or No.
func Is(yes bool) Claim {
	if yes {
		return Yes
	}
	return No
}

// A Decoder reads the datagrams of one format that one sender sends. It allocates nothing per datagram, and its memory
// does not grow. Plain has most of its methods for decoders that need no more.
type Decoder interface {
	// Decode reads a datagram received at a time in seconds into s, which is empty; of several records the last
	// complete one. It keeps nothing of b. The errors are those of package fault.
	Decode(b []byte, received float64, s *stream.Sample) error
	// Name is one of the format's names, "" until it is certain.
	Name() string
	// Detail says in a few words what was decided or must be known about the stream, if anything.
	Detail() phrase.Phrase
	// Advice says what to do when datagrams of the format give no sample, nothing while nothing need be done.
	Advice(Silence) phrase.Phrase
	// Trying reports whether the next few datagrams decide how the stream is read, so that no advice is given yet.
	Trying() bool
	// Age returns how old, in seconds of receive time, a channel's value was in the last sample.
	Age(c stream.Channel) float64
	// Continues reports whether a datagram can continue the one before it.
	Continues(b []byte) bool
	// Restart is called when the sender has sent another format since the last datagram.
	Restart()
}

// Silence counts the datagrams since the last sample by what they led to.
type Silence struct {
	Parts    int     // understood, without a sample
	Failures int     // not understood, in a row
	Ever     bool    // there was a sample before
	Since    float64 // s since then
}

// Patience is how many datagrams in a row must fail before a sender's format is recognized again, so that one stray
// datagram does not change it.
const Patience = 3

// Lasts reports whether a stream that is understood has lacked samples long enough to advise the user.
func (s Silence) Lasts() bool {
	const parts, seconds = 10, 3.0
	return s.Parts >= parts && (!s.Ever || s.Since >= seconds)
}

// Plain implements the optional methods of a decoder that reports nothing and keeps no state.
type Plain struct{}

// Detail returns nothing.
func (Plain) Detail() phrase.Phrase { return phrase.Phrase{} }

// Advice returns nothing.
func (Plain) Advice(Silence) phrase.Phrase { return phrase.Phrase{} }

// Trying returns false.
func (Plain) Trying() bool { return false }

// Age returns 0.
func (Plain) Age(stream.Channel) float64 { return 0 }

// Continues returns false.
func (Plain) Continues([]byte) bool { return false }

// Restart does nothing.
func (Plain) Restart() {}

// Options are the user's settings for streams. The zero value is ready to use.
type Options struct {
	Maps []*mapping.Map // to choose from; mapping.Shipped when empty
	Map  *mapping.Map   // the user's choice, used for every stream it fits; nil: choose by content
	Rows RowsLayout     // of row 16 in DATA streams

	marked []*mapping.Layout
}

// Complete returns the options with the maps to choose from.
func (o Options) Complete() *Options {
	if len(o.Maps) == 0 {
		o.Maps = mapping.Shipped()
	}
	if o.Map != nil {
		o.Maps = []*mapping.Map{o.Map}
	}
	o.marked = nil
	for _, m := range o.Maps {
		if m.Layout != nil && m.Layout.Marked {
			o.marked = append(o.marked, m.Layout)
		}
	}
	return &o
}

// Marked returns the layouts of binary records that are recognized by themselves.
func (o *Options) Marked() []*mapping.Layout { return o.marked }

// RowsLayout says how row 16 of a DATA stream (angular velocities) is laid out. The datagram does not give the
// simulator's version, so the layout is found from the data or given by the user.
type RowsLayout uint8

// The layouts of row 16.
const (
	RowsAuto RowsLayout = iota // found by comparing with the change of attitude; until then no rates
	RowsOld                    // pitch, roll, yaw in rad/s: versions 10 and 11
	RowsNew                    // roll, pitch, yaw in °/s: version 12
)

// SocketRate says where FlightGear's rate is set.
func SocketRate(string) phrase.Phrase { return phrase.RateInOption.Of() }

// SeldomRate is for programs that send to tablets.
func SeldomRate(string) phrase.Phrase { return phrase.RateTooSlow.Of() }

// ProtocolSetting is the Setting of FlightGear's generic protocol.
func ProtocolSetting(string, stream.Channel) phrase.Phrase { return phrase.UseProtocol.Of() }
