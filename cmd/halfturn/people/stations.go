package people

import (
	"context"
	"io"
	"os"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/ids"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/stream/phrase"
)

// Stations is what is done with stations that have a key or a group.
type Stations struct {
	Add    addStationCmd    `cmd:"" help:"Add a station, and print or write its key."`
	List   listStationsCmd  `cmd:"" help:"List the stations that have a key or a group."`
	Renew  renewStationCmd  `cmd:"" help:"Give a station a new key; the one before no longer works."`
	Revoke revokeStationCmd `cmd:"" help:"Take the key of a station away."`
	Remove removeStationCmd `cmd:"" help:"Remove a station with its key; what was flown there stays."`
}

// keyFlags say where a key goes.
type keyFlags struct {
	KeyFile string `help:"Write the key to this new file instead of printing it." placeholder:"FILE" type:"path"`
}

// hand writes the key to its file, which only the user can read, or says it. It runs before the key counts.
func (k *keyFlags) hand(in *phrase.Language, key string) (says string, err error) {
	if k.KeyFile == "" {
		return in.Wordf("Its key, told once: %s", key), nil
	}
	f, err := os.OpenFile(k.KeyFile, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return "", base.Failf(in, "the key cannot be written: %w", err)
	}
	_, err = io.WriteString(f, key+"\n")
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err != nil {
		return "", base.Failf(in, "the key cannot be written: %w", err)
	}
	return in.Wordf("Its key is in %s.", k.KeyFile), nil
}

// json is the key in JSON: nothing where it is in a file.
func (k *keyFlags) json(key string) string {
	if k.KeyFile != "" {
		return ""
	}
	return key
}

type addStationCmd struct {
	flags
	keyFlags
	Name  string `arg:"" help:"Name of the station, as on the pages."`
	Group string `help:"Group that the station belongs to." placeholder:"NAME"`
	NoKey bool   `help:"Without a key: a station of this building that belongs to a group."`
}

// Help says what else there is to know.
func (addStationCmd) Help() string {
	return "Whoever has the key can send as this station from elsewhere:\n\n" +
		"  halfturn stations add --group evening --key-file seat-3.key \"Seat 3\"\n" +
		"  halfturn serve --share https://desk.example --station-key seat-3.key"
}

// Run adds a station.
func (c *addStationCmd) Run(_ context.Context, s base.Streams) error {
	name, err := names.Station(c.Name)
	if err != nil {
		return base.Usage(err)
	}
	now := time.Now().Truncate(time.Millisecond).UTC()
	station := people.Station{ID: ids.New(now), Name: name, Group: c.Group, Made: now}
	in := s.Language
	return c.with(s, func(store people.Store) error {
		if c.NoKey {
			if err := store.AddStation(station, people.Hash{}); err != nil {
				return taken(in, err)
			}
			return c.told(s, store, station, "", in.Word("It has no key."))
		}
		key := secret.New()
		if err := store.AddStation(station, secret.Hash(key)); err != nil {
			return taken(in, err)
		}
		says, err := c.hand(in, key)
		if err != nil {
			return base.Failf(in, "%w; then: halfturn stations renew %q", err, name)
		}
		return c.told(s, store, station, c.json(key), says)
	})
}

func (c *addStationCmd) told(s base.Streams, store people.Store, station people.Station, key, says string) error {
	if err := note(store, "stations add", station.Name); err != nil {
		return err
	}
	v := map[string]any{"version": 1, "station": station, "key": key}
	return c.print(s.Out, v, line(s.Language.Wordf("%s is added. %s", station.Name, says)))
}

type listStationsCmd struct{ flags }

// Run lists the stations.
func (c *listStationsCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		all, err := store.Stations(ctx)
		if err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "stations": all}, func(w io.Writer) error {
			if len(all) == 0 {
				return line(in.Word("No station has a key or a group. One is added by: halfturn stations add NAME"))(w)
			}
			var rows [][]string
			for _, st := range all {
				rows = append(rows, []string{st.Name, or(st.Group), day(in, st.Made), day(in, st.Used)})
			}
			headings := []string{in.Word("NAME"), in.Word("GROUP"), in.Word("SINCE"), in.Word("KEY LAST USED")}
			return table(headings, rows)(w)
		})
	})
}

// stationNamed looks a station up by name.
func stationNamed(
	ctx context.Context, in *phrase.Language, store people.Store, name string,
) (people.Station, error) {
	all, err := store.Stations(ctx)
	if err != nil {
		return people.Station{}, err
	}
	for _, st := range all {
		if names.Key(st.Name) == names.Key(name) {
			return st, nil
		}
	}
	return people.Station{}, base.Failf(in, "there is no station %q; halfturn stations list lists them", name)
}

type renewStationCmd struct {
	flags
	keyFlags
	Name string `arg:"" help:"Name of the station."`
}

// Run gives a station a new key.
func (c *renewStationCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		st, err := stationNamed(ctx, in, store, c.Name)
		if err != nil {
			return err
		}
		key := secret.New()
		says, err := c.hand(in, key)
		if err != nil {
			return err
		}
		if err := store.SetKey(st.ID, secret.Hash(key)); err != nil {
			return err
		}
		if err := note(store, "stations renew", st.Name); err != nil {
			return err
		}
		v := map[string]any{"version": 1, "station": st, "key": c.json(key)}
		return c.print(s.Out, v, line(in.Wordf("%s has a new key. %s", st.Name, says)))
	})
}

type revokeStationCmd struct {
	flags
	Name string `arg:"" help:"Name of the station."`
}

// Run takes the key of a station away.
func (c *revokeStationCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		st, err := stationNamed(ctx, in, store, c.Name)
		if err != nil {
			return err
		}
		if err := store.SetKey(st.ID, people.Hash{}); err != nil {
			return err
		}
		if err := note(store, "stations revoke", st.Name); err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "station": st},
			line(in.Wordf("The key of %s no longer works.", st.Name)))
	})
}

type removeStationCmd struct {
	flags
	Name string `arg:"" help:"Name of the station."`
}

// Run removes a station.
func (c *removeStationCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	return c.with(s, func(store people.Store) error {
		st, err := stationNamed(ctx, in, store, c.Name)
		if err != nil {
			return err
		}
		if err := store.RemoveStation(st.ID); err != nil {
			return err
		}
		if err := note(store, "stations remove", st.Name); err != nil {
			return err
		}
		return c.print(s.Out, map[string]any{"version": 1, "removed": st.Name},
			line(in.Wordf("%s is removed.", st.Name)))
	})
}
