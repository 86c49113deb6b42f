package logbook

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	lib "modernc.org/sqlite/lib"

	"halfturn/coach/debrief"
	"halfturn/configs/tomlfile"
	"halfturn/stream/record"
)

// sessionName is what the folder of a session may be called: no path leads out of the directory.
var sessionName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// IsID tells whether a word can be the id of a session.
func IsID(s string) bool { return len(s) <= 200 && sessionName.MatchString(s) }

// Folder returns the folder of a session by its id.
func (b *Book) Folder(id string) (string, error) {
	if !IsID(id) {
		return "", &NotFound{ID: id}
	}
	dir := filepath.Join(b.dir, id)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return "", &NotFound{ID: id}
	}
	return dir, nil
}

// Recording lists the files of a session's recording in order; none when only grades were kept.
func (b *Book) Recording(id string) []string {
	if !IsID(id) {
		return nil
	}
	files, err := record.Parts(filepath.Join(b.dir, id))
	if err != nil {
		return nil
	}
	return files
}

// LastFolder returns the newest session of a data directory by its folders: their names begin with the time.
func LastFolder(data string) (string, error) {
	ids, err := foldersIn(filepath.Join(data, "sessions"))
	if err != nil || len(ids) == 0 {
		return "", errors.Join(err, fmt.Errorf("there is no session in %q yet; choose another data directory with --data", data))
	}
	return ids[len(ids)-1], nil
}

// folders lists the sessions that have one, oldest first.
func (b *Book) folders() ([]string, error) { return foldersIn(b.dir) }

func foldersIn(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("the session folders cannot be read: %w", err)
	}
	var names []string
	for _, e := range entries {
		if e.IsDir() && IsID(e.Name()) {
			names = append(names, e.Name())
		}
	}
	return names, nil
}

// Rebuild rebuilds the database from the session folders and returns how many it holds then.
// Others see the old one until it is done. A folder that cannot be taken in is told of and left out
// of the logbook, not removed: LeftOut lists those. Progress is called after each folder; it may be nil.
func (b *Book) Rebuild(ctx context.Context, progress func(done, of int)) (n int, err error) {
	ids, err := b.folders()
	if err != nil {
		return 0, err
	}
	err = b.change(func(tx *sql.Tx) error {
		for _, table := range []string{"remarks", "sessions", "students", "cards", "left_out"} {
			if _, err := tx.Exec("DELETE FROM " + table); err != nil {
				return err
			}
		}
		for i, id := range ids {
			if err := ctx.Err(); err != nil {
				return fmt.Errorf("interrupted; the logbook is as it was: %w", err)
			}
			taken, err := b.takeIn(tx, id)
			if err != nil {
				return err
			}
			if taken {
				n++
			}
			if progress != nil {
				progress(i+1, len(ids))
			}
		}
		return nil
	})
	if err != nil {
		return 0, err
	}
	return n, nil
}

// takeIn enters one session from its folder, whole or not at all: one that cannot be entered is noted as left out, and
// keeps no other one out. The error is of the database.
func (b *Book) takeIn(tx *sql.Tx, id string) (taken bool, err error) {
	why, err := apart(tx, func() error { return b.restore(tx, id) })
	if why == nil || err != nil {
		return err == nil, err
	}
	b.options.Tell(fmt.Sprintf("session %s is left out of the logbook: %v; its folder stays as it is", id, why))
	_, err = tx.Exec("INSERT OR REPLACE INTO left_out (id, why) VALUES (?, ?)", id, why.Error())
	return false, err
}

// apart makes a part of a change whole or not at all, and tells why it could not be made. The error is of the database,
// with which the whole change fails.
func apart(tx *sql.Tx, f func() error) (why, err error) {
	if _, err := tx.Exec("SAVEPOINT apart"); err != nil {
		return nil, err
	}
	if why = f(); why != nil {
		if ofDatabase(why) {
			return nil, why
		}
		if _, err := tx.Exec("ROLLBACK TO apart"); err != nil {
			return nil, err
		}
	}
	_, err = tx.Exec("RELEASE apart")
	return why, err
}

