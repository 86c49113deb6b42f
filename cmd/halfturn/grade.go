package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"os"
	"strings"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/session"
	"halfturn/stream/capture"
)

type gradeCmd struct {
	common
	Files  []string `arg:"" name:"file" help:"Recordings (pcap or pcapng, also gzipped), or folders of them." type:"path"`
	Format string   `help:"How the grades are printed: text, table, json or csv. Left out: text for one file, a table for several. csv has a row a check." enum:"text,table,json,csv," default:"" placeholder:"FORMAT"`
	Jobs   int      `help:"How many files are graded at once; 0 is as many as there are processors." placeholder:"N"`
}

// Help says what else there is to know.
func (gradeCmd) Help() string {
	return "With --maneuver auto each leg is compared with every card and counts for the one it fits clearly; the table shows by what margin. " +
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
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	files, err := recordings(g.Files)
	if err != nil {
		return err
	}
	report := debrief.New()
	bar := newProgress(io.err, len(files))
	report.Files = gradeAll(ctx, files, opt, g.Jobs, bar)
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

// mostSenders is how many senders of one recording are followed; more are not simulators.
const mostSenders = 1024

// errInterrupted ends a recording that was being graded when the user stopped.
var errInterrupted = errors.New("interrupted")

// gradeFile opens one recording and grades it.
func gradeFile(ctx context.Context, name string, opt session.Options, out *debrief.File) error {
	f, err := os.Open(name)
	if err != nil {
		return plain(err)
	}
	defer f.Close()
	return gradeStream(ctx, f, opt, out)
}

// plain is an error of the file system without the file's name, which stands beside it already.
func plain(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return errors.New(strings.ToLower(p.Err.Error()))
	}
	return err
}

// gradeStream runs one recording through a session for each sender in it.
func gradeStream(ctx context.Context, f io.Reader, opt session.Options, out *debrief.File) error {
	r, err := capture.Open(f)
	if err != nil {
		return err
	}
	seats := map[netip.AddrPort]*session.Session{}
	var order []netip.AddrPort
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			err = errInterrupted
			break
		}
		var d capture.Datagram
		if d, err = r.Next(); err != nil {
			break
		}
		s := seats[d.Source]
		if s == nil {
			if len(seats) == mostSenders {
				continue
			}
			o := opt
			o.Name, o.Address = d.Source.String(), d.Source.String()
			s = session.New(o)
			seats[d.Source] = s
			order = append(order, d.Source)
		}
		s.Feed(d.Payload, d.Seconds())
	}
	for _, a := range order {
		s := seats[a]
		s.End("the recording ended")
		out.Stations = append(out.Stations, s.Report())
	}
	if errors.Is(err, io.EOF) {
		return nil
	}
	return err
}
