package session

import (
	"halfturn/stream/phrase"
	"halfturn/stream"
	"halfturn/stream/wire"
)

// Setting says what to change in the simulator so that a channel comes, by the format that it sends now; nothing while
// the format is unknown. What the formats say of themselves stands with their decoders, below stream/wire.
func Setting(format string, c stream.Channel) phrase.Phrase {
	if format == "" {
		return phrase.Phrase{}
	}
	if f := wire.Named(format); f != nil && f.Setting != nil {
		if p := f.Setting(format, c); !p.IsZero() {
			return p
		}
	}
	return phrase.NoPlaceInFormat.Of(phrase.Words("format", format))
}

// rateSetting says where the rate is set.
func rateSetting(format string) phrase.Phrase {
	if f := wire.Named(format); f != nil && f.Rate != nil {
		return f.Rate(format)
	}
	return phrase.RateInSender.Of()
}