// ofDatabase tells an error of the database, or an end of the rebuild, from one of what was to be put in.
func ofDatabase(err error) bool {
	if errors.Is(err, context.Canceled) {
		return true
	}
	switch code(err) {
	case 0, lib.SQLITE_CONSTRAINT, lib.SQLITE_MISMATCH, lib.SQLITE_TOOBIG:
		return damaged(err)
	}
	return true
}

// LeftOut lists the session folders that could not be taken into the logbook, and why.
func (b *Book) LeftOut(ctx context.Context) (l LeftOut, err error) {
	err = b.ask(ctx, func(tx *sql.Tx) error { return b.leftOut(ctx, tx, &l) })
	return l, err
}

// mostLeftOut is how many are named.
const mostLeftOut = 50

func (b *Book) leftOut(ctx context.Context, tx *sql.Tx, l *LeftOut) error {
	l.Sessions = []LeftOutSession{}
	if b.shapeNow() < shapeOfNames {
		return nil
	}
	if err := tx.QueryRowContext(ctx, `SELECT count(*) FROM left_out`).Scan(&l.Total); err != nil || l.Total == 0 {
		return err
	}
	rows, err := tx.QueryContext(ctx, `SELECT id, why FROM left_out ORDER BY id DESC LIMIT ?`, mostLeftOut)
	return each(rows, err, func() error {
		var s LeftOutSession
		err := rows.Scan(&s.ID, &s.Why)
		l.Sessions = append(l.Sessions, s)
		return err
	})
}

var errBare = errors.New("its folder tells neither when it was nor what was flown")

// restore enters one session from its folder.
func (b *Book) restore(tx *sql.Tx, id string) error {
	dir := filepath.Join(b.dir, id)
	notes, err := ReadNotes(dir)
	if err != nil {
		b.options.Tell(err.Error() + "; the session is restored without its remarks")
	}
	noted := notes != nil
	if !noted {
		notes = &Notes{}
	}
	if err := notes.sound(); err != nil {
		return err
	}
	report, err := b.gradesOf(dir)
	if err != nil {
		return err
	}
	e := entryOf(id, notes, noted, report)
	if e == nil {
		return errBare
	}
	if e.Cards, err = cardsIn(filepath.Join(dir, "cards")); err != nil {
		return err
	}
	key, err := enter(tx, e)
	if err != nil {
		return err
	}
	if err := first(tx, key, e); err != nil {
		return err
	}
	ended := endOf(notes, noted, report, e.Began)
	if _, err := tx.Exec(`UPDATE sessions SET ended = ?, keep = ? WHERE key = ?`, ended, notes.Keep, key); err != nil {
		return err
	}
	for i := range notes.Remarks {
		if err := insertRemark(tx, key, &notes.Remarks[i]); err != nil {
			return err
		}
	}
	if report == nil {
		return nil
	}
	if err := keep(tx, id, report); err != nil {
		return err
	}
	return b.restoreRegrades(tx, key, dir, notes.Regrades)
}

// gradesOf reads the grades of a session, or grades its recording again; nil without either.
func (b *Book) gradesOf(dir string) (*debrief.Report, error) {
	report := &debrief.Report{}
	ok, err := readJSON(filepath.Join(dir, "summary.json"), report)
	if ok && report.Version != 0 {
		return report, nil
	}
	if err != nil {
		b.options.Tell(err.Error() + "; the recording is graded again")
	}
	if b.options.Regrade == nil || len(b.Recording(filepath.Base(dir))) == 0 {
		return nil, nil
	}
	report, err = b.options.Regrade(dir)
	if errors.Is(err, context.Canceled) {
		return nil, err // it has grades, only not yet
	}
	if err != nil {
		b.options.Tell(fmt.Sprintf("session %s: its recording cannot be graded: %v", filepath.Base(dir), err))
		return nil, nil
	}
	return report, nil
}

