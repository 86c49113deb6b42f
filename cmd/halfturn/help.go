package main

import (
	"maps"
	"strings"

	"github.com/alecthomas/kong"

	"halfturn/cmd/halfturn/demo"
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
	all := map[string]string{
		"airplanes":  list(airplane.Names()),
		"demo_paces": demo.Paces.String(),
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

		"help_strength": "How strong the flaw is: " + list(trainer.Strengths()) + ", or a number from " +
			trainer.StrengthRange.String() + ", where 1 is medium.",
	}
	maps.Copy(all, sentences)
	return all
}

// expanded puts the variables into the help. kong can do that too, but goes through all of them once more for each
// flag, which takes longer than most commands.
func expanded(k *kong.Kong) error {
	var pairs []string
	for name, text := range helpVariables() {
		pairs = append(pairs, "${"+name+"}", text)
	}
	put := strings.NewReplacer(pairs...).Replace
	return kong.Visit(k.Model, func(node kong.Visitable, next kong.Next) error {
		switch node := node.(type) {
		case *kong.Node:
			node.Help = put(node.Help)
		case *kong.Value:
			node.Help, node.Enum = put(node.Help), put(node.Enum)
		}
		return next(nil)
	})
}

// sentences are those of flags that are too long for a struct tag.
var sentences = map[string]string{
	"help_recordings": "Recordings (pcap or pcapng) or text logs, also compressed by gzip or zstd, folders of " +
		"sessions, or folders of these.",
	"help_language": "Language of what is printed: en, de or es; or set HALFTURN_LANGUAGE. Help, the server's log " +
		"and JSON stay English.",
	"help_rate": "Rows a second of a text log that has no time.",
	"help_for":  "How long to listen; 0 is until Ctrl-C. Default: 0 on a terminal, 10s elsewhere.",
	"help_format_grades": "How the grades are printed: text, table, json or csv. Default: text for one file, a " +
		"table for several. csv has one row per check.",
	"help_measured": "A recording (a session's folder, pcap, pcapng or a text log, also compressed by gzip or " +
		"zstd) with some steady level flight at entry speed and power and, for the stall speed, a clean stall.",
	"help_subscribe": "Ask a simulator that can be asked (X-Plane) for its values: HOST, HOST:PORT, or auto to " +
		"find it by its beacon.",
	"help_captures": "Captures (pcap or pcapng) or text logs, also compressed by gzip or zstd, folders of " +
		"sessions, or folders of these.",
	"export_formats": "csv,parquet,gpx,kml,json,pdf,html",
	"help_export_format": "csv, parquet: every sample with all channels. gpx, kml: the track. json: the " +
		"grades. pdf: the printable debrief. html: the debrief as one file that opens in a browser without Halfturn.",
	"help_export_all": "On the PDF: a cover, and each leg with its causes and callouts. Left out: one page, of the " +
		"leg with the lowest score or of --leg.",
	"help_export_names": "In the HTML file: with the student, the station and the remarks, which are left out " +
		"otherwise.",
	"help_verdict":        "met, near, missed, not-measured, or computed: as it was before.",
	"help_export_leg":     "Only this leg, counted from 1, with five seconds before and after; 0 is the whole session.",
	"help_export_output":  "File to write; it must not be there yet. \"-\" or left out: standard output.",
	"help_export_student": "Name on the PDF; left out it is the session's, or there is a line to write it on.",
	"help_import_format":  "How the list of what was imported is printed: text or json.",
	"help_most_ratio":     "The most that it may hold for each byte of a compressed file; 0 is no limit.",
	"help_most_sessions":  "The most sessions of one capture; 0 is no limit.",
	"help_most_size":      "The most that one capture may hold uncompressed: 4GB, 500MB; 0 is no limit.",
	"help_most_stations":  "The most senders of one capture that are taken in; 0 is no limit.",
	"help_regrade_against": "Grades to compare with: a file of grade --format json. Left out: those of the " +
		"session.",
	"help_regrade_format": "text: the differences. json: the differences and the new grades.",
	"help_sessions_export": "Write a session or one leg as CSV, Parquet, GPX, KML, JSON, a printable PDF or one " +
		"HTML file.",
}
