package settings

import (
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
)

// A Setup is the configuration as one who grades recordings asks for it: with another choice than the configured one,
// and with more cards.
type Setup struct{ Config *Config }

// Choice is the configured one.
func (s Setup) Choice() maneuver.Choice {
	return maneuver.Choice{Maneuver: s.Config.Maneuver, Standard: s.Config.Standard, Aircraft: s.Config.Aircraft}
}

// Options says how a sender is followed with a choice. Cards of the folder besides replace those of the same name; ""
// is no folder.
func (s Setup) Options(c maneuver.Choice, besides string) (session.Options, error) {
	return s.with(c, besides).Session()
}

// Library holds the cards, judged by the standard of a choice, with those of the folder besides as in [Setup.Options].
func (s Setup) Library(c maneuver.Choice, besides string) (*maneuver.Library, error) {
	return s.with(c, besides).Library()
}

// with is the configuration with a choice and more cards.
func (s Setup) with(c maneuver.Choice, besides string) *Config {
	cfg := *s.Config
	out := &cfg
	if c != s.Choice() {
		out = out.WithChoice(c.Maneuver, c.Standard, c.Aircraft)
	}
	if besides != "" {
		out = out.WithCards(besides)
	}
	return out
}
