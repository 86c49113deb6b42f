package sessions

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"time"

	"halfturn/cmd/halfturn/amount"
	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/layout"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
)

const mostMarks = 24

// legMarks shows how each leg ended: a shape for each on a screen, elsewhere how many ended in which way.
func legMarks(w io.Writer, verdicts []string) string {
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
			words = append(words, fmt.Sprintf("%d %s", n, strings.ReplaceAll(v, "-", " ")))
		}
	}
	return strings.Join(words, ", ")
}

func printSessions(out io.Writer, list *logbook.SessionList) error {
	w := layout.NewPage(out)
	if list.Total == 0 {
		fmt.Fprintln(w, "No session is like that.")
		return printLeftOut(w, &list.LeftOut)
	}
	t := layout.NewTable(w, layout.Below{Column: 8, Title: "the one thing: "}, layout.Below{Column: 7},
		layout.Below{Column: 1, Title: "began "}, layout.Below{Column: 2, Title: "student "})
	fmt.Fprintln(t, "SESSION\tBEGAN\tSTUDENT\tFLOWN\tLEGS\tSCORE\tGRADE\tWHY\tTHE ONE THING")
	for i := range list.Sessions {
		r := &list.Sessions[i]
		var flown []string
		for _, m := range r.Maneuvers {
			flown = append(flown, m.Title)
		}
		score := "–"
		if r.Score != nil {
			score = fmt.Sprintf("%.0f", *r.Score)
		}
		name := r.ID
		if r.Keep {
			name += " (kept)"
		}
		columns := []string{
			name,
			local(r.Began),
			cmp.Or(r.Student, "–"),
			cmp.Or(strings.Join(flown, ", "), "no leg"),
			cmp.Or(legMarks(w, r.Verdicts), "–"),
			score,
			cmp.Or(r.Grade, "–"),
			cmp.Or(r.Headline.String(), "–"),
			cmp.Or(r.Change.String(), "–"),
		}
		fmt.Fprintln(t, strings.Join(columns, "\t"))
		if r.Found != "" {
			fmt.Fprintf(t, "  “%s”\n", oneLine(r.Found))
		}
	}
	_ = t.Flush() // the page keeps the error
	if n := len(list.Sessions); n < list.Total {
		fmt.Fprintf(w, "%d of %d; --limit 0 lists all\n", n, list.Total)
	}
	return printLeftOut(w, &list.LeftOut)
}

// printLeftOut names the session folders that are not in the logbook.
func printLeftOut(w *layout.Page, out *logbook.LeftOut) error {
	if out.Total == 0 {
		return w.Err()
	}
	fmt.Fprintf(w, "\n%s left out of the logbook:\n", amount.CountIs(out.Total, "session"))
	for _, s := range out.Sessions {
		fmt.Fprintf(w, "  %s: %s\n", s.ID, oneLine(s.Why.String()))
	}
	if n := len(out.Sessions); n < out.Total {
		fmt.Fprintf(w, "  and %d more\n", out.Total-n)
	}
	fmt.Fprintln(w, "Their folders stay as they are. Mend what is said, then: halfturn sessions rebuild")
	return w.Err()
}

// leftOutNames names the first few.
func leftOutNames(out *logbook.LeftOut) string {
	var ids []string
	for _, s := range out.Sessions[:min(len(out.Sessions), 5)] {
		ids = append(ids, s.ID)
	}
	if n := len(ids); n < out.Total {
		ids = append(ids, fmt.Sprintf("and %d more", out.Total-n))
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

func printSession(out io.Writer, d *logbook.SessionDetail, r *debrief.Report) error {
	w := layout.NewPage(out)
	for _, c := range coach.Cautions {
		fmt.Fprintln(w, c)
	}
	fmt.Fprintf(w, "\n%s\n", layout.Heading(w, "Session "+d.ID))
	end := "is being flown now"
	if d.Ended != "" {
		end = "to " + local(d.Ended)
	}
	student := cmp.Or(d.Student, "not named")
	fmt.Fprintf(w, "  %s %s at station %s, student %s\n", local(d.Began), end, d.Station, student)
	aircraft, standard := cmp.Or(d.Aircraft.Title, "none chosen"), cmp.Or(d.Standard, "as on the cards")
	fmt.Fprintf(w, "  aircraft %s, standard %s, recorded by version %s\n", aircraft, standard, d.Server)
	if d.Keep {
		fmt.Fprintln(w, "  marked to be kept")
	}
	if !d.Problem.IsZero() {
		fmt.Fprintf(w, "  %s\n", d.Problem)
	}
	for i := range r.Signed {
		fmt.Fprintf(w, "  %s\n", text.Signature(&r.Signed[i]))
	}
	for i := range d.Said {
		r := &d.Said[i]
		line := oneLine(stored.RemarkLine(r, nil))
		fmt.Fprintf(w, "  Remark %d, %s: %s\n", r.ID, r.At.Local().Format("2006-01-02"), line)
	}
	for i, g := range d.Regrades {
		fmt.Fprintf(w, "  Grading %d, %s: %s, %s standard: %s, %d verdicts or grades differ\n", i+2, local(g.At),
			g.Maneuver, cmp.Or(g.Standard, "its own"), cmp.Or(g.Grade, "no grade"), len(g.Differences))
	}
	for i := range r.Files {
		for j := range r.Files[i].Stations {
			if err := text.Flown(w, &r.Files[i].Stations[j]); err != nil {
				return err
			}
		}
	}
	if len(r.Files) == 0 || len(r.Files[0].Stations) == 0 {
		fmt.Fprintln(w, "  no leg was flown")
	}
	return w.Err()
}
