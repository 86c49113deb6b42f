package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"halfturn/coach/archive"
	"halfturn/coach/archive/folder"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
)

// bookFlags find the logbook, and say how it is told what became of it.
type bookFlags struct {
	Config string `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Data   string `help:"Data directory." placeholder:"DIR" type:"path"`
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// told writes what was done: a sentence, or a JSON object of these members and a version.
func (f *bookFlags) told(w io.Writer, members map[string]any, sentence string, args ...any) error {
	if f.Format == "json" {
		members["version"] = 1
		return writeIndented(w, members)
	}
	_, err := fmt.Fprintf(w, sentence+"\n", args...)
	return err
}

// open opens the logbook to be changed, or only to be read.
func (f *bookFlags) open(ctx context.Context, s streams, readOnly bool) (*archive.Archive, error) {
	cfg, data, err := f.where(s)
	if err != nil {
		return nil, err
	}
	// Folders without a database are taken in first; without either nothing is made.
	readOnly = readOnly && (exists(filepath.Join(data, "logbook.db")) || !exists(filepath.Join(data, "sessions")))
	return archive.Open(data, archive.Options{Engine: sqlite.Engine{}, ReadOnly: readOnly, Version: version,
		Regrade: regrader(ctx, cfg), Tell: teller(s)})
}

func (f *bookFlags) where(s streams) (*settings.Config, string, error) {
	cfg, err := loadConfig(&common{Config: f.Config}, s.env)
	if err != nil {
		return nil, "", err
	}
	data, err := dataOf(cfg, f.Data, s)
	return cfg, data, err
}

func exists(name string) bool {
	_, err := os.Stat(name)
	return err == nil
}

// teller prints what was done about damage.
func teller(s streams) func(string) {
	return func(words string) { fmt.Fprintf(s.err, "halfturn: %s\n", words) }
}

// openBook opens the logbook of a data directory to be changed.
func openBook(ctx context.Context, cfg *settings.Config, data string) (*archive.Archive, error) {
	return archive.Open(data, archive.Options{Engine: sqlite.Engine{}, Version: version, Regrade: regrader(ctx, cfg)})
}

// lastSession stands for the newest session wherever one is named.
const lastSession = "last"

// newest is the name of the newest session of a data directory for "last", and what was named otherwise: a session or
// a file. Where there is no logbook the folders tell.
func newest(ctx context.Context, data, named string) (id string, err error) {
	if named != lastSession {
		return named, nil
	}
	if !exists(filepath.Join(data, "logbook.db")) {
		return folder.LastID(data)
	}
	book, err := archive.Open(data, archive.Options{Engine: sqlite.Engine{}, ReadOnly: true})
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	return book.Last(ctx)
}

// withSession is with for one session: its name, or "last", which it replaces.
func (f *bookFlags) withSession(ctx context.Context, s streams, readOnly bool, id *string,
	do func(*archive.Archive) error) error {
	return f.with(ctx, s, readOnly, func(b *archive.Archive) (err error) {
		if *id == lastSession {
			if *id, err = b.Last(ctx); err != nil {
				return err
			}
		}
		return do(b)
	})
}

// with opens the logbook, does something with it, and closes it. A session that is not there is
// told with those most like it.
func (f *bookFlags) with(ctx context.Context, s streams, readOnly bool, do func(*archive.Archive) error) (err error) {
	book, err := f.open(ctx, s, readOnly)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	err = do(book)
	var none *logbook.NotFound
	if !errors.As(err, &none) {
		return err
	}
	near, failed := book.Near(ctx, none.ID)
	switch {
	case failed != nil:
		return errors.Join(err, failed)
	case len(near) == 0:
		return fmt.Errorf("%w: it holds none yet", err)
	}
	return fmt.Errorf("%w; most like it: %s", err, strings.Join(near, ", "))
}

// regrader grades a session's recording again by the cards as they stood, for an archive that is rebuilt and finds no
// grades.
func regrader(ctx context.Context, c *settings.Config) func(dir string) (*debrief.Report, error) {
	return func(dir string) (*debrief.Report, error) { return judging(c, nil).Again(ctx, dir) }
}

// judging says by which cards recordings are judged: of the configuration, but for what flags ask for; nil are none.
func judging(c *settings.Config, flags *common) *stored.Judge {
	j := &stored.Judge{Setup: settings.Setup{Config: c}}
	if flags != nil {
		j.Asked = stored.Override{Maneuver: flags.Maneuver, Standard: flags.Standard, Aircraft: flags.Aircraft}
		j.Today = len(flags.Cards) > 0
	}
	return j
}
