package probe

import (
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire"
)

// Setting says what to change in the simulator so that it sends a channel, given the format that it sends now; nothing
// while the format is unknown. Each format states its own settings, beside its decoder below stream/wire.
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

// rateSetting says where to set the rate.
func rateSetting(format string) phrase.Phrase {
	if f := wire.Named(format); f != nil && f.Rate != nil {
		return f.Rate(format)
	}
	return phrase.RateInSender.Of()
}
