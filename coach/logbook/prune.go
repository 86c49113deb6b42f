package logbook

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// Retention says what is kept. Zero values keep everything.
type Retention struct {
	Age  time.Duration // sessions that ended longer ago go
	Size int64         // bytes; the oldest sessions go until all take no more
}

// Pruned is a session that was removed, or would be.
type Pruned struct {
	ID    string    `json:"id"`
	Began time.Time `json:"began"`
	Bytes int64     `json:"bytes"`
	Why   string    `json:"why"` // "age" or "size"
}

// Prune removes sessions by age and total size, the oldest first; never one marked keep, never
// one that is being flown. With dry it only tells what would go. One that cannot be removed keeps no other one:
// what was removed is returned with the error.
func (b *Book) Prune(ctx context.Context, r Retention, now time.Time, dry bool) ([]Pruned, error) {
	all, total, err := b.removable(ctx)
	if err != nil {
		return nil, err
	}
	gone := []Pruned{}
	var failed error
	for _, p := range all {
		switch {
		case r.Age > 0 && now.Sub(p.ended) > r.Age:
			p.Why = "age"
		case r.Size > 0 && total > r.Size:
			p.Why = "size"
		default:
			continue
		}
		if err := ctx.Err(); err != nil {
			return gone, errors.Join(failed, err)
		}
		if !dry {
			err := b.remove(p.ID)
			if stays(err) {
				continue // marked, gone on with or removed since it was listed
			}
			if err != nil && code(err) != 0 {
				return gone, errors.Join(failed, err) // the database: the next one fares no better
			}
			if err != nil {
				failed = errors.Join(failed, err)
				continue
			}
		}
		total -= p.Bytes
		gone = append(gone, p.Pruned)
	}
	return gone, failed
}

type removable struct {
	Pruned
	ended time.Time
}

// removable lists the sessions that may go, oldest first, and how many bytes all sessions take.
func (b *Book) removable(ctx context.Context) (list []removable, total int64, err error) {
	err = b.ask(ctx, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT id, began, ended, keep FROM sessions ORDER BY began, id`)
		return each(rows, err, func() error {
			var p removable
			var began int64
			var ended sql.NullInt64
			var keep bool
			if err := rows.Scan(&p.ID, &began, &ended, &keep); err != nil {
				return err
			}
			if p.Bytes, err = sizeOf(filepath.Join(b.dir, p.ID)); err != nil {
				return err
			}
			total += p.Bytes
			if p.Began, p.ended = moment(began), moment(ended.Int64); ended.Valid && !keep {
				list = append(list, p)
			}
			return nil
		})
	})
	return list, total, err
}

// sizeOf adds up the files of a folder.
func sizeOf(dir string) (n int64, err error) {
	err = filepath.WalkDir(dir, func(_ string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return ignoreGone(err)
		}
		info, err := d.Info()
		if err != nil {
			return ignoreGone(err)
		}
		n += info.Size()
		return nil
	})
	return n, err
}

func ignoreGone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// stays tells that a session is not to be removed, in an error of remove.
func stays(err error) bool {
	var refused *Refused
	return errors.As(err, &refused)
}

// remove takes a session's folder out of the way, the session out of the logbook, and then removes the folder. After an
// interruption in between the next start goes on (removeGone).
func (b *Book) remove(id string) error {
	from, to := filepath.Join(b.dir, id), filepath.Join(b.dir, goneMark+id)
	moved := false
	err := b.change(func(tx *sql.Tx) error {
		// Asked again: it may have been marked since it was listed.
		var n int
		err := tx.QueryRow(`SELECT count(*) FROM sessions WHERE id = ? AND keep = 0 AND ended IS NOT NULL`, id).Scan(&n)
		if err != nil {
			return err
		}
		if n == 0 {
			return &Refused{fmt.Sprintf("session %q was marked to be kept, or goes on; it stays", id)}
		}
		// What an earlier removal of the same name left is in the way.
		if err := errors.Join(os.RemoveAll(to), ignoreGone(os.Rename(from, to))); err != nil {
			return fmt.Errorf("the folder of session %s cannot be removed: %w", id, err)
		}
		moved = true
		b.at(stepMarked)
		return forget(tx, id)
	})
	if err != nil {
		if moved {
			err = errors.Join(err, ignoreGone(os.Rename(to, from)))
		}
		return err
	}
	b.at(stepCommitted)
	if err := os.RemoveAll(to); err != nil {
		return fmt.Errorf("session %s is out of the logbook, but its folder cannot be removed: %w", id, err)
	}
	return nil
}

// forget removes all rows of a session.
func forget(tx *sql.Tx, id string) error {
	for _, q := range []string{
		`DELETE FROM remarks WHERE session = (SELECT key FROM sessions WHERE id = ?)`,
		`DELETE FROM sessions WHERE id = ?`,
	} {
		if _, err := tx.Exec(q, id); err != nil {
			return err
		}
	}
	_, err := tx.Exec(`DELETE FROM cards WHERE hash NOT IN (SELECT card FROM graded_by)`)
	return err
}

// removeGone goes on with what remove was doing when it was interrupted.
func (b *Book) removeGone() error {
	entries, err := os.ReadDir(b.dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		id, gone := strings.CutPrefix(e.Name(), goneMark)
		if !gone || !e.IsDir() || !IsID(id) {
			continue
		}
		if _, err := os.Lstat(filepath.Join(b.dir, id)); errors.Is(err, fs.ErrNotExist) { // else there is a new one of that name
			if err := b.change(func(tx *sql.Tx) error { return forget(tx, id) }); err != nil {
				return err
			}
		}
		if err := os.RemoveAll(filepath.Join(b.dir, e.Name())); err != nil {
			b.options.Tell(fmt.Sprintf("what is left of session %s cannot be removed: %v", id, err))
		}
	}
	return nil
}

// Backup writes a copy of the database, as of now, to a file that is not there yet. It can be
// made while sessions are flown.
func (b *Book) Backup(ctx context.Context, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return fmt.Errorf("%s is there already; name a file that is not", to)
	}
	if info, err := os.Stat(filepath.Dir(to)); err != nil || !info.IsDir() {
		return fmt.Errorf("there is no directory %s to put the copy into", filepath.Dir(to))
	}
	part := to + ".part"
	if _, err := os.Lstat(part); err == nil {
		return fmt.Errorf("%s is there already, perhaps of a copy that was interrupted; delete it first", part)
	}
	if err := b.copyTo(ctx, part); err != nil {
		return errors.Join(fmt.Errorf("the copy %s cannot be written: %w", to, b.plainly(err)), ignoreGone(os.Remove(part)))
	}
	if err := syncFile(part); err != nil {
		return err
	}
	// Link refuses what came there meanwhile; not every file system knows it.
	if err := os.Link(part, to); err == nil {
		return os.Remove(part)
	} else if errors.Is(err, fs.ErrExist) {
		return errors.Join(fmt.Errorf("%s is there already; name a file that is not", to), os.Remove(part))
	}
	return os.Rename(part, to)
}

// copyTo copies by a connection of its own: one that only asks may not, the one that writes is
// needed meanwhile.
func (b *Book) copyTo(ctx context.Context, part string) error {
	db, _ := b.pools()
	if !b.options.ReadOnly {
		var err error
		if db, err = sql.Open("sqlite", dsn(b.file, "mode", "ro")); err != nil {
			return err
		}
		defer db.Close()
	}
	_, err := db.ExecContext(ctx, `VACUUM INTO ?`, part)
	return err
}

func syncFile(name string) error {
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}
