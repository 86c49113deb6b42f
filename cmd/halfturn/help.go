package main

import (
	"strings"

	"halfturn/configs/settings"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/airplane"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/trainer/send"
)

// helpVariables are what ${NAME} stands for in the help of flags: names and ranges that other packages own, and
// sentences too long for a struct tag.
func helpVariables() map[string]string {
	list := func(names []string) string { return strings.Join(names, ", ") }
	return map[string]string{
		"airplanes":  list(airplane.Names()),
		"demo_paces": demoPaces.String(),
		"directions": list(trainer.Directions()),
		"flaws":      list(trainer.Flaws()),
		"formats":    list(encode.Formats()),
		"legs":       trainer.LegRange.String(),
		"levels":     list(settings.Levels),
		"maneuvers":  list(trainer.Maneuvers()),
		"paces":      send.PaceRange.String(),
		"rates":      send.RateRange.String(),
		"stations":   send.StationRange.String(),
		"winds":      trainer.WindRange.String(),

		"help_recordings": "Recordings (pcap or pcapng, also compressed by gzip or zstd), folders of sessions, or " +
			"folders of these.",
		"help_for": "How long to listen; 0 is until Ctrl-C. Default: 0 on a terminal, 10s elsewhere.",
		"help_format_grades": "How the grades are printed: text, table, json or csv. Default: text for one file, a " +
			"table for several. csv has one row per check.",
		"help_measured": "A recording (a session's folder, or pcap or pcapng, also compressed by gzip or zstd) with " +
			"some steady level flight at entry speed and power and, for the stall speed, a clean stall.",
		"help_subscribe": "Ask a simulator that can be asked (X-Plane) for its values: HOST, HOST:PORT, or auto to " +
			"find it by its beacon.",
		"help_strength": "How strong the flaw is: " + list(trainer.Strengths()) + ", or a number from " +
			trainer.StrengthRange.String() + ", where 1 is medium.",
	}
}
