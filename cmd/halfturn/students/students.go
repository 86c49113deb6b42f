// Package students holds the commands for the people who fly: one file per command.
package students

import (
	"context"
	"errors"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/archive/lock"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
)

// Command is what is done with the people who fly.
type Command struct {
	List   listCmd   `cmd:"" help:"List the students, who flew last first."`
	Sheet  sheetCmd  `cmd:"" help:"Print the grade sheet of a student."`
	Export exportCmd `cmd:"" help:"Write everything that is stored about somebody into a zip."`
	Forget forgetCmd `cmd:"" help:"Delete everything that is stored about somebody."`
}

// bookFlags find the logbook.
type bookFlags struct {
	Config string `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Data   string `help:"Data directory." placeholder:"DIR" type:"path"`
}

// with opens the logbook and does something with it. Alone makes sure that no server uses the data directory.
func (f *bookFlags) with(
	ctx context.Context, s base.Streams, alone bool, do func(*archive.Archive, *settings.Config) error,
) (err error) {
	cfg, err := base.Load(&base.Flags{Config: f.Config}, s.Env)
	if err != nil {
		return err
	}
	data, err := base.DataDir(cfg, f.Data)
	if err != nil {
		return err
	}
	if alone {
		own, err := lock.Own(data)
		if err != nil {
			return err
		}
		defer own.Close()
	}
	nothing := !stored.HasSessions(data) && !hasPeople(data)
	a, err := archive.Open(data, archive.Options{
		Engine:   sqlite.Engine{},
		ReadOnly: !alone && (stored.HasLogbook(data) || nothing),
		Version:  base.Version,
		Regrade:  func(dir string) (*debrief.Report, error) { return base.Judging(cfg, nil).Again(ctx, dir) },
	})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	return do(a, cfg)
}

// say prints a sentence in the language.
func say(s base.Streams, sentence string, args ...any) error {
	page := layout.NewPage(s.Out)
	fmt.Fprintln(page, s.Language.Wordf(sentence, args...))
	return page.Err()
}
