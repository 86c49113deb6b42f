package feed

import (
	"halfturn/coach/probe"
	"halfturn/stream/phrase"
)

// Probe returns what is known of the made-up station's stream, which lacks a ball.
func Probe(name string) probe.Probe {
	s := Station(name, "live")
	s.Missing = []string{"ball"}
	setting := phrase.AddMember.Of(phrase.Name("name", "ball"), phrase.Words("unit", "balls"))
	return probe.Probe{
		Station: *s, Sure: "certain", Read: 0.998, Clock: "simulator", Jitter: 1.2, Age: 0.01,
		Datagrams: 1203, Samples: 1200, Paused: 0, Jumps: 0, Drops: map[string]uint64{"late": 3},
		Values: []probe.Value{
			{Channel: "heading", Title: "heading", Unit: "°", Value: 90.1, Age: 0.01},
			{Channel: "pitch", Title: "nose", Unit: "°", Value: 2.4, Age: 0.01},
			{Channel: "bank", Title: "bank", Unit: "°", Value: -0.3, Age: 0.01},
			{Channel: "vertical-speed", Title: "vertical speed", Unit: "ft/min", Value: 120, Age: 0.01, Derived: true},
		},
		Needs: []probe.Need{
			{
				Channel: "ball",
				Title:   "ball",
				State:   "missing",
				For:     []phrase.Phrase{phrase.Plain("Ball most of the time")},
				Setting: setting,
			},
			{Channel: "vertical-speed", Title: "vertical speed", State: "derived", For: []phrase.Phrase{}},
			{Channel: "bank", Title: "bank", State: "sent", For: []phrase.Phrase{}},
		},
		Todo: []phrase.Phrase{phrase.ForChannels.Of(
			phrase.List("channels", phrase.Plain("ball")), phrase.Part("setting", setting))},
	}
}
