package encode

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/units"
	"halfturn/stream/wire/xplane"
)

// Dataref replies.
var rrefFormat = &written{
	Name:  "rref",
	Reads: "RREF replies",
	Loss: Loss{
		Rel: 1e-7,
	},
	make: ready(replies{}),
}

// Position replies.
var rposFormat = &written{
	Name:  "rpos",
	Reads: "position replies (RPOS)",
	Loss: Loss{
		Abs:    1e-5,
		Rel:    1e-6,
		Blanks: true,
	},
	make: ready(positions{}),
}

// asked are the datarefs that replies are sent for.
var asked = xplane.Datarefs()

// replies writes RREF replies to all that is asked for, as versions 11 and 12 do.
type replies struct{}

func (replies) Preamble() []byte { return nil }

func (replies) Channels() (all stream.Set) {
	for i := range asked {
		all = all.With(asked[i].Channel)
	}
	return all
}

func (replies) Append(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "RREF,"...)
	for i := range asked {
		d := &asked[i]
		v, ok := s.Get(d.Channel)
		if !ok || d.Channel == stream.Heading && s.Magnetic {
			continue
		}
		dst = binary.LittleEndian.AppendUint32(dst, uint32(i))
		dst = binary.LittleEndian.AppendUint32(dst, math.Float32bits(float32(v/d.Scale)))
	}
	return dst
}

// positions writes replies to RPOS. What a sample lacks is NaN.
type positions struct{}

func (positions) Preamble() []byte { return nil }

func (positions) Channels() stream.Set { return flown | bodyRates | 1<<stream.Height }

func (positions) Append(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "RPOS,"...)
	le := binary.LittleEndian
	for _, f := range [...]float64{orNaN(s, stream.Longitude), orNaN(s, stream.Latitude),
		orNaN(s, stream.Altitude) * units.Foot} {
		dst = le.AppendUint64(dst, math.Float64bits(f))
	}
	north, east, down := velocity(s)
	for _, f := range [...]float64{orNaN(s, stream.Height) * units.Foot, orNaN(s, stream.Pitch), trueHeading(s),
		orNaN(s, stream.Bank), east, -down, -north,
		orNaN(s, stream.RollRate) / units.DegreesPerRadian, orNaN(s, stream.PitchRate) / units.DegreesPerRadian,
		orNaN(s, stream.YawRate) / units.DegreesPerRadian} {
		dst = le.AppendUint32(dst, math.Float32bits(float32(f)))
	}
	return dst
}
