// Package xplane reads what X-Plane sends (Laminar Research, "Exchanging Data with X-Plane"): DATA rows, replies to
// requests for datarefs (RREF), dataref output (DREF) and position replies (RPOS). It also writes the requests and
// reads the beacon by which simulators are found. All messages are little endian and begin with four letters and a
// fifth byte that differs between versions.
package xplane

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/merge"
	"halfturn/stream/wire/units"
)

const head = 5 // bytes before the values

func begins(b []byte, letters string) bool {
	return len(b) >= head && string(b[:len(letters)]) == letters
}

// Replies are RREF replies: pairs of index and value.
var Replies = &format.Format{
	Names:     []string{repliesName},
	First:     "R",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(begins(d.Bytes, "RREF")) },
	New:       func(*format.Options) format.Decoder { return &repliesDecoder{asked: datarefs[:asked]} },
	Setting: func(_ string, c stream.Channel) phrase.Phrase {
		name := datarefFor(c)
		if name == "" {
			return phrase.Phrase{}
		}
		row := cmp.Or(rowsFor[c], "25 and those around it")
		return phrase.AskedInVain.Of(phrase.Words("name", name), phrase.Words("row", row))
	},
	Rate: func(string) phrase.Phrase { return phrase.RateInConfiguration.Of() },
}

// Output is dataref output (DREF): one value per datagram.
var Output = &format.Format{
	Names:     []string{outputName},
	First:     "D",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(begins(d.Bytes, "DREF")) },
	New:       func(*format.Options) format.Decoder { return &outputDecoder{} },
	Setting: func(_ string, c stream.Channel) phrase.Phrase {
		name := datarefFor(c)
		if name == "" {
			return phrase.Phrase{}
		}
		return phrase.SendDataref.Of(phrase.Words("name", name))
	},
	Rate: dataOutputRate,
}

// Positions are replies to RPOS. They have no airspeed and no clock.
var Positions = &format.Format{
	Names:     []string{positionName},
	First:     "R",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(begins(d.Bytes, "RPOS")) },
	New:       func(*format.Options) format.Decoder { return positionDecoder{} },
	Setting:   func(string, stream.Channel) phrase.Phrase { return phrase.NoPlaceInReplies.Of() },
}

const (
	repliesName  = "RREF replies"
	outputName   = "dataref output (DREF)"
	positionName = "position replies (RPOS)"

	requestLength  = 413 // RREF 0, rate, index, name[400]
	positionLength = 69
	outputLength   = 509 // DREF, value, name[500]
	longestName    = 400
)

// AppendRequest adds the request for a dataref to dst: rate times per second, 0 to stop, replies with that index. The
// name is one of the simulator's, an array's element as name[3]; one longer than 399 bytes is cut off and will not be
// found.
func AppendRequest(dst []byte, rate, index int32, name string) []byte {
	dst = append(dst, "RREF\x00"...)
	dst = binary.LittleEndian.AppendUint32(dst, uint32(rate))
	dst = binary.LittleEndian.AppendUint32(dst, uint32(index))
	name = name[:min(len(name), longestName-1)]
	dst = append(dst, name...)
	for range longestName - len(name) {
		dst = append(dst, 0)
	}
	return dst
}

// A values is what the decoders of single datarefs share.
type values struct {
	format.Plain
	merge merge.Values
}

// Detail says how fine the values are.
func (*values) Detail() phrase.Phrase { return phrase.DetailDatarefs.Of() }

// Advice names the datarefs that are missing.
func (*values) Advice(q format.Silence) phrase.Phrase {
	if !q.Lasts() {
		return phrase.Phrase{}
	}
	return phrase.NoAttitudeDatarefs.Of()
}

// Age returns how old a channel's value was in the last sample, s.
func (v *values) Age(c stream.Channel) float64 { return v.merge.Age(c) }

// Restart forgets all values.
func (v *values) Restart() { *v = values{} }

type repliesDecoder struct {
	values
	asked []Dataref
}

func (*repliesDecoder) Name() string { return repliesName }

// Decode reads pairs of index and value.
func (r *repliesDecoder) Decode(b []byte, now float64, s *stream.Sample) error {
	return r.merge.Sample(r.pairs(b, now), now, s)
}

func (r *repliesDecoder) pairs(b []byte, now float64) error {
	if len(b) == requestLength && b[4] == 0 {
		return fault.ErrStatus // a request to a simulator
	}
	b = b[head:]
	if len(b) == 0 || len(b)%8 != 0 {
		return fault.ErrTruncated
	}
	for ; len(b) > 0; b = b[8:] {
		n := binary.LittleEndian.Uint32(b)
		if n < uint32(len(r.asked)) { // others may have been asked for by another program
			r.asked[n].put(float32At(b, 4), now, &r.merge)
		}
	}
	return nil
}

func float32At(b []byte, i int) float32 {
	return math.Float32frombits(binary.LittleEndian.Uint32(b[i:]))
}

type outputDecoder struct{ values }

func (*outputDecoder) Name() string { return outputName }

// Decode reads one dataref. Attitude comes in three datagrams, and the sample is made with the last of them, so that it
// does not mix two frames.
func (r *outputDecoder) Decode(b []byte, now float64, s *stream.Sample) error {
	return r.merge.Sample(r.one(b, now), now, s)
}

func (r *outputDecoder) one(b []byte, now float64) error {
	if len(b) != outputLength {
		return fault.ErrTruncated
	}
	name := b[head+4:]
	if end := bytes.IndexByte(name, 0); end >= 0 {
		name = name[:end]
	}
	d, ok := named[string(name)]
	if !ok {
		return fault.ErrPart
	}
	d.put(float32At(b, head), now, &r.merge)
	if r.merge.Fresh()&stream.AttitudeSet != stream.AttitudeSet {
		return fault.ErrPart
	}
	return nil
}

type positionDecoder struct{ format.Plain }

func (positionDecoder) Name() string { return positionName }

// Decode reads one reply.
func (positionDecoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	if len(b) != positionLength {
		return fault.ErrTruncated
	}
	f64 := func(i int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(b[i:])) }
	f32 := func(i int) float64 { return float64(float32At(b, i)) }
	s.Put(stream.Longitude, f64(5))
	s.Put(stream.Latitude, f64(13))
	s.Put(stream.Altitude, f64(21)/units.Foot)
	s.Put(stream.Height, f32(29)/units.Foot)
	s.Put(stream.Pitch, f32(33))
	s.Put(stream.Heading, f32(37))
	s.Put(stream.Bank, f32(41))
	units.PutVelocity(s, -f32(53), f32(45), -f32(49))
	s.Put(stream.RollRate, f32(57)*units.DegreesPerRadian)
	s.Put(stream.PitchRate, f32(61)*units.DegreesPerRadian)
	s.Put(stream.YawRate, f32(65)*units.DegreesPerRadian)
	return fault.OfHollow(s)
}
