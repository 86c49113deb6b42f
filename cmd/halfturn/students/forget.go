package students

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/archive"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/people/sqlite"
	"halfturn/coach/who"
	"halfturn/configs/settings"
	"halfturn/web/access"
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
		"server first; the nodes of a cluster go on, and remove what they have of it on their disks within a day.\n\n" +
		"  halfturn students export Ada Example -o ada.zip\n  halfturn students forget Ada Example --yes\n" +
		"  halfturn students forget Ada Example --yes --cluster cluster.toml"
}

// Run deletes what is stored about somebody.
func (c *forgetCmd) Run(ctx context.Context, s base.Streams) error {
	name, err := names.Person(strings.Join(c.Name, " "))
	if err != nil {
		return base.Usage(err)
	}
	return c.with(ctx, s, c.Yes, func(a *archive.Archive, in *place.Place) error {
		return withPeople(in, func(store people.Store) error {
			about, err := aboutUser(ctx, store, name)
			if err != nil {
				return err
			}
			if !c.Yes {
				return c.tell(ctx, s, a, name, about)
			}
			return c.forget(ctx, s, a, store, in.Config, name, about)
		})
	})
}

// tell says what would be deleted.
func (c *forgetCmd) tell(
	ctx context.Context, s base.Streams, a *archive.Archive, name string, about people.Forgotten,
) error {
	p, err := a.Person(ctx, name)
	if p, err = known(p, err, about == (people.Forgotten{}), &archive.Person{Name: name}); err != nil {
		return err
	}
	err = say(s, "Nothing is deleted yet. Sessions flown by %s: %d. Sessions of others that name them: %d. Add "+
		"--yes to delete the first, and the name in the others.", p.Name, len(p.Sessions), len(p.Named))
	if err != nil || about == (people.Forgotten{}) {
		return err
	}
	return say(s, "With --yes there go, too, their user: %d, links made for them: %d, and the name in entries of the "+
		"log: %d.", about.Users, about.Links, about.Entries)
}

// forget deletes what is stored about somebody, and says what that was.
func (c *forgetCmd) forget(
	ctx context.Context, s base.Streams, a *archive.Archive, store people.Store, cfg *settings.Config, name string,
	about people.Forgotten,
) error {
	f, err := a.ForgetPerson(ctx, who.Owner(), name)
	nothing := &archive.Forgotten{Person: archive.Person{Name: name}}
	if f, err = known(f, err, about == (people.Forgotten{}), nothing); err != nil {
		return err
	}
	err = say(s, "Sessions deleted: %d. Sessions of others from which the name was removed: %d.", len(f.Sessions),
		len(f.Named))
	if err != nil {
		return err
	}
	if store != nil {
		u, err := store.Forget(name)
		if err != nil {
			return err
		}
		err = say(s, "Users removed: %d. Links ended: %d. Entries of the log without the name now: %d.", u.Users,
			u.Links, u.Entries)
		if err != nil {
			return err
		}
	}
	for _, file := range f.Left {
		if err := say(s, "The name still stands in %s: delete it if you need it no more.", file); err != nil {
			return err
		}
	}
	for _, what := range f.Damaged {
		err := say(s, "%s. The name was written over where it could be found: look at the file, and delete it if you "+
			"need it no more.", what)
		if err != nil {
			return err
		}
	}
	for i := range cfg.Stations {
		if names.Key(cfg.Stations[i].Student) == names.Key(f.Name) {
			return say(s, "The configuration names them as the student of a station: delete that there.")
		}
	}
	return nil
}

// known takes somebody whom the logbook does not know for one with nothing in it, unless the list of people does not
// know them either.
func known[P any](p *P, err error, stranger bool, nothing *P) (*P, error) {
	var refused *logbook.Refused
	if errors.As(err, &refused) && !stranger {
		return nothing, nil
	}
	return p, err
}

// aboutUser counts what the list of people holds of somebody. The last owner stays while there are others.
func aboutUser(ctx context.Context, store people.Store, name string) (people.Forgotten, error) {
	if store == nil {
		return people.Forgotten{}, nil
	}
	all, err := store.Users(ctx)
	if err != nil {
		return people.Forgotten{}, err
	}
	for _, u := range all {
		if names.Key(u.Name) == names.Key(name) {
			if err := access.MayRemove(u, all); err != nil {
				return people.Forgotten{}, err
			}
		}
	}
	return store.About(name)
}

// hasPeople reports whether there is a list of people.
func hasPeople(in *place.Place) bool {
	if in.Shared() {
		return true
	}
	_, err := os.Stat(filepath.Join(in.Data, sqlite.FileName))
	return !errors.Is(err, fs.ErrNotExist)
}

// withPeople opens the list of people, nil where there is none, and does something with it.
func withPeople(in *place.Place, do func(people.Store) error) error {
	if !hasPeople(in) {
		return do(nil)
	}
	store, err := in.People()
	if err != nil {
		return err
	}
	return errors.Join(do(store), store.Close())
}
