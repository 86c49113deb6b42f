package encode

import (
	"encoding/binary"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/units"
	"halfturn/stream/wire/xplane"
)

// DATA rows, row 16 as in version 12.
var rowsFormat = &written{
	Name:  "rows",
	Reads: "DATA rows",
	Loss: Loss{
		Rel:      1e-7,
		Magnetic: true,
	},
	make: ready(rows{}),
}

// rows writes DATA datagrams as version 12 does. A row is sent when the sample has one of its channels; row 17 always.
type rows struct{}

func (rows) Preamble() []byte { return nil }

func (rows) Channels() (all stream.Set) {
	for i := range rowCells {
		for _, c := range rowCells[i].cells {
			all = all.With(c.channel)
		}
	}
	return all
}

// cell is a channel in a column of a row: sent = value × scale.
type cell struct {
	column  int
	channel stream.Channel
	scale   float64
}

const mphPerKnot = units.Knot * 3600 / units.Mile

// unused is a row without a value.
var unused = [8]float32{
	xplane.Filler, xplane.Filler, xplane.Filler, xplane.Filler,
	xplane.Filler, xplane.Filler, xplane.Filler, xplane.Filler,
}

var rowCells = []struct {
	row   uint32
	cells []cell
}{
	{xplane.RowTimes, []cell{{1, stream.Time, 1}, {2, stream.Time, 1}}},
	{xplane.RowSpeeds, []cell{{0, stream.Airspeed, 1}, {2, stream.TrueAirspeed, 1}, {3, stream.GroundSpeed, 1},
		{5, stream.Airspeed, mphPerKnot}, {6, stream.TrueAirspeed, mphPerKnot}, {7, stream.GroundSpeed, mphPerKnot}}},
	{xplane.RowLoads, []cell{{2, stream.VerticalSpeed, 1}, {4, stream.NormalLoad, 1}, {5, stream.AxialLoad, 1},
		{6, stream.LateralLoad, 1}}},
	{xplane.RowStick, []cell{{0, stream.Elevator, 1}, {1, stream.Aileron, 1}, {2, stream.Rudder, 1}}},
	{xplane.RowRates, []cell{{0, stream.RollRate, 1}, {1, stream.PitchRate, 1}, {2, stream.YawRate, 1}}},
	{xplane.RowAttitude, []cell{{0, stream.Pitch, 1}, {1, stream.Bank, 1}, {2, stream.Heading, 1},
		{3, stream.Heading, 1}}},
	{xplane.RowFlow, []cell{{0, stream.AngleOfAttack, 1}, {1, stream.Sideslip, -1}, {2, stream.Track, 1}}},
	{xplane.RowPosition, []cell{{0, stream.Latitude, 1}, {1, stream.Longitude, 1}, {2, stream.Altitude, 1},
		{3, stream.Height, 1}}},
	{xplane.RowLever, []cell{{0, stream.Throttle, 1}}},
	{xplane.RowThrottle, []cell{{0, stream.Throttle, 1}}},
	{xplane.RowEngine, []cell{{0, stream.RPM, 1}}},
	{xplane.RowProp, []cell{{0, stream.RPM, 1}}},
	{xplane.RowN1, []cell{{0, stream.N1, 1}}},
}

func (rows) Append(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, "DATA*"...)
	for i := range rowCells {
		r := &rowCells[i]
		row := unused
		used := r.row == xplane.RowAttitude
		for _, c := range r.cells {
			v, ok := s.Get(c.channel)
			if c.channel == stream.Heading && s.Magnetic != (c.column == 3) {
				ok = false
			}
			if !ok {
				continue
			}
			used = true
			row[c.column] = float32(v * c.scale)
			if row[c.column] == xplane.Filler { // a true value must not read as an unused column
				row[c.column] = math.Nextafter32(xplane.Filler, 0)
			}
		}
		if !used {
			continue
		}
		dst = binary.LittleEndian.AppendUint32(dst, r.row)
		for _, v := range row {
			dst = binary.LittleEndian.AppendUint32(dst, math.Float32bits(v))
		}
	}
	return dst
}