// readJSON reads a file of a session; false when there is none or it is not to be read.
func readJSON(path string, into any) (bool, error) {
	data, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	if err == nil {
		err = json.Unmarshal(data, into)
	}
	if err != nil {
		return false, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	return true, nil
}

// entryOf puts together what is known of a session; nil when it is not even known when it was.
func entryOf(id string, n *Notes, noted bool, r *debrief.Report) *Entry {
	e := &Entry{ID: id}
	if noted && !n.Began.IsZero() {
		e.Station, e.Student, e.Began, e.Version = n.Station, n.Student, n.Began, n.Server
		e.Maneuver, e.Standard, e.Aircraft = n.Maneuver, n.Standard, n.Aircraft
		return e
	}
	var sum []debrief.Station
	if r != nil {
		sum = stationsOf(r)
		if r.Session != nil {
			e.Began, _ = time.Parse(time.RFC3339, r.Session.Began) // else by its name
		}
	}
	stamp, station, _ := strings.Cut(id, "_")
	e.Station = station
	if e.Began.IsZero() {
		e.Began, _ = time.Parse("2006-01-02T15-04-05Z", stamp)
	}
	for i := range sum {
		if i == 0 {
			e.Station = sum[i].Station
		}
		for _, s := range sum[i].Series {
			e.Maneuver, e.Standard, e.Aircraft = s.Maneuver, s.Standard, s.Aircraft
		}
	}
	if e.Began.IsZero() {
		return nil
	}
	return e
}

// endOf is when the session ended: by its notes, by its grades, or by the length of its stream.
// One whose notes do not tell is still being flown, or was when the program was stopped.
func endOf(n *Notes, noted bool, r *debrief.Report, began time.Time) sql.NullInt64 {
	end := n.Ended
	if end.IsZero() && r != nil && r.Session != nil {
		end, _ = time.Parse(time.RFC3339, r.Session.Ended)
	}
	if end.IsZero() && !noted {
		length := 0.0
		if r != nil {
			for _, s := range stationsOf(r) {
				length = max(length, s.Duration)
			}
		}
		end = began.Add(time.Duration(length * float64(time.Second)))
	}
	return sql.NullInt64{Int64: end.UnixMilli(), Valid: !end.IsZero()}
}

// cardsIn reads the cards of a session's folder, in their order.
func cardsIn(dir string) ([]Card, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*", "*.toml"))
	if err != nil {
		return nil, err
	}
	slices.Sort(files)
	var all []Card
	for _, f := range files {
		text, err := tomlfile.Read(f)
		if err != nil {
			return nil, err
		}
		all = append(all, Card{Kind: filepath.Base(filepath.Dir(f)), Name: strings.TrimSuffix(filepath.Base(f), ".toml"), Text: text})
	}
	return all, nil
}

// restoreRegrades enters the gradings beside the first, regrade-0001.json and so on. Of one that the
// notes do not know only the grades are known.
func (b *Book) restoreRegrades(tx *sql.Tx, session int64, dir string, known []Regraded) error {
	files, err := filepath.Glob(filepath.Join(dir, "regrade-*.json"))
	if err != nil {
		return err
	}
	slices.Sort(files)
	for i, f := range files {
		report := debrief.New()
		if ok, err := readJSON(f, report); !ok {
			if err != nil {
				b.options.Tell(err.Error() + "; it is left out")
			}
			continue
		}
		g, err := grading(f, report)
		if err != nil {
			return err
		}
		if i < len(known) {
			k := &known[i]
			g.At, g.Version, g.Maneuver, g.Standard, g.Aircraft, g.Differences = k.At, k.Server, k.Maneuver, k.Standard, k.Aircraft, k.Differences
		}
		if err := regrade(tx, session, g, b.options.Version); err != nil {
			return err
		}
	}
	return nil
}

// grading is what a file of grades says of how it came to be.
func grading(file string, r *debrief.Report) (*Grading, error) {
	info, err := os.Stat(file)
	if err != nil {
		return nil, err
	}
	g := &Grading{At: info.ModTime(), Report: r}
	for _, s := range stationsOf(r) {
		for _, x := range s.Series {
			g.Maneuver, g.Standard, g.Aircraft = x.Maneuver, x.Standard, x.Aircraft
		}
	}
	return g, nil
}
