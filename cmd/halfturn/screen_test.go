package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/alecthomas/kong"

	"halfturn/cmd/halfturn/welcome"
	"halfturn/coach/layout/layouttest"
	"halfturn/configs/guide"
	"halfturn/web"
)

// shown is what a command shows on a terminal of the given width; file names are those of the folder alone.
func shown(t *testing.T, columns int, args ...string) string {
	t.Helper()
	out := &layouttest.Terminal{Columns: columns}
	run(t.Context(), args, streamsTo(out, out, func(string) (string, bool) { return "", false }))
	return out.String()
}

// fileName is the name of a recording above its grades, with the folders of this machine.
var fileName = regexp.MustCompile(`(?s)first\.\n\n\S[^\n]*\n(\S[^\n]*\n)*  Judged by`)

// TestScreens: what a command shows fits terminals of 80 and of 120 columns, and looks as accepted.
func TestScreens(t *testing.T) {
	dir := t.TempDir()
	log, data := filepath.Join(dir, "flight.csv"), filepath.Join(dir, "data")
	if err := os.WriteFile(log, []byte(unknownLog(t)), 0o600); err != nil {
		t.Fatal(err)
	}
	importedInto(t, data, recordedFlight)
	commands := map[string][]string{
		"help":           {"--help"},
		"grade-help":     {"grade", "--help"},
		"cards-list":     {"cards", "list"},
		"cards-show":     {"cards", "show", "wing-over", "--aircraft", "turboprop-trainer"},
		"cards-kinds":    {"cards", "kinds"},
		"cards-explain":  {"cards", "explain", "wing-over", "bank-at-90", "--aircraft", "turboprop-trainer"},
		"brief":          {"brief", "--aircraft", "turboprop-trainer"},
		"causes":         {"causes"},
		"simulators":     {"simulators", "list"},
		"simulator":      {"simulators", "show", "flightgear"},
		"grade":          {"grade", recordedFlight, "--aircraft", "turboprop-trainer"},
		"grade-table":    {"grade", recordedFlight, "--format", "table", "--maneuver", "auto"},
		"grade-refused":  {"grade", log, "--format", "table"},
		"sessions-list":  {"sessions", "list", "--data", data},
		"sessions-show":  {"sessions", "show", "last", "--data", data},
		"sessions-wrong": {"sessions", "list", "--data", data, "--from", "yesterday"},
	}
	// These name folders and hours of this machine; package sessions holds the look of the list.
	here := map[string]bool{"grade-refused": true, "sessions-list": true, "sessions-show": true}
	for name, args := range commands {
		for _, columns := range layouttest.Widths {
			text := shown(t, columns, args...)
			layouttest.Fits(t, text, columns)
			if text == "" {
				t.Errorf("%v shows nothing", args)
			}
			text = fileName.ReplaceAllString(text, "first.\n\nFILE\n  Judged by")
			if !here[name] {
				layouttest.Golden(t, *update, fmt.Sprintf("screens/%s-%d.txt", name, columns), text)
			}
		}
	}
}

// english tells text that was not translated. Ids of cards and names of commands are English in every language, and so
// are sources, which are citations.
var (
	english = regexp.MustCompile(`(?i)\b(the|with|were|of|at the|and|is|to|wanted|leg|turn|speed|nose|missed)\b`)
	ids     = regexp.MustCompile(`(?m)halfturn [a-z -]+|--[a-z-]+|[a-z]+(?:-[a-z0-9]+)+|[Ww]ing-over|` +
		`(?:Quelle|Fuente|Manöver|Maniobra|Flugzeug|Avión)[^:\n]*: [^\n]*`)
)

// TestScreensInLanguages: in the other languages, what a command shows fits 80 columns and has no English in it; the
// look of some is held.
func TestScreensInLanguages(t *testing.T) {
	dir := t.TempDir()
	importedInto(t, dir, recordedFlight)
	for name, args := range map[string][]string{
		"grade":         {"grade", recordedFlight, "--aircraft", "turboprop-trainer"},
		"grade-table":   {"grade", recordedFlight, "--format", "table", "--maneuver", "auto"},
		"brief":         {"brief", "--aircraft", "turboprop-trainer"},
		"cards-list":    {"cards", "list"},
		"cards-kinds":   {"cards", "kinds"},
		"cards-show":    {"cards", "show", "wing-over", "--aircraft", "turboprop-trainer"},
		"cards-explain": {"cards", "explain", "wing-over", "bank-at-90", "--aircraft", "turboprop-trainer"},
		"causes":        {"causes"},
		"simulators":    {"simulators", "list"},
		"sessions-list": {"sessions", "list", "--data", dir},
		"sessions-show": {"sessions", "show", "last", "--data", dir},
	} {
		for _, code := range []string{"de", "es"} {
			text := shown(t, 80, append(args, "--language", code)...)
			layouttest.Fits(t, text, 80)
			text = judgedBy.ReplaceAllString(text, "\n\nFILE\n$1")
			if name == "grade" || name == "brief" || name == "cards-explain" {
				layouttest.Golden(t, *update, fmt.Sprintf("screens/%s-%s.txt", name, code), text)
			}
			if name == "cards-show" || name == "simulators" || name == "cards-kinds" {
				continue // mostly sources, names and keys
			}
			for line := range strings.Lines(ids.ReplaceAllString(text, "")) {
				if found := english.FindString(line); found != "" {
					t.Errorf("%s in %s: %q in %q", name, code, found, line)
				}
			}
		}
	}
}

// judgedBy is the name of a recording, above what it was judged by.
var judgedBy = regexp.MustCompile(`(?s)\n\n\S[^\n]*\n(?:\S[^\n]*\n)*(  (?:Beurteilt nach|Juzgado por))`)

// TestWelcomeInLanguages: the three lines of a start fit, and the address stays alone.
func TestWelcomeInLanguages(t *testing.T) {
	for code, want := range map[string]string{"de": "Nichts geht verloren", "es": "No se pierde nada"} {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		out := &layouttest.Terminal{Columns: 80}
		welcome.Say(out, "http://127.0.0.1:7180/", in)
		layouttest.Fits(t, out.String(), 80)
		text := out.String()
		alone := strings.Contains(text, "\nhttp://127.0.0.1:7180/\n")
		if !strings.Contains(text, want) || !alone || english.MatchString(text) {
			t.Errorf("%s: %s", code, text)
		}
	}
}

// TestHelpFits: the help of every command fits 80 columns, and so do all guides.
func TestHelpFits(t *testing.T) {
	parser, err := kong.New(&cli{}, kong.PostBuild(expanded))
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range parser.Model.Leaves(false) {
		args := strings.Fields(n.FullPath())[1:]
		layouttest.Fits(t, shown(t, 80, append(args, "--help")...), 80)
	}
	list, err := guide.All()
	if err != nil {
		t.Fatal(err)
	}
	for i := range list {
		layouttest.Fits(t, shown(t, 80, "simulators", "show", list[i].Name), 80)
	}
}

// What is piped is the same whatever the terminal: no shapes, no styles, one line for each row.
func TestPiped(t *testing.T) {
	for _, args := range [][]string{
		{"cards", "show", "wing-over"}, {"grade", recordedFlight}, {"grade", recordedFlight, "--format", "table"},
	} {
		status, text, msg := call(t, map[string]string{"COLUMNS": "40"}, args...)
		if status != exitDone || msg != "" || strings.ContainsAny(text, "●◐⊘◌\x1b\uFDD0\uFDD1\uFDD2") {
			t.Errorf("%v: exit status %d, %s\n%s", args, status, msg, text)
		}
	}
}
