package archive

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/stream/phrase"
)

// TestEnglishReport: a session that an earlier version graded in plain English is listed and shown, and what it says
// has the codes by which pages translate it, out of its file and out of the logbook.
func TestEnglishReport(t *testing.T) {
	const id = "2030-03-02T10-00-00Z_Seat-3"
	data := t.TempDir()
	must(t, os.CopyFS(folder.Sessions(data), os.DirFS("testdata/english")))
	b, err := Open(data, Options{Engine: sqlite.Engine{}, Version: "1.2"})
	must(t, err)
	defer b.Close()
	list, err := b.List(t.Context(), logbook.Filter{})
	must(t, err)
	if list.Total != 1 || list.LeftOut.Total != 0 || list.Sessions[0].Legs != 1 {
		t.Fatalf("listed: %+v", list)
	}
	stored, _, err := folder.ReadReport(filepath.Join("testdata/english", id, folder.SummaryFile))
	must(t, err)
	report, err := b.Report(t.Context(), id, 1)
	must(t, err)
	series := report.Files[0].Stations[0].Series[0]
	leg := series.Legs[0]
	for what, c := range map[string]struct {
		is   phrase.Phrase
		code string
	}{
		"the session's change": {list.Sessions[0].Change, "change.less-bank"},
		"the series' change":   {series.Change, "change.keep-rolling-to-ninety"},
		"what it lacks":        {stored.Files[0].Stations[0].Series[0].Missing, "list.and-then"},
		"the leg's reason":     {leg.Reason, "end.turned-back"},
		"the leg's change":     {leg.Change, "change.less-bank"},
		"a note":               {leg.Checks[0].Note, "note.quarters"},
		"a reason":             {leg.Checks[1].Reason, "none.exit"},
		"the evidence":         {leg.Causes[0].Evidence, "evidence.with"},
		"the advice":           {leg.Causes[0].Advice, "correct.overbanked"},
	} {
		if c.is.Code() != c.code {
			t.Errorf("%s is %q, of the code %q; must be of %q", what, c.is, c.is.Code(), c.code)
		}
	}
	label := func(s string) phrase.Arg { return phrase.Part("label", phrase.Plain(s)) }
	between := func(low, high float64, unit string) phrase.Arg {
		return phrase.Part("wanted", phrase.Between.Of(phrase.Number("low", low, 0, unit),
			phrase.Number("high", high, 0, unit)))
	}
	want := phrase.WithIt.Of(
		phrase.Part("shown", phrase.Sentences(
			phrase.BrokenOff.Of(phrase.Part("reason", phrase.TurnedBack.Of())),
			phrase.Flown.Of(label("Bank at 90°"), phrase.Number("flown", 107, 0, "°"), between(60, 88, "°")))),
		phrase.Within("came",
			phrase.FlownAt.Of(label("Lowest speed"), phrase.Number("flown", 94.6, 1, "kt"),
				phrase.Number("turn", 86, 0, "°"), between(63, 85, "kt"))))
	if d := cmp.Diff(inJSON(t, want), inJSON(t, leg.Causes[0].Evidence)); d != "" {
		t.Error(d)
	}
}

func inJSON(t *testing.T, p phrase.Phrase) string {
	t.Helper()
	out, err := json.Marshal(p)
	must(t, err)
	return string(out)
}
