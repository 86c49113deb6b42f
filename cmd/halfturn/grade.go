package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"halfturn/coach"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/session"
	"halfturn/coach/stored"
)

type gradeCmd struct {
	common
	Files  []string `arg:"" name:"file" help:"Recordings (pcap or pcapng, also compressed by gzip or zstd), folders of sessions, or folders of these." type:"path"`
	Format string   `help:"How the grades are printed: text, table, json or csv. Left out: text for one file, a table for several. csv has a row a check." enum:"text,table,json,csv," default:"" placeholder:"FORMAT"`
	Jobs   int      `help:"How many files are graded at once; 0 is as many as there are processors." placeholder:"N"`
}

// Help says what else there is to know.
func (gradeCmd) Help() string {
	return "A session of Halfturn is judged by what was chosen while it was flown, another recording as configured; --maneuver, --standard, --aircraft and --cards win over both. " +
		"The output says which it was. A folder of a session is one recording, whatever parts it has. With --maneuver auto each leg is compared with every card and counts for the one it fits clearly; the table shows by what margin. " +
		"A leg that fits none clearly reads \"unclear\", with the two nearest cards. Ctrl-C stops and prints what was graded so far. " +
		"Exit status 1 when a file could not be read to its end; the others are graded all the same."
}

// Run grades the recordings. A file that cannot be read does not keep the others from being
// graded, but the command fails.
func (g *gradeCmd) Run(ctx context.Context, io streams) error {
	if g.Jobs < 0 {
		return usagef("--jobs is %d; allowed: 0 and up", g.Jobs)
	}
	cfg, err := loadConfig(&g.common, io.env)
	if err != nil {
		return err
	}
	if _, err := cfg.session(); err != nil { // told once, not of each recording
		return err
	}
	files, err := recordings(ctx, g.Files)
	if err != nil {
		return err
	}
	report := debrief.New()
	bar := newProgress(io.err, len(files))
	report.Files = gradeAll(ctx, files, cfg.judge(&g.common), g.Jobs, bar)
	bar.clear()
	var failed error
	for _, f := range report.Files {
		if f.Error != "" {
			failed = errors.Join(failed, fmt.Errorf("%s: %s", f.File, f.Error))
		}
	}
	if ctx.Err() != nil {
		failed = fmt.Errorf("interrupted: %d of %d files were graded", len(report.Files), len(files))
	}
	if g.Format == "" {
		g.Format = "text"
		if len(files) > 1 {
			g.Format = "table"
		}
	}
	if err := printReport(io.out, report, g.Format); err != nil {
		return err
	}
	return failed
}

// session says how a sender is followed.
func (c *config) session() (session.Options, error) {
	lib, err := c.readCards()
	if err != nil {
		return session.Options{}, err
	}
	if err := c.checkChosen(lib); err != nil {
		return session.Options{}, err
	}
	aircraft, err := lib.AircraftNamed(c.Aircraft)
	if err != nil {
		return session.Options{}, err
	}
	stations, err := c.stations()
	if err != nil {
		return session.Options{}, err
	}
	o := session.Options{Station: stations, Coach: coach.Options{Deck: c.Deck, Voice: c.voice()}}
	if c.Maneuver == coach.AutoManeuver {
		for _, written := range lib.Distinct() {
			card, err := lib.Card(written.Name) // by the standard
			if err != nil {
				return session.Options{}, err
			}
			o.Auto = append(o.Auto, coach.NewPlan(card, aircraft))
		}
		o.Coach.Plan = o.Auto[0]
		return o, nil
	}
	card, err := lib.Card(c.Maneuver)
	if err != nil {
		return session.Options{}, err
	}
	o.Coach.Plan = coach.NewPlan(card, aircraft)
	return o, nil
}

// errInterrupted ends a recording that was being graded when the user stopped.
var errInterrupted = errors.New("interrupted")

// plain is an error of the file system without the file's name, which stands beside it already.
func plain(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return errors.New(strings.ToLower(p.Err.Error()))
	}
	return err
}

// gradeFile plays one recording and takes the grades of each sender in it.
func gradeFile(ctx context.Context, name string, by *stored.Judge, out *debrief.File) error {
	rec, err := play.Open(ctx, name)
	if err != nil {
		return plain(err)
	}
	follow, err := by.Follow(rec)
	if err != nil {
		return err
	}
	p, err := rec.Play(ctx, follow)
	if err != nil {
		return err
	}
	err = p.Run(nil)
	out.By, out.Notes = by.By(rec, p), stored.Remarks(p)
	for _, s := range p.Flights() {
		out.Stations = append(out.Stations, p.Report(s))
	}
	return errors.Join(plain(err), p.Close())
}
