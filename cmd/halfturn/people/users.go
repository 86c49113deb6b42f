package people

import (
	"context"
	"io"
	"os"
	"strconv"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/who"
	"halfturn/web/access"
)

// Users is what is done with users.
type Users struct {
	Add    addUserCmd    `cmd:"" help:"Add a user, and print the first password."`
	List   listUsersCmd  `cmd:"" help:"List the users."`
	Change changeUserCmd `cmd:"" help:"Change the role of a user, and the stations they have to do with."`
	Reset  resetUserCmd  `cmd:"" help:"Give a user a new password, and print it."`
	Remove removeUserCmd `cmd:"" help:"Remove a user."`
	Log    logCmd        `cmd:"" help:"List what was asked for, and by whom, newest first."`
}

// makeDir makes the data directory where there is none.
func makeDir(dir string) error { return os.MkdirAll(dir, 0o755) }

// rights are the flags that say what a user may do, and where.
type rights struct {
	Role    string   `help:"owner, instructor or student." default:"student" placeholder:"ROLE"`
	Station []string `help:"Station that the user has to do with; repeatable." placeholder:"NAME"`
	Group   string   `help:"Group of stations that the user has to do with." placeholder:"NAME"`
}

type addUserCmd struct {
	flags
	rights
	Name string `arg:"" help:"Name to log in by."`
}

// Help says what else there is to know.
func (addUserCmd) Help() string {
	return "The first user must be an owner. An instructor without stations and group has to do with all. The " +
		"password is printed once; the user changes it after the first login.\n\n" +
		"  halfturn users add --role owner \"B. Example\"\n" +
		"  halfturn users add --station \"Seat 3\" \"Ada Example\"\n" +
		"  halfturn users add --cluster cluster.toml --role instructor Bo"
}

// made is what is printed of a user with a new password.
type made struct {
	Version  int         `json:"version"`
	User     people.User `json:"user"`
	Password string      `json:"password"`
}

// Run adds a user.
func (c *addUserCmd) Run(ctx context.Context, s base.Streams) error {
	u, err := access.NewUser(c.Name, c.Role, c.Group, c.Station, time.Now())
	if err != nil {
		return base.Usage(err)
	}
	in := s.Language
	return c.with(s, func(store people.Store) error {
		all, err := store.Users(ctx)
		if err != nil {
			return err
		}
		if len(all) == 0 && u.Role != who.RoleOwner {
			return base.Usagef(in, "the first user must be an owner, so that somebody can manage the others: "+
				"--role owner")
		}
		password := secret.Made()
		hash, err := secret.Password(password)
		if err != nil {
			return err
		}
		if err := store.AddUser(u, hash); err != nil {
			return taken(in, err)
		}
		if err := note(store, "users add", u.Name); err != nil {
			return err
		}
		return c.print(s.Out, made{1, u, password}, line(in.Wordf("%s, %s of %s. First password: %s",
			u.Name, roleOf(in, u.Role), where(in, u), password)))
	})
}

type listUsersCmd struct{ flags }

// Run lists the users.
func (c *listUsersCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		all, err := store.Users(ctx)
		if err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "users": all}, func(w io.Writer) error {
			if len(all) == 0 {
				return line(in.Word("There are no users; whoever is at this machine is its owner. The first is " +
					"added by: halfturn users add --role owner NAME"))(w)
			}
			var rows [][]string
			for _, u := range all {
				rows = append(rows, []string{u.Name, roleOf(in, u.Role), where(in, u), day(in, u.Made)})
			}
			headings := []string{in.Word("NAME"), in.Word("ROLE"), in.Word("STATIONS"), in.Word("SINCE")}
			return table(headings, rows)(w)
		})
	})
}

type changeUserCmd struct {
	flags
	rights
	Name string `arg:"" help:"Name of the user."`
}

// Run changes what a user may do; their logins end.
func (c *changeUserCmd) Run(ctx context.Context, s base.Streams) error {
	is, err := access.NewUser(c.Name, c.Role, c.Group, c.Station, time.Now())
	if err != nil {
		return base.Usage(err)
	}
	in := s.Language
	return c.with(s, func(store people.Store) error {
		u, err := userNamed(ctx, in, store, c.Name)
		if err != nil {
			return err
		}
		all, err := store.Users(ctx)
		if err != nil {
			return err
		}
		if is.Role != who.RoleOwner {
			if err := access.MayRemove(u, all); err != nil {
				return err
			}
		}
		u.Role, u.Stations, u.Group = is.Role, is.Stations, is.Group
		if err := store.ChangeUser(u); err != nil {
			return err
		}
		if err := note(store, "users change", u.Name); err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "user": u}, line(in.Wordf(
			"%s, %s of %s. Their logins have ended.", u.Name, roleOf(in, u.Role), where(in, u))))
	})
}

type resetUserCmd struct {
	flags
	Name string `arg:"" help:"Name of the user."`
}

// Run gives a user a new password; their logins end.
func (c *resetUserCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		u, err := userNamed(ctx, in, store, c.Name)
		if err != nil {
			return err
		}
		password := secret.Made()
		hash, err := secret.Password(password)
		if err != nil {
			return err
		}
		if err := store.SetPassword(u.ID, hash); err != nil {
			return err
		}
		if err := note(store, "users reset", u.Name); err != nil {
			return err
		}
		return c.print(s.Out, made{1, u, password}, line(in.Wordf("New password of %s: %s", u.Name, password)))
	})
}

type removeUserCmd struct {
	flags
	Name string `arg:"" help:"Name of the user."`
}

// Run removes a user. What they flew and said stays.
func (c *removeUserCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		u, err := userNamed(ctx, in, store, c.Name)
		if err != nil {
			return err
		}
		all, err := store.Users(ctx)
		if err != nil {
			return err
		}
		if err := access.MayRemove(u, all); err != nil {
			return err
		}
		if err := store.RemoveUser(u.ID); err != nil {
			return err
		}
		if err := note(store, "users remove", u.Name); err != nil {
			return err
		}
		left, err := store.About(u.Name)
		if err != nil {
			return err
		}
		said := map[string]any{"version": 1, "removed": u.Name, "links": left.Links, "entries": left.Entries}
		return c.print(s.Out, said, line(in.Wordf("%s is removed, and can log in no more. What they flew and said "+
			"stays, as do links made for them (%d) and their name in the log (%d entries). To delete all of it: "+
			"halfturn students forget %q", u.Name, left.Links, left.Entries, u.Name)))
	})
}

type logCmd struct {
	flags
	User string `help:"Only what this user asked for." placeholder:"NAME"`
	Most int    `help:"How many entries." default:"100" placeholder:"N"`
}

// Run lists the log.
func (c *logCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		id := ""
		if c.User != "" {
			u, err := userNamed(ctx, in, store, c.User)
			if err != nil {
				return err
			}
			id = u.ID
		}
		all, err := store.Entries(ctx, id, max(c.Most, 1))
		if err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "entries": all}, func(w io.Writer) error {
			var rows [][]string
			for _, e := range all {
				status := ""
				if e.Status != 0 {
					status = strconv.Itoa(e.Status)
				}
				rows = append(rows, []string{day(in, e.At), e.By.Name, roleOf(in, e.By.Role), or(e.Address), e.What,
					or(e.On), or(status)})
			}
			return table([]string{in.Word("WHEN"), in.Word("WHO"), in.Word("ROLE"), in.Word("FROM"), in.Word("WHAT"),
				in.Word("ON"), in.Word("STATUS")}, rows)(w)
		})
	})
}

func or(s string) string {
	if s == "" {
		return "–"
	}
	return s
}
