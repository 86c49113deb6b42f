package text

import (
	"bytes"

	"halfturn/stream"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/scan"
)

// linesPossible reports whether the user's map has one value per line: such a stream cannot be told from columns
// otherwise.
func linesPossible(o *format.Options) bool {
	return o.Map != nil && o.Map.Separator == '\n' && o.Map.InOrder != nil
}

// recognizeLines leaves lines of name=value to the pairs.
func recognizeLines(d *format.Datagram) format.Claim {
	const look = 64
	return format.Is(bytes.IndexByte(d.Bytes[:min(len(d.Bytes), look)], d.Options.Map.Assign) < 0)
}

type linesDecoder struct {
	format.Plain
	plan *mapping.Plan
}

func (l *linesDecoder) Name() string { return lines }

// Decode reads the last record of a datagram of whole records; else all of it, which then is refused.
func (l *linesDecoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	return l.plan.Decode(l.lastRecord(b), s)
}

func (l *linesDecoder) lastRecord(b []byte) []byte {
	b = scan.TrimEnd(b)
	columns := len(l.plan.Columns)
	if len(b) > 2*scan.MaxLine || columns == 0 || scan.Columns(b, '\n')%columns != 0 {
		return b
	}
	at := len(b)
	for range columns {
		if at = bytes.LastIndexByte(b[:at], '\n'); at < 0 {
			return b
		}
	}
	return b[at+1:]
}
