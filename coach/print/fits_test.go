package print_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/print"
	"halfturn/stream/phrase"
	"halfturn/web/languages"
)

// box is where poppler finds a page or a word, in points of 1/72 in.
var box = regexp.MustCompile(`<(page|word) (?:width|xMin)="([\d.]+)" (?:height|yMin)="([\d.]+)"` +
	`(?: xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)<)?`)

// within fails where a word stands in the margins, by poppler's measure of the words, or where two words of a print
// overlap. It returns the words.
func within(t *testing.T, pdf []byte) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "d.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-bbox", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v; install poppler-utils", err)
	}
	const margin, rounding = 17 / 25.4 * 72, 1.0
	var words []string
	var wide, tall float64
	var last [4]float64
	for _, found := range box.FindAllStringSubmatch(string(out), -1) {
		var at [4]float64
		for i := range at {
			at[i], _ = strconv.ParseFloat(found[i+2], 64)
		}
		if found[1] == "page" {
			wide, tall, last = at[0], at[1], [4]float64{}
			continue
		}
		words = append(words, found[6])
		if at[0] < margin-rounding || at[2] > wide-margin+rounding || at[3] > tall {
			t.Errorf("%q stands at %.0f to %.0f of a page %.0f wide", found[6], at[0], at[2], wide)
		}
		if same := at[1] == last[1]; same && at[0] < last[2]-rounding && at[2] > last[0]+rounding {
			t.Errorf("%q at %.0f overlaps the word before, which ends at %.0f", found[6], at[0], last[2])
		}
		last = at
	}
	return strings.Join(words, " ")
}

// inLanguages runs a test in every language of the pages.
func inLanguages(t *testing.T, test func(t *testing.T, in *phrase.Language)) {
	for _, code := range phrase.LanguageCodes {
		t.Run(code, func(t *testing.T) {
			in, err := languages.Load(os.DirFS("../../web/static"), code)
			if err != nil {
				t.Fatal(err)
			}
			test(t, in)
		})
	}
}

const (
	longName = "Maximiliane Freifrau von Hohenstein-Beispiel zu Unterwolkenstein und Oberwolkenstein-Musterhausen"
	longWord = "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaftsausbildungsverordnung"
)

// long is a debrief of people with long names who write long words, overruled and signed.
func long(in *phrase.Language) *print.Debrief {
	d := flown()
	d.Language, d.Student = in, longName
	l := &d.Legs[0]
	l.Checks[3].Label = "Roll-in as quick as the roll-out"
	l.Plan.Title, l.Plan.Aircraft = "Chandelle, bank growing", "Turboprop trainer"
	last := 180.0
	l.Posts = []coach.Post{{Verdict: coach.NotMeasured}, {Turn: &last, Verdict: coach.NotMeasured}}
	l.Headline = phrase.OverruledWhole.Of(phrase.Part("by", phrase.Plain(longName)),
		phrase.Part("reason", phrase.Plain(longWord)))
	for i := range l.Checks {
		l.Checks[i].Overruled = &coach.Overruled{By: longName, Reason: longWord + " " + longWord + " " + longWord}
	}
	d.Remarks = []string{strings.Repeat(longWord+" says little. ", 30), "Well flown 🛩️👍🏽, 日本語"}
	d.Signed = []logbook.Signing{{By: longName, At: d.Began, Hash: strings.Repeat("5f", 32), Holds: true, After: 2}}
	return d
}

// TestWithinMargins: whatever the names and words, in whatever language, a print stays within its margins.
func TestWithinMargins(t *testing.T) {
	inLanguages(t, func(t *testing.T, in *phrase.Language) {
		for _, all := range []bool{false, true} {
			for _, paper := range print.Papers {
				d := long(in)
				d.All = all
				var b bytes.Buffer
				if err := print.Write(&b, paper, d); err != nil {
					t.Fatal(err)
				}
				within(t, b.Bytes())
			}
		}
	})
}

// TestSheetWithinMargins does the same for the grade sheet, with each grade in each column.
func TestSheetWithinMargins(t *testing.T) {
	inLanguages(t, func(t *testing.T, in *phrase.Language) {
		s := &assess.Sheet{Student: longName + " " + longName, Sessions: 8, Signed: 1,
			Agreement: assess.Agreement{Rated: 1, Near: 1, Higher: 1, Named: 1, Thing: 1}}
		for i, grade := range []string{coach.Unable, coach.Fair, coach.Good, coach.Excellent} {
			g := assess.Grade{Grade: grade, Score: 100}
			s.Maneuvers = append(s.Maneuvers, assess.SheetRow{
				Title:    "Steep turn, 50° of bank",
				Legs:     1000,
				Last:     g,
				Best:     g,
				Median:   g,
				Required: grade,
				Reached:  i%2 == 0,
				WorkOn:   phrase.Plain(longWord + longWord),
				Times:    1,
				Of:       1,
			})
		}
		var b bytes.Buffer
		at := time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC)
		if err := print.Sheet(&b, "a4", s, at, in); err != nil {
			t.Fatal(err)
		}
		words := within(t, b.Bytes())
		for _, grade := range []string{coach.Unable, coach.Fair, coach.Good, coach.Excellent} {
			if n := strings.Count(words, in.Word(grade)+" 100"); n < 3 {
				t.Errorf("%s stands whole %d times; must be 3", in.Word(grade), n)
			}
		}
	})
}

