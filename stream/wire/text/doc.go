// Package text reads streams of text: columns with labels or without, name=value pairs, and lines of one value each.
// Maps say which column or name feeds which channel.
package text

import (
	"halfturn/stream/phrase"
	"halfturn/stream/wire/format"
)

// Columns are lines of columns, with a line of labels before them or without.
var Columns = &format.Format{
	Names:     []string{labeled, unlabeled},
	Recognize: recognizeColumns,
	New:       func(o *format.Options) format.Decoder { return newColumns(o) },
	Setting:   columnSetting,
	Rate:      columnRate,
}

// Pairs are lines of name=value.
var Pairs = &format.Format{
	Names:     []string{pairs},
	Recognize: recognizePairs,
	New:       func(o *format.Options) format.Decoder { return newPairs(o) },
	Setting:   format.ProtocolSetting,
	Rate:      format.SocketRate,
}

// Lines are lines of one value each: text in which the separator between values is also the one between records. A
// record has as many lines as the user's map has columns.
var Lines = &format.Format{
	Names:     []string{lines},
	Possible:  linesPossible,
	Recognize: recognizeLines,
	New:       func(o *format.Options) format.Decoder { return &linesDecoder{plan: o.Map.InOrder} },
	Setting:   format.ProtocolSetting,
}

// NMEA holds no attitude and no airspeed: it is known and not read.
var NMEA = &format.Format{
	Names:     []string{"NMEA 0183"},
	First:     "$",
	Recognize: func(d *format.Datagram) format.Claim { return format.Is(hasPrefix(d.Bytes, "$GP")) },
	Instead:   phrase.OnlyPositions,
}

// What decoders call the streams.
const (
	labeled   = "text with labels"
	unlabeled = "text columns"
	pairs     = "text pairs"
	lines     = "text lines, a value each"
)

func hasPrefix(b []byte, prefix string) bool {
	return len(b) >= len(prefix) && string(b[:len(prefix)]) == prefix
}

// isPairs tells pairs from columns by what comes first in the head of a datagram; ok is false when it is no text.
func isPairs(head []byte, assign byte) (is, ok bool) {
	for i, c := range head {
		switch {
		case c == assign && i > 0:
			return true, true
		case c == ',' || c == ';' || c == '\n':
			return false, true
		case c < ' ' && c != '\t' && c != '\r', c == 0x7F, c >= 0xF8, c >= 0x80 && i == 0:
			return false, false
		}
	}
	return false, len(head) > 0
}

func assignOf(o *format.Options) byte {
	if o.Map != nil {
		return o.Map.Assign
	}
	return '='
}
