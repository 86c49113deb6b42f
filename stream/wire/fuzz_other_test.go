package wire

import (
	"math"
	"testing"

	"halfturn/stream"
)

// checkSettles asserts that writing a sample in the format and reading it settles: after a few
// rounds the same channels come back with the same values, to the rounding of 32 bits.
func checkSettles(t *testing.T, format string, s *stream.Sample) {
	t.Helper()
	if math.Abs(s.Value(stream.Pitch)) > 80 {
		return // heading and bank, and rates of them, run together near the vertical
	}
	rounds := [5]stream.Sample{*s}
	for i := range rounds[1:] {
		b := mustEncoder(t, format).Append(nil, &rounds[i])
		if len(b) == 0 {
			return // it cannot be sent without position or attitude
		}
		if err := NewReader(Options{}).Decode(b, &rounds[i+1]); err != nil && err != ErrPart && rounds[i].Has&attitudeSet != 0 {
			if format == "gdl90" || format == "xatt" || rounds[i].Magnetic {
				return // all of it was beyond what the format has a value for
			}
			t.Fatalf("%s: %x: %v", format, b, err)
		}
	}
	a, b := &rounds[3], &rounds[4]
	if a.Has != b.Has || a.Magnetic != b.Magnetic {
		t.Fatalf("%s does not settle: %v, then %v", format, a.Has.Names(), b.Has.Names())
	}
	for c := range stream.NumChannels {
		v := a.Value(c)
		d := b.Value(c) - v
		if c.Info().Circular || c == stream.Bank || c == stream.Longitude {
			d = stream.Wrap180(d)
		}
		if math.Abs(d) > 1e-4+1e-5*math.Abs(v) {
			t.Fatalf("%s does not settle: %s %v, then %v", format, c, v, b.Value(c))
		}
	}
}

// fuzzOther feeds a datagram whole, then cut in two, after others of the same sender.
func fuzzOther(f *testing.F, target, format string, first ...string) {
	mustHaveSeeds(f, target)
	f.Fuzz(func(t *testing.T, b []byte, cut uint8) {
		fuzzText(t, Options{}, first, b, format)
		n := min(int(cut), len(b))
		fuzzText(t, Options{}, append([]string{string(b[:n])}, first...), b[n:], format)
		fuzzText(t, Options{}, append(first[:len(first):len(first)], string(b[:n])), b[n:], format)
	})
}

func FuzzReplies(f *testing.F) { fuzzOther(f, "FuzzReplies", "rref") }

func FuzzPositions(f *testing.F) { fuzzOther(f, "FuzzPositions", "rpos") }

func FuzzTablet(f *testing.F) {
	fuzzOther(f, "FuzzTablet", "xatt", "XGPS1,-122.298432,47.450756,420.9961,349.7547,57.9145")
}

func FuzzGDL90(f *testing.F) { fuzzOther(f, "FuzzGDL90", "gdl90", string(unhex(f, gdlLevel))) }

func FuzzFDM(f *testing.F) { fuzzOther(f, "FuzzFDM", "fdm25") }

func FuzzMAVLink(f *testing.F) { fuzzOther(f, "FuzzMAVLink", "mavlink2", string(unhex(f, mavFirst))) }

func FuzzDIS(f *testing.F) { fuzzOther(f, "FuzzDIS", "dis") }

func FuzzBinary(f *testing.F) { fuzzOther(f, "FuzzBinary", "binary") }

// FuzzGDLMessage gives messages the right checksum first: chance never does.
func FuzzGDLMessage(f *testing.F) {
	mustHaveSeeds(f, "FuzzGDLMessage")
	f.Fuzz(func(t *testing.T, a, b []byte) {
		if len(a) == 0 || len(b) == 0 {
			return
		}
		datagram := gdlFrame(gdlFrame(nil, a), b)
		fuzzText(t, Options{}, nil, datagram, "gdl90")
		fuzzText(t, Options{}, []string{string(gdlFrame(nil, a))}, gdlFrame(nil, b), "gdl90")
		if len(a) > gdlLongest-2 {
			return
		}
		var d deframer // what was framed comes out again, wherever it was cut
		for cut := range len(datagram) {
			message, _, err := d.next(datagram[:cut])
			if message == nil {
				message, _, err = d.next(datagram[cut:])
			}
			if err != nil && len(a) > 0 || string(message) != string(a) {
				t.Fatalf("%x gives %x, %v", a, message, err)
			}
			d = deframer{}
		}
	})
}

// FuzzMAVMessage gives messages the right checksum first.
func FuzzMAVMessage(f *testing.F) {
	mustHaveSeeds(f, "FuzzMAVMessage")
	f.Fuzz(func(t *testing.T, payload []byte, kind uint8) {
		id := [3]byte{mavAttitude, mavPosition, mavHUD}[kind%3]
		length, _, _ := mavKnown(uint32(id))
		payload = append(payload, make([]byte, length)...)[:length]
		e := &mavEncoder{second: kind >= 128}
		e.seq = kind
		datagram := mavFrom(e.frame(nil, id, payload), 7)
		fuzzText(t, Options{}, []string{string(unhex(t, mavFirst))}, datagram, "mavlink1")
	})
}

// mavFrom makes a frame one of another system.
func mavFrom(b []byte, system byte) []byte {
	f := mavParse(b)
	if f.second {
		b[5] = system
	} else {
		b[3] = system
	}
	_, extra, _ := mavKnown(f.id)
	n := len(f.sum) - 2
	sum := mavSum(mavSum(0xFFFF, f.sum[:n]), []byte{extra})
	f.sum[n], f.sum[n+1] = byte(sum), byte(sum>>8)
	return b
}
