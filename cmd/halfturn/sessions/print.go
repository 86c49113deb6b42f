package sessions

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"time"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/layout"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
)

const mostMarks = 24

// legMarks shows how each leg ended: a shape for each on a screen, elsewhere how many ended in which way.
func legMarks(w io.Writer, verdicts []string, in *phrase.Language) string {
	var words []string
	if layout.HasGlyphs(w) {
		var row strings.Builder
		for _, v := range verdicts[:min(len(verdicts), mostMarks)] {
			row.WriteString(layout.Glyph(v))
		}
		if len(verdicts) > mostMarks {
			row.WriteString("…")
		}
		return row.String()
	}
	for _, v := range []string{coach.Missed, coach.Near, coach.Met, coach.NotMeasured} {
		n := 0
		for _, is := range verdicts {
			if is == v {
				n++
			}
		}
		if n > 0 {
			words = append(words, fmt.Sprintf("%d %s", n, in.Say(debrief.InWords(v))))
		}
	}
	return strings.Join(words, ", ")
}

func printSessions(out io.Writer, list *logbook.SessionList, in *phrase.Language) error {
	w := layout.NewPage(out)
	if list.Total == 0 {
		fmt.Fprintln(w, in.Word("No session is like that."))
		return printLeftOut(w, &list.LeftOut, in)
	}
	t := layout.NewTable(
		w,
		layout.Below{Column: 8, Title: in.Word("the one thing: ")},
		layout.Below{Column: 7},
		layout.Below{Column: 1, Title: in.Word("began ")},
		layout.Below{Column: 2, Title: in.Word("student ")},
	)
	fmt.Fprintln(t, strings.Join([]string{
		in.Word("SESSION"),
		in.Word("BEGAN"),
		in.Word("STUDENT"),
		in.Word("FLOWN"),
		in.Word("LEGS"),
		in.Word("SCORE"),
		in.Word("GRADE"),
		in.Word("WHY"),
		in.Word("THE ONE THING"),
	}, "\t"))
	for i := range list.Sessions {
		r := &list.Sessions[i]
		fmt.Fprintln(t, strings.Join(sessionCells(w, r, in), "\t"))
		if r.Found != "" {
			fmt.Fprintf(t, "  “%s”\n", oneLine(r.Found))
		}
	}
	_ = t.Flush() // the page keeps the error
	if n := len(list.Sessions); list.More {
		fmt.Fprintln(w, in.Wordf("%d of more than %d; --limit 0 lists all", n, list.Total))
	} else if n < list.Total {
		fmt.Fprintln(w, in.Wordf("%d of %d; --limit 0 lists all", n, list.Total))
	}
	return printLeftOut(w, &list.LeftOut, in)
}

// sessionCells are the cells of a session.
func sessionCells(w io.Writer, r *logbook.SessionRow, in *phrase.Language) []string {
	var flown []string
	for _, m := range r.Maneuvers {
		flown = append(flown, in.Text(m.Title))
	}
	name, score, grade := r.ID, "–", "–"
	if r.Keep {
		name = in.Wordf("%s (kept)", name)
	}
	if r.Score != nil {
		score = in.Number(*r.Score, 0)
	}
	if r.Grade != "" {
		grade = in.Say(debrief.InWords(r.Grade))
	}
	return []string{
		name,
		local(r.Began),
		cmp.Or(r.Student, "–"),
		cmp.Or(strings.Join(flown, ", "), in.Word("no leg")),
		cmp.Or(legMarks(w, r.Verdicts, in), "–"),
		score,
		grade,
		cmp.Or(in.Say(r.Headline), "–"),
		cmp.Or(in.Say(r.Change), "–"),
	}
}

// printLeftOut names the session folders that are not in the logbook.
func printLeftOut(w *layout.Page, out *logbook.LeftOut, in *phrase.Language) error {
	if out.Total == 0 {
		return w.Err()
	}
	if out.Total == 1 {
		fmt.Fprintf(w, "\n%s\n", in.Word("1 session is left out of the logbook:"))
	} else {
		fmt.Fprintf(w, "\n%s\n", in.Wordf("%d sessions are left out of the logbook:", out.Total))
	}
	for _, s := range out.Sessions {
		fmt.Fprintf(w, "  %s: %s\n", s.ID, oneLine(in.Say(s.Why)))
	}
	if n := len(out.Sessions); n < out.Total {
		fmt.Fprintf(w, "  %s\n", in.Wordf("and %d more", out.Total-n))
	}
	fmt.Fprintln(w, in.Word("Their folders stay as they are. Mend what is said, then: halfturn sessions rebuild"))
	return w.Err()
}

