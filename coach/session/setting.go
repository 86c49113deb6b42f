package session

import (
	"fmt"

	"halfturn/stream"
	"halfturn/stream/wire"
)

// Setting says what to change in the simulator so that a channel comes, by the format that it sends now: the end of a
// sentence that begins with the channel. "" while the format is unknown. What the formats say of themselves stands with
// their decoders, below stream/wire.
func Setting(format string, c stream.Channel) string {
	if format == "" {
		return ""
	}
	if f := wire.Named(format); f != nil && f.Setting != nil {
		if words := f.Setting(format, c); words != "" {
			return words
		}
	}
	return fmt.Sprintf("what arrives (%s) has no place for that, or the program that sends it leaves that out; "+
		"use a bridge that sends JSON lines (halfturn simulators copy DIR writes one out).", format)
}

// rateSetting says where the rate is set.
func rateSetting(format string) string {
	if f := wire.Named(format); f != nil && f.Rate != nil {
		return f.Rate(format)
	}
	return "Raise the rate to 30 or 60 a second: in the program that sends."
}
