// Package logbook holds the commands for the logbook as a whole: where it is kept.
package logbook

import (
	"context"
	"errors"
	"fmt"
	"os"

	"halfturn/cmd/halfturn/amount"
	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive/lock"
	"halfturn/coach/layout"
	"halfturn/coach/storage"
)

// Command is what is done with the logbook as a whole.
type Command struct {
	Move moveCmd `cmd:"" help:"Copy logbook and people from a data directory into a database, or back."`
}

type moveCmd struct {
	From   string `help:"Data directory, or connection string of PostgreSQL." placeholder:"PLACE" required:""`
	To     string `help:"The same of where they go; nothing may be there yet." placeholder:"PLACE" required:""`
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what else there is to know.
func (moveCmd) Help() string {
	return "Takes the logbook with all gradings, acts and remarks, and users, links, station keys and the log of " +
		"what was asked for. Recordings stay in the folder sessions of their data directory. What was copied is " +
		"compared by digests before it counts; after an interruption nothing is there, and the same command is run " +
		"again. The source stays as it is. Stop the server first. A password is better kept in PGPASSWORD or a " +
		"password file than in the connection string.\n\n" +
		"  halfturn logbook move --from data --to postgres://halfturn@db.example/fly\n" +
		"  halfturn logbook move --from \"host=/run/postgresql dbname=fly\" --to data"
}

// Run copies everything.
func (c *moveCmd) Run(ctx context.Context, s base.Streams) (err error) {
	from, to := storage.At(c.From), storage.At(c.To)
	if from == to {
		return base.Usagef(s.Language, "--from and --to are both %s; name two places", from)
	}
	for _, p := range []storage.Place{from, to} {
		held, failed := own(p, p == to)
		if failed != nil {
			return failed
		}
		if held != nil {
			defer func() { err = errors.Join(err, held.Close()) }()
		}
	}
	bar := console.NewProgress(s.Err, storage.Steps())
	m, err := storage.Move(ctx, from, to, func(table string) { bar.Step(table) })
	bar.Clear()
	if err != nil {
		return plainly(s, err)
	}
	return c.print(s, from, to, m)
}

// own makes sure that no server writes into a data directory, which is made where it may be.
func own(p storage.Place, make bool) (*lock.Lock, error) {
	if p.Dir() == "" {
		return nil, nil
	}
	if make {
		if err := os.MkdirAll(p.Dir(), 0o755); err != nil {
			return nil, err
		}
	} else if _, err := os.Stat(p.Dir()); err != nil {
		return nil, nil // there is no logbook in it, which is said of it
	}
	return lock.Own(p.Dir())
}

// plainly is an error in the language of whoever reads it.
func plainly(s base.Streams, err error) error {
	var other *storage.NotEmpty
	var none *storage.NoLogbook
	switch {
	case errors.As(err, &other):
		return base.Failf(s.Language, "%s holds other sessions or people already, and nothing was changed there; "+
			"name an empty one", other.Place)
	case errors.As(err, &none):
		return base.Failf(s.Language, "there is no logbook in %s; name the data directory", none.Place)
	case errors.Is(err, context.Canceled):
		return base.Failf(s.Language, "interrupted: nothing of what was under way is kept; run the same command again")
	}
	return err
}

// print says what was moved, and its digests.
func (c *moveCmd) print(s base.Streams, from, to storage.Place, m *storage.Moved) error {
	if c.Format == "json" {
		return base.Indented(s.Out, struct {
			Version int    `json:"version"`
			From    string `json:"from"`
			To      string `json:"to"`
			*storage.Moved
		}{1, from.String(), to.String(), m})
	}
	sessions := amount.Sessions(s.Language, m.Sessions)
	says := s.Language.Wordf("%s and %d users are copied from %s to %s.", sessions, m.Users, from, to)
	if m.Already {
		says = s.Language.Wordf("%s and %d users are in %s already.", sessions, m.Users, to)
	}
	page := layout.NewPage(s.Out)
	fmt.Fprintln(page, says)
	fmt.Fprintln(page, s.Language.Wordf("Digest of the logbook: %s", m.Logbook))
	fmt.Fprintln(page, s.Language.Wordf("Digest of people: %s", m.People))
	return page.Err()
}
