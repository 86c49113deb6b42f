package query

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"

	"halfturn/coach/logbook/tables"
)

const (
	mostNear   = 5      // sessions that are proposed for one that does not exist
	mostLooked = 10_000 // of the latest, whose names are looked through: no index finds the middle of a name
)

// Near lists the sessions whose names are most like one that there is not, at most five: of the latest those whose
// names hold it, the newest first, then those that began nearest to its day.
func (b Questions) Near(ctx context.Context, id string) (best []string, err error) {
	return best, b.Ask(ctx, func(tx *tables.Tx) error {
		add := func(name string) {
			if len(best) < mostNear && !slices.Contains(best, name) {
				best = append(best, name)
			}
		}
		rows, err := tx.QueryContext(ctx, `SELECT id FROM (SELECT began, id FROM sessions
				ORDER BY began DESC, id DESC LIMIT ?) AS latest
			WHERE lower(id) LIKE ? ESCAPE '!' ORDER BY began DESC, id DESC LIMIT ?`,
			mostLooked, "%"+escape(strings.ToLower(id))+"%", mostNear)
		err = tables.Each(rows, err, func() error {
			var name string
			err := rows.Scan(&name)
			add(name)
			return err
		})
		if err != nil || len(best) == mostNear {
			return err
		}
		around, err := around(ctx, tx, dayOf(id).Add(12*time.Hour))
		for _, name := range around {
			add(name)
		}
		return err
	})
}

// escape makes a text one that LIKE takes as it is.
func escape(text string) string {
	return strings.NewReplacer("!", "!!", "%", "!%", "_", "!_").Replace(text)
}

// dayOf is the day that the name of a session begins with; one far ahead where it begins with none.
func dayOf(id string) time.Time {
	day, err := time.Parse(time.DateOnly, id[:min(len(id), len(time.DateOnly))])
	if err != nil {
		return time.Date(9999, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	return day
}

// around lists the sessions that began nearest to a time, the nearest first.
func around(ctx context.Context, tx *tables.Tx, at time.Time) ([]string, error) {
	type session struct {
		id  string
		off int64
	}
	var all []session
	for _, q := range []string{
		`SELECT id, began - ?1 FROM sessions WHERE began >= ?1 ORDER BY began, id LIMIT ?2`,
		`SELECT id, ?1 - began FROM sessions WHERE began < ?1 ORDER BY began DESC, id DESC LIMIT ?2`,
	} {
		rows, err := tx.QueryContext(ctx, q, at.UnixMilli(), 2*mostNear)
		err = tables.Each(rows, err, func() error {
			var s session
			err := rows.Scan(&s.id, &s.off)
			all = append(all, s)
			return err
		})
		if err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(all, func(x, y session) int { return cmp.Compare(x.off, y.off) })
	names := make([]string, len(all))
	for i := range all {
		names[i] = all[i].id
	}
	return names, nil
}
