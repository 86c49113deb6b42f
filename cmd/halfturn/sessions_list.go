package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
)

type sessionsListCmd struct {
	bookFlags
	Student  string `help:"Only of this student." placeholder:"NAME"`
	Maneuver string `help:"Only with a leg of this maneuver, by the name of its card." placeholder:"NAME"`
	Aircraft string `help:"Only in this aircraft, by the name of its card." placeholder:"NAME"`
	From     string `help:"Only from this day on: year-month-day." placeholder:"DATE"`
	To       string `help:"Only up to this day, it included." placeholder:"DATE"`
	Grade    string `help:"Only of this grade." enum:",unable,fair,good,excellent" default:"" placeholder:"GRADE"`
	Text     string `help:"Only with these words, or beginnings of words, in a remark." placeholder:"WORDS"`
	Flown    bool   `help:"Not those without a leg, unless they go on, are kept or have a remark."`
	Limit    int    `help:"At most this many; 0 is all." default:"50" placeholder:"N"`
}

// Help says what else there is to know.
func (sessionsListCmd) Help() string {
	return "Times are of this computer's clock. A mark a leg: ● met, ◐ near, ⊘ missed, ○ not measured. Kept says " +
		"that a session is never removed by age or size.\n\n" +
		"  halfturn sessions list --student \"Ada Example\" --from 2026-03-01\n" +
		"  halfturn sessions list --text apex --format json"
}

// Run lists sessions.
func (c *sessionsListCmd) Run(ctx context.Context, s streams) error {
	f := logbook.Filter{Student: c.Student, Maneuver: c.Maneuver, Aircraft: c.Aircraft, Grade: c.Grade, Text: c.Text,
		Flown: c.Flown}
	for _, d := range []struct {
		flag, text string
		to         *time.Time
		days       int
	}{{"--from", c.From, &f.From, 0}, {"--to", c.To, &f.To, 1}} {
		if d.text == "" {
			continue
		}
		t, err := logbook.DayStart(d.text)
		if err != nil {
			return usagef("%s: %w", d.flag, err)
		}
		*d.to = t.AddDate(0, 0, d.days)
	}
	if c.Limit < 0 {
		return usagef("--limit is %d; allowed: 1 and more, 0 for all", c.Limit)
	}
	return c.with(ctx, s, true, func(b *archive.Archive) error {
		list, err := all(ctx, b, f, c.Limit)
		if err != nil {
			return err
		}
		if c.Format == "json" {
			return writeIndented(s.out, list)
		}
		return printSessions(s.out, list)
	})
}

// all asks page by page, up to a limit; 0 is all.
func all(ctx context.Context, b *archive.Archive, f logbook.Filter, limit int) (*logbook.SessionList, error) {
	var list *logbook.SessionList
	for {
		f.Limit = 200
		if limit > 0 && list != nil {
			f.Limit = min(200, limit-len(list.Sessions))
		} else if limit > 0 {
			f.Limit = min(200, limit)
		}
		page, err := b.List(ctx, f)
		if err != nil {
			return nil, err
		}
		if list != nil {
			page.Sessions = append(list.Sessions, page.Sessions...)
		}
		list = page
		if f.After = list.Next; f.After == "" || limit > 0 && len(list.Sessions) >= limit {
			return list, nil
		}
	}
}

// marks are the verdicts as the pages draw them.
var marks = map[string]string{coach.Met: "●", coach.Near: "◐", coach.Missed: "⊘", coach.NotMeasured: "○"}

const mostMarks = 24

