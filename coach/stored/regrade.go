package stored

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/export"
	"halfturn/coach/logbook"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// A Regraded is the result of grading again.
type Regraded struct {
	Version     int                  `json:"version"`
	Cautions    []string             `json:"cautions"`
	Kept        string               `json:"kept,omitempty"` // where the new grades are
	Compared    bool                 `json:"compared"`       // there were grades before
	Differences []debrief.Difference `json:"differences"`
	Report      *debrief.Report      `json:"report"`
}

// A Keeper keeps a new grading of a session, and returns where: *archive.Archive is one.
type Keeper interface {
	Regrade(by who.Who, session string, g logbook.Grading) (kept string, err error)
	Close() error
}

// A Regrade grades a recording again.
type Regrade struct {
	Judge   *Judge
	Against string // a file of grades to compare with; "" is those of the session
	// Archive opens the archive that the recording is a session of; nil: it is in none, and the new grades are kept
	// nowhere.
	Archive func() (Keeper, error)
	By      who.Who // who asks for it
}

// Run grades a recording again, and lists what differs. What was read before an error is returned with it.
func (r *Regrade) Run(ctx context.Context, rec *play.Recording) (*Regraded, error) {
	was, err := r.before(rec)
	if err != nil {
		return nil, err
	}
	follow, err := r.Judge.Follow(rec)
	if err != nil {
		return nil, err
	}
	all, p, failed := export.Fly(ctx, rec, follow)
	if failed != nil && (len(all) == 0 || ctx.Err() != nil) {
		return nil, failed
	}
	out := &Regraded{Version: 1, Report: ReportOf(rec, all), Differences: []debrief.Difference{}}
	out.Cautions = out.Report.Caution
	if was != nil {
		out.Report.Session = was.Session
		out.Compared = true
		out.Differences = debrief.Compare(logbook.Stations(was), logbook.Stations(out.Report))
	}
	if r.Archive != nil {
		if err := r.keep(rec, p.Choices()[0], out); err != nil {
			return nil, err
		}
	}
	f := &out.Report.Files[0]
	f.By, f.Notes = r.Judge.By(rec, p), r.Judge.Notes(p)
	return out, failed
}

// before reads the grades to compare with; nil when a capture file has none.
func (r *Regrade) before(rec *play.Recording) (*debrief.Report, error) {
	name := r.Against
	if name == "" {
		if rec.Session == "" {
			return nil, nil
		}
		name = filepath.Join(rec.Dir, folder.SummaryFile)
	}
	if _, err := os.Stat(name); err != nil {
		if errors.Is(err, os.ErrNotExist) && r.Against == "" {
			return nil, nil
		}
		return nil, fmt.Errorf("%s: %w", name, plain(err))
	}
	report, ok, err := folder.ReadReport(name)
	var file *os.PathError
	switch {
	case errors.As(err, &file):
		return nil, fmt.Errorf("%s: %w", name, plain(err))
	case !ok:
		return nil, fmt.Errorf("%s holds no grades; must be the output of grade --format json", name)
	}
	return report, nil
}

// keep puts the new grading beside the first.
func (r *Regrade) keep(rec *play.Recording, by maneuver.Choice, out *Regraded) (err error) {
	lib, err := r.Judge.Setup.Library(r.Judge.Setup.Choice(), "")
	if err != nil {
		return err
	}
	a, err := r.Archive()
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	g := logbook.Grading{
		At:       time.Now(),
		Maneuver: by.Maneuver,
		Standard: by.Standard,
		Aircraft: by.Aircraft,
		Cards:    logbook.CardsOf(lib),
		Report:   out.Report,
	}
	for i := range out.Differences {
		if out.Differences[i].Turned { // the new grades show the rest, which are only numbers
			g.Differences = append(g.Differences, out.Differences[i].Words())
		}
	}
	out.Kept, err = a.Regrade(r.By, rec.Session, g)
	return err
}

// Again grades the recording in a session's folder by the cards as they stood, for an archive that is rebuilt and finds
// no grades.
func (j *Judge) Again(ctx context.Context, dir string) (*debrief.Report, error) {
	return j.again(ctx, dir, false)
}

// Whole grades the recording in a session's folder as Again does, but as one that is complete, though the session is
// not marked as over yet.
func (j *Judge) Whole(ctx context.Context, dir string) (*debrief.Report, error) {
	return j.again(ctx, dir, true)
}

func (j *Judge) again(ctx context.Context, dir string, ends bool) (*debrief.Report, error) {
	rec, err := play.Open(ctx, dir)
	if err != nil {
		return nil, err
	}
	follow, err := j.Follow(rec)
	if err != nil {
		return nil, err
	}
	follow.Ends = follow.Ends || ends
	all, _, err := export.Fly(ctx, rec, follow)
	if len(all) == 0 || ctx.Err() != nil {
		return nil, err
	}
	return ReportOf(rec, all), nil // a recording that is cut off counts as far as it goes
}
