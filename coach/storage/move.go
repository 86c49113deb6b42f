package storage

import (
	"context"
	"errors"
	"fmt"
	"time"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// A Moved says what was moved: how much, and by which digests it is known.
type Moved struct {
	Sessions int    `json:"sessions"`
	Users    int    `json:"users"`
	Logbook  string `json:"logbook"` // SHA-256, in hexadecimal
	People   string `json:"people"`
	Already  bool   `json:"already"` // all of it was there already
}

// NotEmpty says that a place holds something else than what is to be moved there.
type NotEmpty struct{ Place Place }

// Error says what to do.
func (n *NotEmpty) Error() string {
	return fmt.Sprintf("%s holds other sessions or people already, and nothing was changed there: name an empty one",
		n.Place)
}

// NoLogbook says that there is nothing to be moved.
type NoLogbook struct{ Place Place }

// Error says what to do.
func (n *NoLogbook) Error() string {
	return fmt.Sprintf("there is no logbook in %s: name the data directory", n.Place)
}

// longestMove bounds a move: a million sessions take less than an hour.
const longestMove = 6 * time.Hour

// Steps is how many tables a move reads.
func Steps() int { return len(logbookTables) + len(peopleTables) }

// Move copies the logbook and the list of people from one place to another, which must hold nothing, or just that. The
// source stays as it is. Nobody else may change it meanwhile. Tell is called with the name of each table that is read.
func Move(ctx context.Context, from, to Place, tell func(table string)) (m *Moved, err error) {
	if from == to {
		return nil, fmt.Errorf("from and to are both %s: name two places", from)
	}
	if err := from.has(); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, longestMove)
	defer cancel()
	source, err := from.stores()
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, closeAll(source)) }()
	target, err := to.stores()
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, closeAll(target)) }()
	m = &Moved{Already: true}
	for i, take := range []func(digest string, counts map[string]int){
		func(digest string, counts map[string]int) { m.Logbook, m.Sessions = digest, counts["sessions"] },
		func(digest string, counts map[string]int) { m.People, m.Users = digest, counts["users"] },
	} {
		already := false
		err := source[i].Ask(ctx, func(old *tables.Tx) error {
			return target[i].ChangeAlone(func(tx *tables.Tx) error {
				all, counts, there, err := source[i].copyTo(old, &target[i], tx, tell)
				already = there
				if err == nil {
					take(all.whole(), counts)
				}
				return err
			})
		})
		if errors.Is(err, errOther) {
			return nil, &NotEmpty{to}
		}
		if err != nil {
			return nil, err
		}
		m.Already = m.Already && already
	}
	return m, nil
}

// errOther says that a store holds something else.
var errOther = errors.New("the store holds something else")

// copyTo copies a store to one that is empty, and compares what then is there. One that holds the same already is left
// as it is.
func (s *store) copyTo(old *tables.Tx, to *store, tx *tables.Tx, tell func(string)) (
	all digests, counts map[string]int, already bool, err error,
) {
	there, filled, err := to.digest(tx)
	if err != nil {
		return nil, nil, false, err
	}
	if len(filled) > 0 {
		if all, counts, err = s.digest(old); err != nil {
			return nil, nil, false, err
		}
		if _, differs := all.differ(there); differs {
			return nil, nil, false, errOther
		}
		return all, counts, true, nil
	}
	all, counts = digests{}, map[string]int{}
	for i := range s.list {
		tell(s.list[i].name)
		if err := s.list[i].copyTo(old, tx, all, counts); err != nil {
			return nil, nil, false, fmt.Errorf("the table %s: %w", s.list[i].name, err)
		}
	}
	there, _, err = to.digest(tx)
	if err != nil {
		return nil, nil, false, err
	}
	if owner, differs := all.differ(there); differs {
		return nil, nil, false, &logbook.Failure{Words: fmt.Sprintf("what was copied differs from what was read "+
			"(session %q), and was taken back: see that nothing else changes either of them, and try again", owner)}
	}
	return all, counts, len(counts) == 0, nil // nothing is there already
}

// rowsAtOnce is how many rows wait to be written.
const rowsAtOnce = 256

// copyTo copies the rows of a table.
func (t *table) copyTo(old, tx *tables.Tx, all digests, counts map[string]int) error {
	var into *tables.Insert
	waiting := 0
	flush := func() error {
		if into == nil {
			return nil
		}
		waiting = 0
		return into.Flush()
	}
	err := t.each(old, func(r *row) error {
		sum, err := r.hash(t.name)
		if err != nil {
			return err
		}
		all.add(r.owner, sum)
		counts[t.name]++
		if into == nil {
			quoted := make([]string, len(r.columns))
			for i, name := range r.columns {
				quoted[i] = `"` + name + `"`
			}
			into = tx.Into(t.name, quoted...)
		}
		into.Row(t.entered(r)...)
		if waiting++; waiting < rowsAtOnce {
			return nil
		}
		return flush()
	})
	if err == nil {
		err = flush()
	}
	if err == nil && t.key != "" {
		err = tx.NumberOn(tx, t.name, t.key)
	}
	return err
}

// entered is a row as it is entered.
func (t *table) entered(r *row) []any {
	values := append([]any{}, r.values...)
	for i, column := range r.columns {
		if t.name == "sessions" && column == "remarks" {
			values[i] = int64(0) // a trigger counts them as they are entered
		}
	}
	return values
}
