// Package people holds the commands for those who may use Halfturn: users, stations with keys, links of guests. They
// work on the data directory, or on the database of a cluster, also while a server runs, which notices within seconds.
// Whoever can write there is the owner.
package people

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/layout"
	"halfturn/coach/people"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// flags find the list of people and set the format of the output.
type flags struct {
	place.Flags
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// with opens the list of people for something. A data directory is made where there is none.
func (f *flags) with(s base.Streams, do func(people.Store) error) error {
	where, err := f.Stores(s)
	if err != nil {
		return err
	}
	if !where.Shared() {
		if err := makeDir(where.Data); err != nil {
			return err
		}
	}
	store, err := where.People()
	if err != nil {
		return err
	}
	return errors.Join(do(store), store.Close())
}

// print prints a value as JSON, or what text writes.
func (f *flags) print(w io.Writer, v any, text func(io.Writer) error) error {
	if f.Format == "json" {
		return base.Indented(w, v)
	}
	return text(w)
}

// line prints a sentence, which is in the language already. A password or a key in it is short enough not to be broken.
func line(says string) func(io.Writer) error {
	return func(w io.Writer) error {
		page := layout.NewPage(w)
		fmt.Fprintln(page, says)
		return page.Err()
	}
}

// table prints rows of cells below a row of headings.
func table(headings []string, rows [][]string) func(io.Writer) error {
	return func(w io.Writer) error {
		page := layout.NewPage(w)
		t := layout.NewTable(page)
		for _, row := range append([][]string{headings}, rows...) {
			fmt.Fprintln(t, strings.Join(row, "\t"))
		}
		_ = t.Flush() // the page keeps the error
		return page.Err()
	}
}

// note notes what the owner did by a command.
func note(store people.Store, what, on string) error {
	return store.Note(people.Entry{At: time.Now(), By: who.Owner(), What: what, On: on})
}

// userNamed looks a user up by name.
func userNamed(ctx context.Context, in *phrase.Language, store people.Store, name string) (people.User, error) {
	u, _, err := store.UserNamed(ctx, name)
	var none *people.NotFound
	if errors.As(err, &none) {
		err = base.Failf(in, "there is no user %q; halfturn users list lists them", name)
	}
	return u, err
}

// taken says that a name is taken; any other error stays.
func taken(in *phrase.Language, err error) error {
	var is *people.Taken
	if errors.As(err, &is) {
		return base.Failf(in, "the name %q is taken; choose another", is.Name)
	}
	return err
}

// day is a time as the tables have it, in the local zone.
func day(in *phrase.Language, t time.Time) string {
	if t.IsZero() {
		return in.Word("never")
	}
	return t.Local().Format("2006-01-02 15:04")
}

// where says in words which stations a user has to do with.
func where(in *phrase.Language, u people.User) string {
	parts := append([]string{}, u.Stations...)
	if u.Group != "" {
		parts = append(parts, in.Wordf("group %s", u.Group))
	}
	if len(parts) == 0 {
		return in.Word("all stations")
	}
	return strings.Join(parts, ", ")
}

// roleOf is the role of somebody in words.
func roleOf(in *phrase.Language, r who.Role) string {
	switch r {
	case who.RoleOwner:
		return in.Word("owner")
	case who.RoleInstructor:
		return in.Word("instructor")
	case who.RoleStudent:
		return in.Word("student")
	case who.RoleViewer:
		return in.Word("viewer")
	}
	return or(string(r))
}
