// Package grading grades recordings, many side by side, and prints the result as text, table, CSV or JSON.
//
// Which cards a recording is graded by is not decided here: the caller gives a [Judge].
package grading

import (
	"context"
	"errors"
	"runtime"
	"sync"

	"halfturn/coach/archive/play"
	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/configs/strict"
	"halfturn/stream/phrase"
)

// ErrInterrupted ends what the user stopped.
var ErrInterrupted = errors.New("interrupted")

// A Judge decides by which cards a recording is graded, and says afterwards which they were.
type Judge interface {
	// Follow says how a recording is followed.
	Follow(*play.Recording) (play.Following, error)
	// By says by which cards a recording that was played has been graded, and who chose them.
	By(*play.Recording, *play.Player) *debrief.JudgedBy
	// Notes are sentences about what was not played as it was recorded.
	Notes(*play.Player) []phrase.Phrase
	// Judging is what people made of these grades; nil where nothing, or where they were made by other cards.
	Judging(*play.Recording) (*logbook.Judging, error)
}

// Recordings lists what is to be read: the files and sessions named, and those in the folders named, in order.
// It fails with [ErrInterrupted] when ctx ends.
func Recordings(ctx context.Context, args []string) ([]string, error) {
	var all []string
	for _, name := range args {
		found, err := play.Find(ctx, name)
		if err != nil && ctx.Err() != nil {
			return nil, ErrInterrupted
		}
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// All grades files, jobs of them at once (0: one per processor), and returns them in their order, whichever was
// ready first. A file that cannot be read to its end carries its error. done, which may be nil, is called after
// each file, by several goroutines. When ctx ends, All returns the files that were graded to their end.
func All(ctx context.Context, files []string, by Judge, jobs int, done func(name string)) []debrief.FileReport {
	if jobs == 0 {
		jobs = runtime.GOMAXPROCS(0)
	}
	graded := make([]*debrief.FileReport, len(files)) // nil where interrupted
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(jobs, len(files)) {
		wait.Go(func() {
			for i := range next {
				if graded[i] = one(ctx, files[i], by); graded[i] != nil && done != nil {
					done(files[i])
				}
			}
		})
	}
feed:
	for i := range files {
		select {
		case next <- i:
		case <-ctx.Done():
			break feed
		}
	}
	close(next)
	wait.Wait()
	kept := []debrief.FileReport{}
	for _, f := range graded {
		if f != nil {
			kept = append(kept, *f)
		}
	}
	return kept
}

// one grades a file; nil when it was interrupted.
func one(ctx context.Context, name string, by Judge) *debrief.FileReport {
	f := &debrief.FileReport{File: name, Stations: []debrief.StationReport{}}
	err := File(ctx, name, by, f)
	if err != nil && ctx.Err() != nil {
		return nil
	}
	if err != nil {
		f.Error = err.Error()
	}
	return f
}

// File plays one recording and puts the grades of each sender in it into out. A recording that ends in the middle
// gives an error, and the grades up to there.
func File(ctx context.Context, name string, by Judge, out *debrief.FileReport) error {
	rec, err := play.Open(ctx, name)
	if err != nil {
		return strict.WithoutName(err)
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
	out.By, out.Notes = by.By(rec, p), by.Notes(p)
	for _, s := range p.Flights() {
		out.Stations = append(out.Stations, p.Report(s))
	}
	judging, failed := by.Judging(rec)
	if judging != nil {
		judging = &logbook.Judging{Overruled: judging.Overruled} // a signature is of a whole session, not of a file
		*out = assess.Report(&debrief.Report{Files: []debrief.FileReport{*out}}, judging).Files[0]
	}
	return errors.Join(strict.WithoutName(err), failed, p.Close())
}
