package sessions

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/debrief"
	"halfturn/coach/layout"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
)

// bookFlags are the flags that find the logbook and set the format of the output.
type bookFlags struct {
	Config string `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Data   string `help:"Data directory." placeholder:"DIR" type:"path"`
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// done prints what was done: a sentence, or a JSON object of these members and a version.
func (f *bookFlags) done(s base.Streams, members map[string]any, sentence string) error {
	if f.Format == "json" {
		members["version"] = 1
		return base.Indented(s.Out, members)
	}
	page := layout.NewPage(s.Out)
	fmt.Fprintln(page, sentence)
	return page.Err()
}

// open opens the logbook to be changed, or only to be read.
func (f *bookFlags) open(ctx context.Context, s base.Streams, readOnly bool) (*archive.Archive, error) {
	cfg, data, err := f.where(s)
	if err != nil {
		return nil, err
	}
	// Where there are folders but no database, the folders are taken in first; where there is neither, nothing is
	// created.
	readOnly = readOnly && (stored.HasLogbook(data) || !stored.HasSessions(data))
	return archive.Open(data, archive.Options{
		Engine:   sqlite.Engine{},
		ReadOnly: readOnly,
		Version:  base.Version,
		Regrade:  regrader(ctx, cfg),
		Tell:     teller(s),
	})
}

func (f *bookFlags) where(s base.Streams) (*settings.Config, string, error) {
	cfg, err := base.Load(&base.Flags{Config: f.Config}, s.Env)
	if err != nil {
		return nil, "", err
	}
	data, err := base.DataDir(s.Language, cfg, f.Data)
	return cfg, data, err
}

// teller prints what was done to repair damage.
func teller(s base.Streams) func(string) {
	return func(words string) { fmt.Fprintf(s.Err, "halfturn: %s\n", words) }
}

// openBook opens the logbook of a data directory to be changed.
func openBook(ctx context.Context, cfg *settings.Config, data string) (*archive.Archive, error) {
	return archive.Open(data, archive.Options{
		Engine:  sqlite.Engine{},
		Version: base.Version,
		Regrade: regrader(ctx, cfg),
	})
}

// withSession is with for one session: its name, or "last", which it replaces.
func (f *bookFlags) withSession(
	ctx context.Context, s base.Streams, readOnly bool, id *string, do func(*archive.Archive) error,
) error {
	return f.with(ctx, s, readOnly, func(b *archive.Archive) (err error) {
		if *id == stored.Last {
			if *id, err = b.Last(ctx); err != nil {
				return err
			}
		}
		return do(b)
	})
}

// with opens the logbook, does something with it, and closes it. The error for a session that does not exist names
// the most similar ones.
func (f *bookFlags) with(
	ctx context.Context, s base.Streams, readOnly bool, do func(*archive.Archive) error,
) (err error) {
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
		return phrase.NoneHeldYet.Error(phrase.Part("why", phrase.OfError(err)))
	}
	return phrase.MostLike.Error(phrase.Part("why", phrase.OfError(err)),
		phrase.Words("sessions", strings.Join(near, ", ")))
}

// regrader returns how the archive grades a recording again, by the cards as they stood, when it is rebuilt and finds
// no grades.
func regrader(ctx context.Context, c *settings.Config) func(dir string) (*debrief.Report, error) {
	return func(dir string) (*debrief.Report, error) { return base.Judging(c, nil).Again(ctx, dir) }
}