// leftOut says which sessions were left out when the logbook was rebuilt, and what to do.
func leftOut(out *logbook.LeftOut, in *phrase.Language) string {
	names := leftOutNames(out, in)
	if out.Total == 1 {
		return in.Wordf("1 session is left out: %s. Mend what is said of it, or move its folder away, then rebuild "+
			"again", names)
	}
	return in.Wordf("%d sessions are left out: %s. Mend what is said of each, or move its folder away, then rebuild "+
		"again", out.Total, names)
}

// leftOutNames names the first few.
func leftOutNames(out *logbook.LeftOut, in *phrase.Language) string {
	var ids []string
	for _, s := range out.Sessions[:min(len(out.Sessions), 5)] {
		ids = append(ids, s.ID)
	}
	if n := len(ids); n < out.Total {
		ids = append(ids, in.Wordf("and %d more", out.Total-n))
	}
	return strings.Join(ids, ", ")
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// local writes a time of an answer by this computer's clock.
func local(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return t.Local().Format("2006-01-02 15:04")
}

func printSession(out io.Writer, d *logbook.SessionDetail, r *debrief.Report, in *phrase.Language) error {
	w := layout.NewPage(out)
	for _, c := range coach.Cautions {
		fmt.Fprintln(w, in.Text(c))
	}
	fmt.Fprintf(w, "\n%s\n", layout.Heading(w, in.Wordf("Session %s", d.ID)))
	when := in.Wordf("%s is being flown now", local(d.Began))
	if d.Ended != "" {
		when = in.Wordf("%s to %s", local(d.Began), local(d.Ended))
	}
	student := cmp.Or(d.Student, in.Word("not named"))
	fmt.Fprintf(w, "  %s\n", in.Wordf("%s at station %s, student %s", when, d.Station, student))
	aircraft := cmp.Or(in.Text(d.Aircraft.Title), in.Word("none chosen"))
	standard := cmp.Or(d.Standard, in.Word("as on the cards"))
	fmt.Fprintf(w, "  %s\n", in.Wordf("aircraft %s, standard %s, recorded by version %s", aircraft, standard, d.Server))
	if d.Keep {
		fmt.Fprintf(w, "  %s\n", in.Word("marked to be kept"))
	}
	if !d.Problem.IsZero() {
		fmt.Fprintf(w, "  %s\n", in.Say(d.Problem))
	}
	for i := range r.Signed {
		fmt.Fprintf(w, "  %s\n", text.Signature(&r.Signed[i], in))
	}
	for i := range d.Said {
		r := &d.Said[i]
		line := oneLine(stored.RemarkLine(r, in))
		fmt.Fprintf(w, "  %s\n", in.Wordf("Remark %d, %s: %s", r.ID, r.At.Local().Format("2006-01-02"), line))
	}
	for i := range d.Regrades {
		fmt.Fprintf(w, "  %s\n", regraded(i+2, &d.Regrades[i], in))
	}
	for i := range r.Files {
		for j := range r.Files[i].Stations {
			if err := text.Flown(w, &r.Files[i].Stations[j], in); err != nil {
				return err
			}
		}
	}
	if len(r.Files) == 0 || len(r.Files[0].Stations) == 0 {
		fmt.Fprintf(w, "  %s\n", in.Word("no leg was flown"))
	}
	return w.Err()
}

// regraded is a further grading in a line.
func regraded(n int, g *logbook.Regrade, in *phrase.Language) string {
	grade := in.Word("no grade")
	if g.Grade != "" {
		grade = in.Say(debrief.InWords(g.Grade))
	}
	return in.Wordf("Grading %d, %s: %s, %s standard: %s, %d verdicts or grades differ", n, local(g.At), g.Maneuver,
		cmp.Or(g.Standard, in.Word("its own")), grade, len(g.Differences))
}
