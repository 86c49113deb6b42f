package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

type sessionsRegradeCmd struct {
	common
	Data    string `help:"Data directory." placeholder:"DIR" type:"path"`
	Session string `arg:"" help:"Session by name or folder, or a capture file; last is the newest session."`
	Against string `help:"Grades to compare with: a file of grade --format json. Left out: those of the session." placeholder:"FILE" type:"path"`
	Format  string `help:"text: the differences. json: the differences and the new grades." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what else there is to know.
func (sessionsRegradeCmd) Help() string {
	return "Choose another --maneuver, --standard or --aircraft, or other --cards. The new grades of a session are kept beside the first " +
		"as regrade-0001.json and so on; nothing is written over."
}

// A regraded is what re-grading gives as JSON.
type regraded struct {
	Version     int                  `json:"version"`
	Cautions    []string             `json:"cautions"`
	Kept        string               `json:"kept,omitempty"` // where the new grades are
	Compared    bool                 `json:"compared"`       // there were grades before
	Differences []debrief.Difference `json:"differences"`
	Report      *debrief.Report      `json:"report"`
}

// Run grades again.
func (r *sessionsRegradeCmd) Run(ctx context.Context, s streams) error {
	cfg, err := loadConfig(&r.common, s.env)
	if err != nil {
		return err
	}
	data, err := dataOf(cfg, r.Data, s)
	if err != nil {
		return err
	}
	if r.Session, err = newest(ctx, data, r.Session); err != nil {
		return err
	}
	rec, err := findRecorded(ctx, data, r.Session)
	if err != nil {
		return err
	}
	was, err := r.before(rec)
	if err != nil {
		return err
	}
	by := &judging{cfg: cfg, flags: r.common, today: true}
	follow, err := by.follow(rec)
	if err != nil {
		return err
	}
	all, p, failed := export.Fly(ctx, rec, follow)
	if failed != nil && (len(all) == 0 || ctx.Err() != nil) {
		return failed
	}
	out := regraded{Version: 1, Report: reportOf(rec, all), Differences: []debrief.Difference{}}
	out.Cautions = out.Report.Caution
	if was != nil {
		out.Report.Session = was.Session
		out.Compared, out.Differences = true, debrief.Compare(stationsOf(was), stationsOf(out.Report))
	}
	if inData(data, rec) {
		if err := r.enter(ctx, cfg, data, rec.Session, p.Choices()[0], &out); err != nil {
			return err
		}
	}
	f := &out.Report.Files[0]
	f.By, f.Notes = by.by(rec, p), notesOf(p)
	return errors.Join(r.show(s.out, &out), failed)
}

func (r *sessionsRegradeCmd) show(w io.Writer, out *regraded) error {
	if r.Format == "json" {
		return writeIndented(w, out)
	}
	if !out.Compared {
		fmt.Fprintln(w, "There are no grades to compare with; these are the first.")
		return printReport(w, out.Report, "text")
	}
	for _, c := range out.Cautions {
		fmt.Fprintln(w, c)
	}
	fmt.Fprintf(w, "\n%s\n", out.Report.Files[0].By)
	for _, note := range out.Report.Files[0].Notes {
		fmt.Fprintln(w, note)
	}
	if err := debrief.WriteDifferences(w, out.Differences); err != nil {
		return err
	}
	if out.Kept != "" {
		fmt.Fprintf(w, "The new grades are kept in %s\n", out.Kept)
	}
	return nil
}

// before reads the grades to compare with; nil when a capture file has none.
func (r *sessionsRegradeCmd) before(rec *play.Recording) (*debrief.Report, error) {
	name := r.Against
	if name == "" {
		if rec.Session == "" {
			return nil, nil
		}
		name = filepath.Join(rec.Dir, "summary.json")
	}
	data, err := os.ReadFile(name)
	if errors.Is(err, os.ErrNotExist) && r.Against == "" {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, plain(err))
	}
	report := &debrief.Report{}
	if err := json.Unmarshal(data, report); err != nil || report.Version == 0 {
		return nil, fmt.Errorf("%s holds no grades; wanted: the output of grade --format json", name)
	}
	return report, nil
}

func stationsOf(r *debrief.Report) []debrief.Station {
	var all []debrief.Station
	for _, f := range r.Files {
		all = append(all, f.Stations...)
	}
	return all
}

// enter puts the new grading into the logbook, beside the first.
func (r *sessionsRegradeCmd) enter(ctx context.Context, cfg *config, data, id string, by maneuver.Choice, out *regraded) (err error) {
	lib, err := cfg.readCards()
	if err != nil {
		return err
	}
	book, err := openBook(ctx, cfg, data)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	g := logbook.Grading{At: time.Now(), Maneuver: by.Maneuver, Standard: by.Standard, Aircraft: by.Aircraft, Cards: logbook.CardsOf(lib), Report: out.Report}
	for i := range out.Differences {
		if !out.Differences[i].Turned {
			continue // only a number: the new grades tell
		}
		g.Differences = append(g.Differences, out.Differences[i].Words())
	}
	out.Kept, err = book.Regrade(who.Owner(), id, g)
	return err
}
