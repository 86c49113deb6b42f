package wire

import (
	"math/bits"
	"slices"
	"strings"

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

// formats are all known formats. A datagram belongs to the first one that recognizes it: formats recognized by a map of
// the user come before those recognized by content, and text, which can be anything, comes last.
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

// Named returns the format with a name as returned by Reader.Format, nil when there is none.
func Named(name string) *format.Format {
	for _, f := range formats {
		if f.New != nil && slices.Contains(f.Names, name) {
			return f
		}
	}
	return nil
}

// places is a set of places in formats, read in their order.
type places uint64

func (p places) has(f int) bool { return p>>f&1 != 0 }

// first returns the first place of a set that is not empty.
func (p places) first() int { return bits.TrailingZeros64(uint64(p)) }

// rest returns the set without its first place.
func (p places) rest() places { return p & (p - 1) }

// starts holds, for each first byte of a datagram, the formats that name it as one of theirs; candidates also holds
// those that may begin with any byte.
var starts, candidates = func() (named, all [256]places) {
	for i, f := range formats {
		for first := range all {
			if strings.IndexByte(f.First, byte(first)) >= 0 {
				named[first] |= 1 << i
			}
			if f.First == "" {
				all[first] |= 1 << i
			}
		}
	}
	for first := range all {
		all[first] |= named[first]
	}
	return named, all
}()

// possible are the formats that streams can be of with these options.
func possible(o *format.Options) (all places) {
	for i, f := range formats {
		if f.Possible == nil || f.Possible(o) {
			all |= 1 << i
		}
	}
	return all
}
