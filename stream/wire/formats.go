package wire

import (
	"slices"

	"halfturn/stream/wire/dis"
	"halfturn/stream/wire/fdm"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/gdl90"
	"halfturn/stream/wire/generic"
	"halfturn/stream/wire/jsonl"
	"halfturn/stream/wire/mavlink"
	"halfturn/stream/wire/tablet"
	"halfturn/stream/wire/text"
	"halfturn/stream/wire/xplane"
)

// formats are all that the program knows. A datagram is of the first one that recognizes it: those that go by a map of
// the user's come before those that go by what it holds, and text, which may be anything, comes last.
var formats = []*format.Format{
	xplane.Rows,
	generic.Format,
	text.Lines,
	xplane.Replies,
	xplane.Output,
	xplane.Positions,
	xplane.Beacons,
	tablet.Format,
	gdl90.Format,
	mavlink.Format,
	fdm.Format,
	dis.Format,
	jsonl.Format,
	jsonl.Array,
	text.NMEA,
	text.Pairs,
	text.Columns,
}

// Formats returns all formats that are read.
func Formats() []*format.Format {
	return slices.DeleteFunc(slices.Clone(formats), func(f *format.Format) bool { return f.New == nil })
}

// Named returns the format that has the name a Reader tells, nil when there is none.
func Named(name string) *format.Format {
	for _, f := range formats {
		if f.New != nil && slices.Contains(f.Names, name) {
			return f
		}
	}
	return nil
}

// candidates holds, for each first byte of a datagram, the places in formats of those that it can be of.
var candidates = func() (all [256][]uint8) {
	for i, f := range formats {
		for first := range all {
			if f.First == "" || slices.Contains([]byte(f.First), byte(first)) {
				all[first] = append(all[first], uint8(i))
			}
		}
	}
	return all
}()
