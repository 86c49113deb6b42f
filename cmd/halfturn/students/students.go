// Package students holds the commands for the people who fly: one file per command.
package students

import (
	"context"
	"errors"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/archive"
	"halfturn/coach/archive/lock"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/stored"
)

// Command is what is done with the people who fly.
type Command struct {
	List   listCmd   `cmd:"" help:"List the students, who flew last first."`
	Sheet  sheetCmd  `cmd:"" help:"Print the grade sheet of a student."`
	Export exportCmd `cmd:"" help:"Write everything that is stored about somebody into a zip."`
	Forget forgetCmd `cmd:"" help:"Delete everything that is stored about somebody."`
}

// bookFlags find the logbook.
type bookFlags struct{ place.Flags }

// with opens the logbook and does something with it. Alone makes sure that no server uses the data directory; the nodes
// of a cluster may go on.
func (f *bookFlags) with(
	ctx context.Context, s base.Streams, alone bool, do func(*archive.Archive, *place.Place) error,
) (err error) {
	in, err := f.Find(ctx, s)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, in.Close()) }()
	if alone && !in.Shared() {
		own, err := lock.Own(in.Data)
		if err != nil {
			return err
		}
		defer own.Close()
	}
	nothing := !stored.HasSessions(in.Data) && !hasPeople(in)
	a, err := in.Archive(archive.Options{
		ReadOnly: !alone && (stored.HasLogbook(in.Data) || nothing),
		Version:  base.Version,
		Regrade:  func(dir string) (*debrief.Report, error) { return base.Judging(in.Config, nil).Again(ctx, dir) },
	})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	return do(a, in)
}

// say prints a sentence in the language.
func say(s base.Streams, sentence string, args ...any) error {
	page := layout.NewPage(s.Out)
	fmt.Fprintln(page, s.Language.Wordf(sentence, args...))
	return page.Err()
}