func printSessions(w io.Writer, list *logbook.SessionList) error {
	if list.Total == 0 {
		fmt.Fprintln(w, "No session is like that.")
		return printLeftOut(w, &list.LeftOut)
	}
	t := tabwriter.NewWriter(w, 0, 8, 2, ' ', 0)
	fmt.Fprintln(t, "SESSION\tBEGAN\tSTUDENT\tFLOWN\tLEGS\tSCORE\tGRADE\tTHE ONE THING")
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
		var row strings.Builder
		for _, v := range r.Verdicts[:min(len(r.Verdicts), mostMarks)] {
			row.WriteString(marks[v])
		}
		if len(r.Verdicts) > mostMarks {
			row.WriteString("…")
		}
		name := r.ID
		if r.Keep {
			name += " (kept)"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", name, local(r.Began), cmp.Or(r.Student, "–"),
			cmp.Or(strings.Join(flown, ", "), "no leg"), cmp.Or(row.String(), "–"), score, cmp.Or(r.Grade,
				"–"), cmp.Or(r.Change.String(), "–"))
		if r.Found != "" {
			fmt.Fprintf(t, "  “%s”\n", oneLine(r.Found))
		}
	}
	if err := t.Flush(); err != nil {
		return err
	}
	if n := len(list.Sessions); n < list.Total {
		if _, err := fmt.Fprintf(w, "%d of %d; --limit 0 lists all\n", n, list.Total); err != nil {
			return err
		}
	}
	return printLeftOut(w, &list.LeftOut)
}

// printLeftOut names the session folders that are not in the logbook.
func printLeftOut(w io.Writer, out *logbook.LeftOut) error {
	if out.Total == 0 {
		return nil
	}
	fmt.Fprintf(w, "\n%s left out of the logbook:\n", areOf(out.Total, "session"))
	for _, s := range out.Sessions {
		fmt.Fprintf(w, "  %s: %s\n", s.ID, oneLine(s.Why.String()))
	}
	if n := len(out.Sessions); n < out.Total {
		fmt.Fprintf(w, "  and %d more\n", out.Total-n)
	}
	_, err := fmt.Fprintln(w, "Their folders stay as they are. Mend what is said, then: halfturn sessions rebuild")
	return err
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

type sessionsShowCmd struct {
	bookFlags
	Session string `arg:"" help:"Session by name; last is the newest."`
	Grading int    `help:"1 is the first grading, 2 and more those of regrade." default:"1" placeholder:"N"`
}

// shown is a session as JSON: what is known of it, and the grades in the format of grade.
type shown struct {
	Version  int                    `json:"version"`
	Cautions []string               `json:"cautions"`
	Session  *logbook.SessionDetail `json:"session"`
	Report   *debrief.Report        `json:"report"`
}

// Run shows one session.
func (c *sessionsShowCmd) Run(ctx context.Context, s streams) error {
	return c.withSession(ctx, s, true, &c.Session, func(b *archive.Archive) error {
		d, err := b.Session(ctx, c.Session)
		if err != nil {
			return err
		}
		r, err := b.Report(ctx, c.Session, c.Grading)
		if err != nil {
			return err
		}
		if c.Format == "json" {
			return writeIndented(s.out, &shown{1, coach.Cautions[:], d, r})
		}
		return printSession(s.out, d, r)
	})
}

func printSession(w io.Writer, d *logbook.SessionDetail, r *debrief.Report) error {
	for _, c := range coach.Cautions {
		fmt.Fprintln(w, c)
	}
	fmt.Fprintf(w, "\nSession %s\n", d.ID)
	end := "is being flown now"
	if d.Ended != "" {
		end = "to " + local(d.Ended)
	}
	fmt.Fprintf(w, "  %s %s at station %s, student %s\n", local(d.Began), end, d.Station, cmp.Or(d.Student,
		"not named"))
	fmt.Fprintf(w, "  aircraft %s, standard %s, recorded by version %s\n", cmp.Or(d.Aircraft.Title, "none chosen"),
		cmp.Or(d.Standard, "as on the cards"), d.Server)
	if d.Keep {
		fmt.Fprintln(w, "  marked to be kept")
	}
	if !d.Problem.IsZero() {
		fmt.Fprintf(w, "  %s\n", d.Problem)
	}
	for i := range d.Said {
		r := &d.Said[i]
		fmt.Fprintf(w, "  Remark %d, %s: %s\n", r.ID, r.At.Local().Format("2006-01-02"), oneLine(stored.RemarkLine(r)))
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
		_, err := fmt.Fprintln(w, "  no leg was flown")
		return err
	}
	return nil
}
