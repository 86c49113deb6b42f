// Package vectors holds decoders against datagrams that were published, captured or computed, each with its source:
// testdata/messages.json of a family of formats. It is for tests.
package vectors

import (
	"encoding/hex"
	"encoding/json"
	"math"
	"os"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
)

// A Message is a datagram and what it says, in the channels' units.
type Message struct {
	Name     string
	Source   string
	Status   string // published, captured or computed
	Format   string // what the decoder calls it; "" when it is not recognized
	Hex      string
	Text     string // in place of Hex
	Frame    bool   // Hex is a message without what the family puts around it
	Magnetic bool
	Error    string // "part", "other", "follow" (a part, once its sender is followed) or the error
	Note     string
	Want     map[string]float64
}

// Load reads a file of messages.
func Load(t testing.TB, name string) []Message {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var all []Message
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if len(all) == 0 {
		t.Fatalf("%s holds no messages", name)
	}
	return all
}

// Bytes returns the datagram.
func (m *Message) Bytes(t testing.TB) []byte {
	t.Helper()
	if m.Text != "" {
		return []byte(m.Text)
	}
	b, err := hex.DecodeString(m.Hex)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// Err returns the error that decoding must give.
func (m *Message) Err(t testing.TB) error {
	t.Helper()
	switch m.Error {
	case "":
		return nil
	case "part", "follow":
		return fault.ErrPart
	case "other":
		return fault.ErrOther
	case fault.ErrMalformed.Error():
		return fault.ErrMalformed
	case fault.ErrUnknown.Error():
		return fault.ErrUnknown
	}
	t.Fatalf("%s: error %q is not known", m.Name, m.Error)
	return nil
}

// A Family is how the messages of one family are read.
type Family struct {
	// New makes a decoder for a message.
	New func(m *Message) format.Decoder
	// Latest returns what a message without attitude left behind. May be nil when there is none.
	Latest func(d format.Decoder) stream.Sample
	// Frame puts around a message what belongs around it. May be nil.
	Frame func(b []byte) []byte
	// Tolerance is how far off a value may be, in its unit; 2e-6 when 0.
	Tolerance float64
}

// Check decodes each recognized message of testdata/messages.json alone.
func (f Family) Check(t *testing.T) {
	t.Helper()
	for _, m := range Load(t, "testdata/messages.json") {
		if m.Format != "" {
			t.Run(m.Name, func(t *testing.T) { f.check(t, &m) })
		}
	}
}

func (f Family) check(t *testing.T, m *Message) {
	d, b := f.New(m), m.Bytes(t)
	if m.Frame {
		b = f.Frame(b)
	}
	var s stream.Sample
	err := d.Decode(b, 0, &s)
	if err != m.Err(t) {
		t.Fatalf("%v; must be %q (source: %s)", err, m.Error, m.Source)
	}
	if err == fault.ErrPart {
		s = f.Latest(d)
	}
	if err != nil && err != fault.ErrPart {
		return
	}
	if d.Name() != m.Format {
		t.Errorf("format %q; must be %q", d.Name(), m.Format)
	}
	if len(s.Has.Names()) != len(m.Want) || s.Magnetic != m.Magnetic {
		t.Errorf("channels %v, magnetic %v; want %d, %v", s.Has.Names(), s.Magnetic, len(m.Want), m.Magnetic)
	}
	for name, want := range m.Want {
		c, ok := stream.ChannelNamed(name)
		if !ok {
			t.Fatalf("no channel %q", name)
		}
		got, has := s.Get(c)
		d := got - want
		if c.Info().Circular {
			d = stream.Wrap180(d)
		}
		if !has || math.Abs(d) > max(f.Tolerance, 2e-6)+2e-7*math.Abs(want) {
			t.Errorf("%s = %v (there: %v); must be %v (source: %s)", name, got, has, want, m.Source)
		}
	}
}
