package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"os"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/session"
	"halfturn/stream/capture"
)

type gradeCmd struct {
	common
	Files  []string `arg:"" name:"file" help:"Recordings: pcap or pcapng, also gzipped." type:"path"`
	Format string   `help:"How the grades are printed." enum:"text,json" default:"text"`
}

// Run grades the recordings. A file that cannot be read does not keep the others from being
// graded, but the command fails.
func (g *gradeCmd) Run(ctx context.Context, io streams) error {
	cfg, err := loadConfig(&g.common, io.env)
	if err != nil {
		return err
	}
	opt, err := cfg.session()
	if err != nil {
		return err
	}
	report := debrief.New()
	var failed error
	for _, name := range g.Files {
		f := debrief.File{File: name, Stations: []debrief.Station{}}
		if err := gradeFile(ctx, name, opt, &f); err != nil {
			f.Error = err.Error()
			failed = errors.Join(failed, fmt.Errorf("%s: %w", name, err))
		}
		report.Files = append(report.Files, f)
	}
	if err := printReport(io.out, report, g.Format); err != nil {
		return err
	}
	return failed
}

// session says how a sender is followed.
func (c *config) session() (session.Options, error) {
	lib, err := c.library()
	if err != nil {
		return session.Options{}, err
	}
	card, err := lib.Card(c.Maneuver)
	if err != nil {
		return session.Options{}, usageError{err}
	}
	aircraft, err := lib.AircraftNamed(c.Aircraft)
	if err != nil {
		return session.Options{}, usageError{err}
	}
	stations, err := c.stations()
	if err != nil {
		return session.Options{}, err
	}
	return session.Options{Station: stations, Coach: coach.Options{Plan: coach.NewPlan(card, aircraft), Deck: c.Deck, Voice: c.voice()}}, nil
}

// mostSenders is how many senders of one recording are followed; more are not simulators.
const mostSenders = 1024

// gradeFile runs one recording through a session for each sender in it.
func gradeFile(ctx context.Context, name string, opt session.Options, out *debrief.File) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	r, err := capture.Open(f)
	if err != nil {
		return err
	}
	seats := map[netip.AddrPort]*session.Session{}
	var order []netip.AddrPort
	for n := 0; ; n++ {
		if n%4096 == 0 && ctx.Err() != nil {
			err = errors.New("interrupted")
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

func printReport(w io.Writer, r *debrief.Report, format string) error {
	if format == "json" {
		e := json.NewEncoder(w)
		e.SetIndent("", "  ")
		return e.Encode(r)
	}
	return r.Text(w)
}
