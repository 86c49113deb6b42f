package course

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/course"
	"halfturn/coach/drill"
	"halfturn/coach/layout"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
)

type drillCmd struct {
	flags
	whom
	Standard string `help:"Standard to judge by." placeholder:"NAME"`
	Format   string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what else there is to know.
func (drillCmd) Help() string {
	return "A drill is flown in the building block in which the error shows, or in the whole maneuver. Only what " +
		"belongs to it is said, and three good legs in a row end it. With --student, the error is the one that was " +
		"found most often in the latest legs. \"Drill this\" beside the cause in the debrief sets it up.\n\n" +
		"  halfturn course drill --cause overbanked --maneuver wing-over"
}

// A drilled is what is printed of a drill.
type drilled struct {
	Cause    string     `json:"cause"`
	Of       string     `json:"of"`       // the maneuver in which the cause was found
	Maneuver string     `json:"maneuver"` // in which it is drilled
	Standard string     `json:"standard"`
	Part     drill.Part `json:"part"`
	Want     int        `json:"want"`          // good legs in a row
	Row      *int       `json:"row,omitempty"` // how many the student had in the latest drill of it

	card *maneuver.Card
}

// Run prints the drill.
func (c *drillCmd) Run(ctx context.Context, s base.Streams) error {
	if c.Student == "" && (c.Cause == "" || c.Maneuver == "") {
		return base.Usagef(s.Language, "say what to drill: --cause and --maneuver, or --student")
	}
	if (c.Cause == "") != (c.Maneuver == "") {
		return base.Usagef(s.Language, "--cause and --maneuver must be given together")
	}
	if c.Student == "" {
		_, lib, err := c.read(s)
		if err != nil {
			return err
		}
		return c.print(s, lib, "", nil)
	}
	return c.with(ctx, s, &c.flags, false, func(at *stored.Courses, o stored.Asked) error {
		known, legs, err := stored.FlownBy(ctx, at.Archive, o.Student, nil, time.Local)
		if err != nil {
			return err
		}
		return c.print(s, at.Library, known, legs)
	})
}

// print prints the drill of the error that was named, or else of the one a student had most often.
func (c *drillCmd) print(s base.Streams, lib *course.Library, known string, legs []course.Flown) error {
	id, flown := c.Cause, c.Maneuver
	if id == "" {
		weakness, err := lib.Named("weakness")
		if err != nil {
			return base.Usage(err)
		}
		var ok bool
		if id, flown, ok = lib.Weakness(weakness, legs); !ok {
			return base.Usagef(s.Language,
				"nothing that can be drilled was found: name an error with --cause and --maneuver")
		}
	}
	d, err := c.drill(lib.Cards(), id, flown, legs)
	if err != nil {
		return base.Usage(err)
	}
	if c.Format == "json" {
		return base.Indented(s.Out, map[string]any{
			"version": 1, "cautions": coach.Cautions, "student": known, "drill": d,
		})
	}
	return printDrill(s.Out, d, s.Language)
}

// drill finds where a cause is drilled, what belongs to it, and how far the student came in it last.
func (c *drillCmd) drill(lib *maneuver.Library, id, flown string, legs []course.Flown) (*drilled, error) {
	if _, err := lib.Judged(flown, c.Standard); err != nil {
		return nil, err
	}
	d := &drilled{Cause: id, Of: flown, Maneuver: drill.Where(lib, flown, c.Standard, id), Want: drill.Want}
	card, err := lib.Judged(d.Maneuver, c.Standard)
	if err != nil {
		return nil, err
	}
	part, ok := drill.PartOf(card, id)
	if !ok {
		return nil, phrase.CourseNoWeakness.Error(phrase.Name("cause", id), phrase.Name("maneuver", flown))
	}
	d.Standard, d.Part, d.card = card.Standard, part, card
	for i := range legs {
		if l := legs[i].Leg; l.Drill != nil && l.Drill.Cause == id {
			d.Row = &l.Drill.Row
		}
	}
	return d, nil
}

func printDrill(out io.Writer, d *drilled, in *phrase.Language) error {
	w := layout.NewPage(out)
	fmt.Fprintln(w, layout.Heading(w, in.Wordf("Drill: %s", cause.MeaningOf(in, d.Cause))))
	t := layout.NewTable(w)
	row := func(name, value string) { fmt.Fprintf(t, "  %s\t%s\n", name, value) }
	row(in.Word("fly"), in.Text(d.card.Title)+" ("+d.Maneuver+")")
	row(in.Word("standard"), d.Standard)
	row(in.Word("what counts"), strings.Join(d.labels(in), ", "))
	said := in.Word("nothing but safety, and how the leg went")
	if words := d.words(in); len(words) > 0 {
		said = strings.Join(words, "; ")
	}
	row(in.Word("what is said"), said)
	row(in.Word("done after"), in.Wordf("%d good legs in a row", d.Want))
	if d.Row != nil {
		row(in.Word("last time"), in.Wordf("%d in a row", *d.Row))
	}
	_ = t.Flush() // the page keeps the error
	fmt.Fprintf(w, "\n  %s\n", in.Word("Set it up with \"Drill this\" beside the cause in the debrief."))
	return w.Err()
}

// labels are those of the checks that count.
func (d *drilled) labels(in *phrase.Language) (list []string) {
	for i := range d.card.Checks {
		if k := &d.card.Checks[i]; k.Weight > 0 && d.Part.HasCheck(k.ID) {
			list = append(list, in.Text(k.Label))
		}
	}
	return list
}

// words are what can be said, as the card has it, with the turn angle of a cue.
func (d *drilled) words(in *phrase.Language) (list []string) {
	p := plan.New(d.card, nil)
	for i := range d.card.AllCues {
		if q := &d.card.AllCues[i]; q.Say != "" && d.Part.HasCue(q.Of) {
			words := in.Say(p.Phrase(q.Say, q.Of, phrase.Words("heading", "…")))
			list = append(list, in.Wordf("%s at %s°", words, strconv.FormatFloat(q.Of, 'f', -1, 64)))
		}
	}
	for i := range d.card.Watches {
		w := &d.card.Watches[i]
		if !d.Part.HasWatch(w.ID) {
			continue
		}
		for _, words := range []string{w.High, w.Low} {
			if words = in.Text(words); words != "" && !slices.Contains(list, words) {
				list = append(list, words)
			}
		}
	}
	return list
}