// TestForm: a form is one page with all elements of a published test, each with its three boxes, and says by whom an
// element was marked. The numbers of elements are those of the shipped standards and beyond.
func TestForm(t *testing.T) {
	inLanguages(t, func(t *testing.T, in *phrase.Language) {
		for _, n := range []int{0, 1, 12, 30} {
			f := &assess.Form{Title: "Steep turn, 50° of bank", Document: "A document", Task: "A task", Flown: "check"}
			if n == 0 {
				f.Document, f.Task = "", ""
			}
			for i := range n {
				e := assess.Element{
					ID:       fmt.Sprintf("X.%d", i+1),
					Asks:     longWord,
					Mark:     logbook.Satisfactory,
					Computed: logbook.Satisfactory,
					Checks:   []assess.ElementCheck{{Label: longWord, Verdict: coach.Met}},
				}
				if i == 0 {
					e.By, e.Mark = longName, logbook.Unsatisfactory
				}
				f.Elements = append(f.Elements, e)
			}
			var b bytes.Buffer
			err := print.Form(&b, "a4", &print.FormSheet{Form: f, Session: "evening", Student: longName,
				Began: time.Date(2026, 3, 1, 18, 0, 0, 0, time.UTC), Language: in,
				Signed: []logbook.Signing{{By: longName, Hash: strings.Repeat("5f", 32), Holds: true}}})
			if err != nil {
				t.Fatal(err)
			}
			words := within(t, b.Bytes())
			if pages := strings.Count(words, strings.Fields(in.Wordf("page %d of {pages}", 1))[0]+" 1 "); pages != 1 {
				t.Errorf("%d elements: %d pages begin; must be one", n, pages)
			}
			for i := range n {
				if !strings.Contains(words+" ", f.Elements[i].ID+" ") {
					t.Errorf("%d elements: %s is not there", n, f.Elements[i].ID)
				}
			}
			if said := strings.Contains(words, "Maximiliane Freifrau"); !said {
				t.Errorf("%d elements: nobody is named", n)
			}
		}
	})
}

// TestPictographs: a pictograph from the keyboard of a phone does not cost the whole print; a box stands for it.
func TestPictographs(t *testing.T) {
	d := flown()
	d.Remarks = []string{"Well flown 🛩️👍🏽, all of it"}
	if text := strings.Join(read(t, "a4", d), " "); !strings.Contains(text, "Well flown □□, all of it") {
		t.Errorf("the remark is not there:\n%s", text)
	}
}

// TestHoles: a print says where datagrams were lost; places too many to list are counted.
func TestHoles(t *testing.T) {
	for n, c := range map[int]struct{ one, all string }{
		1: {"Datagrams of this station that this machine lost around 7 s into the session: 20.", "session: 20."},
		9: {"More such losses: 8.", "More such losses: 3."},
	} {
		d := flown()
		for range n {
			h := coach.Hole{Own: 20}
			h.Tell(7)
			d.Holes = append(d.Holes, h.Words)
		}
		for all, words := range map[bool]string{false: c.one, true: c.all} {
			d.All = all
			flat := strings.Join(strings.Fields(read(t, "a4", d)[0]), " ")
			if !strings.Contains(flat, words) {
				t.Errorf("%d holes, all %v: lacks %q: %s", n, all, words, flat)
			}
		}
	}
}

// TestOneThing: what is said to a leg within standard is not called a thing to change, and what stopped a leg is said
// once.
func TestOneThing(t *testing.T) {
	d := flown()
	d.All = false
	l := &d.Legs[0]
	l.Verdict, l.Change, l.Causes = coach.Met, phrase.Phrase{}, nil
	if flat := strings.Join(strings.Fields(read(t, "a4", d)[0]), " "); !strings.Contains(flat,
		"The one thing Again, the same") {
		t.Errorf("met: %s", flat)
	}
	l.Verdict, l.Change, l.Outcome = coach.Missed, phrase.ChangeLessBank.Of(), coach.KnockOff
	l.Reason = phrase.Stalled.Of()
	l.Headline = phrase.StoppedBy.Of(phrase.Part("why", l.Reason))
	flat := strings.ToLower(strings.Join(strings.Fields(read(t, "a4", d)[0]), " "))
	if n := strings.Count(flat, "stalled"); n != 1 {
		t.Errorf("what stopped it is said %d times; must be once: %s", n, flat)
	}
}
