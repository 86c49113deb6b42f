package students

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/names"
	"halfturn/coach/people/sqlite"
	"halfturn/coach/who"
	"halfturn/configs/settings"
)

type forgetCmd struct {
	bookFlags
	Name []string `arg:"" help:"Who is to be forgotten."`
	Yes  bool     `help:"Delete; without it, only what would be deleted is said."`
}

// Help says what else there is to know.
func (forgetCmd) Help() string {
	return "Deletes the sessions that they flew, also those that are protected, and their name wherever else it " +
		"stands: in remarks, acts and signatures on the sessions of others, in recordings, in the logbook; their " +
		"user, the links made for them, and their name in the log of what was asked for. A " +
		"signature then says that a name was removed, and still shows whether anything else was changed. Copies made " +
		"by sessions backup, exports and shared files are not in the data directory: delete those yourself. Stop the " +
		"server first.\n\n" +
		"  halfturn students export Ada Example -o ada.zip\n  halfturn students forget Ada Example --yes"
}

// Run deletes what is stored about somebody.
func (c *forgetCmd) Run(ctx context.Context, s base.Streams) error {
	name, err := names.Person(strings.Join(c.Name, " "))
	if err != nil {
		return base.Usage(err)
	}
	return c.with(ctx, s, c.Yes, func(a *archive.Archive, cfg *settings.Config) error {
		if !c.Yes {
			p, err := a.Person(ctx, name)
			if err != nil {
				return err
			}
			return say(s, "Nothing is deleted yet. Sessions flown by %s: %d. Sessions of others that name them: %d. "+
				"Add --yes to delete the first, and the name in the others.", p.Name, len(p.Sessions), len(p.Named))
		}
		f, err := a.ForgetPerson(ctx, who.Owner(), name)
		if err != nil {
			return err
		}
		err = say(s, "Sessions deleted: %d. Sessions of others from which the name was removed: %d.", len(f.Sessions),
			len(f.Named))
		if err != nil {
			return err
		}
		if err := forgetUser(a.Data(), name, s); err != nil {
			return err
		}
		for _, file := range f.Left {
			if err := say(s, "The name still stands in %s: delete it if you need it no more.", file); err != nil {
				return err
			}
		}
		for i := range cfg.Stations {
			if names.Key(cfg.Stations[i].Student) == names.Key(f.Name) {
				return say(s, "The configuration names them as the student of a station: delete that there.")
			}
		}
		return nil
	})
}

// forgetUser removes somebody from the list of people, where there is one.
func forgetUser(dir, name string, s base.Streams) error {
	file := filepath.Join(dir, sqlite.FileName)
	if _, err := os.Stat(file); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	store, err := sqlite.Open(file)
	if err != nil {
		return err
	}
	f, err := store.Forget(name)
	if err := errors.Join(err, store.Close()); err != nil {
		return err
	}
	return say(s, "Users removed: %d. Links ended: %d. Entries of the log without the name now: %d.", f.Users, f.Links,
		f.Entries)
}
