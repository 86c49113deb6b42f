package students

import (
	"context"
	"io"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/archive"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/stored"
)

type exportCmd struct {
	bookFlags
	Name   []string `arg:"" help:"Whose data."`
	Output string   `short:"o" help:"The zip; left out: standard output." placeholder:"FILE" type:"path"`
	Force  bool     `help:"Write over the output file."`
}

// Help says what else there is to know.
func (exportCmd) Help() string {
	return "The zip holds the whole folder of each session that they flew (recording, grades, acts, cards), what the " +
		"logbook knows of it, of the sessions of others the acts in which they are named, and of the list of " +
		"people their user without the password, where they are logged in, links made for them or by them, and " +
		"the entries of the log in which they stand.\n\n" +
		"  halfturn students export Ada Example -o ada.zip"
}

// Run writes the zip.
func (c *exportCmd) Run(ctx context.Context, s base.Streams) error {
	name, err := names.Person(strings.Join(c.Name, " "))
	if err != nil {
		return base.Usage(err)
	}
	return c.with(ctx, s, false, func(a *archive.Archive, in *place.Place) error {
		held, err := heldOf(ctx, in, name)
		if err != nil {
			return err
		}
		p, err := a.Person(ctx, name) // before a file is made
		if p, err = known(p, err, held == nil, &archive.Person{
			Version:  1,
			Name:     name,
			Sessions: []string{},
			Named:    []string{},
		}); err != nil {
			return err
		}
		write := func(w io.Writer) error { return a.ExportPerson(ctx, w, p, held) }
		if c.Output == "" || c.Output == "-" {
			return write(console.Raw(s.Out))
		}
		if err := stored.WriteFile(c.Output, c.Force, write); err != nil {
			return err
		}
		err = say(s, "%s: sessions flown by %s: %d, sessions of others that name them: %d.", c.Output, p.Name,
			len(p.Sessions), len(p.Named))
		if err != nil || held == nil {
			return err
		}
		return say(s, "From the list of people: users: %d, logins: %d, links: %d, entries of the log: %d.",
			len(held.Users), len(held.Logins), len(held.Links), len(held.Entries))
	})
}

// heldOf is what the list of people holds of somebody; nil is nothing.
func heldOf(ctx context.Context, in *place.Place, name string) (held *people.Held, err error) {
	err = withPeople(in, func(store people.Store) error {
		if store == nil {
			return nil
		}
		h, err := store.Held(ctx, name)
		if err == nil && !h.IsZero() {
			held = &h
		}
		return err
	})
	return held, err
}
