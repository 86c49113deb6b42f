package people

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/who"
	"halfturn/web/access"
)

// Invitations is what is done with links.
type Invitations struct {
	Add    addInvitationCmd    `cmd:"" help:"Make a link by which a guest watches one station, and print it."`
	List   listInvitationsCmd  `cmd:"" help:"List the links that have not ended."`
	Remove removeInvitationCmd `cmd:"" help:"End a link, and send away who came by it."`
}

type addInvitationCmd struct {
	flags
	Station string        `arg:"" help:"Station to watch."`
	For     string        `help:"Whom it is for; the student sees the name." placeholder:"NAME"`
	Lasts   time.Duration `help:"How long it is good: 1m to 720h." default:"24h" placeholder:"TIME"`
	Address string        `help:"Of the pages, for the guest." placeholder:"URL" default:"http://127.0.0.1:7180/"`
}

// Run makes a link.
func (c *addInvitationCmd) Run(_ context.Context, s base.Streams) error {
	station, err := names.Station(c.Station)
	if err != nil {
		return base.Usage(err)
	}
	i, err := access.NewInvitation(station, c.For, c.Lasts, who.Owner(), time.Now())
	if err != nil {
		return base.Usage(err)
	}
	in := s.Language
	return c.with(s, func(store people.Store) error {
		token := secret.New()
		if err := store.Invite(i, secret.Hash(token)); err != nil {
			return err
		}
		if err := note(store, "invitations add", i.Station); err != nil {
			return err
		}
		link := strings.TrimSuffix(c.Address, "/") + "/" + access.LinkPath(token)
		return c.print(s.Out, map[string]any{"version": 1, "invitation": i, "link": link},
			func(w io.Writer) error {
				says := line(in.Wordf("Whoever has this link watches %s until %s:", i.Station, day(in, i.Until)))
				if err := says(w); err != nil {
					return err
				}
				_, err := fmt.Fprintln(w, link) // whole, however long, to be copied
				return err
			})
	})
}

type listInvitationsCmd struct{ flags }

// Run lists the links.
func (c *listInvitationsCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		all, err := store.Invitations(ctx, time.Now())
		if err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "invitations": all}, func(w io.Writer) error {
			if len(all) == 0 {
				return line(in.Word("There is no link. One is made by: halfturn invitations add STATION"))(w)
			}
			var rows [][]string
			for _, i := range all {
				rows = append(rows, []string{i.ID, i.Station, or(i.For), i.By.Name, day(in, i.Until)})
			}
			return table([]string{in.Word("ID"), in.Word("STATION"), in.Word("FOR"), in.Word("BY"), in.Word("UNTIL")},
				rows)(w)
		})
	})
}

type removeInvitationCmd struct {
	flags
	ID string `arg:"" help:"Id of the link, as the list shows it."`
}

// Run ends a link.
func (c *removeInvitationCmd) Run(_ context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		if err := store.Revoke(c.ID); err != nil {
			var none *people.NotFound
			if errors.As(err, &none) {
				err = base.Failf(in, "there is no link %q; halfturn invitations list lists them", c.ID)
			}
			return err
		}
		if err := note(store, "invitations remove", c.ID); err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "removed": c.ID},
			line(in.Wordf("The link %s has ended.", c.ID)))
	})
}
