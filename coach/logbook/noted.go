package logbook

import (
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// What is known of a session beside its stream stands twice: in the notes in its folder, which are the truth, and in
// the database, which is asked. A change goes by these steps, all but the last under the database's lock for writing:
//
//  1. the rows are changed, not committed
//  2. a mark is made in the data directory: an empty file with the session's name in its own
//  3. notes.json is replaced by one that says what the rows say
//  4. the transaction is committed
//  5. the mark is removed
//
// Interrupted before 3, nothing has changed. Interrupted between 3 and 4, the folder is ahead: the mark says so, and
// whoever opens the logbook next takes the notes in (heal). A commit that fails is undone in the folder (takeBack).

const (
	notingMark = ".noting-"
	goneMark   = ".gone-"
	markTail   = "~" // no name of a session holds it
)

// The steps of a change at which a test interrupts it.
const (
	stepChanged   = "changed"
	stepMarked    = "marked"
	stepNoted     = "noted"
	stepCommitted = "committed"
)

// at tells a test how far a change is.
func (b *Book) at(step string) {
	if b.onStep != nil {
		b.onStep(step)
	}
}

// changeNoted makes a change that the session's notes tell of, whole or not at all.
func (b *Book) changeNoted(id string, f func(*sql.Tx) error) error {
	mark := ""
	err := b.change(func(tx *sql.Tx) (err error) {
		if err := f(tx); err != nil {
			return err
		}
		b.at(stepChanged)
		mark, err = b.note(tx, id)
		return err
	})
	if err != nil {
		if mark != "" {
			err = errors.Join(err, b.takeBack(id, mark))
		}
		return err
	}
	b.at(stepCommitted)
	_ = os.Remove(mark) // one that stays costs the next start a look
	return nil
}

// note writes the session's notes.json as the change will have it. A mark that is returned stands until the change is
// committed or taken back.
func (b *Book) note(tx *sql.Tx, id string) (mark string, err error) {
	n, err := notesOf(tx, id)
	if err != nil {
		return "", err
	}
	data, err := encodeNotes(n)
	if err != nil {
		return "", err
	}
	dir := filepath.Join(b.dir, id)
	if err := b.setAside(id); err != nil {
		return "", notNoted(id, err)
	}
	f, err := os.CreateTemp(filepath.Dir(b.file), notingMark+id+markTail+"*")
	if err != nil {
		return "", notNoted(id, err)
	}
	if err := f.Close(); err != nil {
		return f.Name(), notNoted(id, err)
	}
	b.at(stepMarked)
	if err := writeWhole(filepath.Join(dir, notesFile), data); err != nil {
		return f.Name(), notNoted(id, err)
	}
	syncDir(dir)
	b.at(stepNoted)
	return f.Name(), nil
}

func notNoted(id string, err error) error {
	if errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("the folder of session %s is gone, nothing was changed: "+
			"halfturn sessions rebuild takes it out of the logbook", id)
	}
	return fmt.Errorf("the notes of session %s cannot be written: %w", id, err)
}

func encodeNotes(n *Notes) ([]byte, error) {
	data, err := json.MarshalIndent(n, "", "  ")
	return append(data, '\n'), err
}

// setAside keeps notes that cannot be taken in from being written over: by a session that was left out, and goes on.
// Those that this Book wrote itself are not looked at again.
func (b *Book) setAside(id string) error {
	b.mu.Lock()
	known := b.noted[id]
	if b.noted == nil {
		b.noted = map[string]bool{}
	}
	b.noted[id] = true
	b.mu.Unlock()
	if known {
		return nil
	}
	dir := filepath.Join(b.dir, id)
	n, err := ReadNotes(dir)
	if err == nil && (n == nil || n.sound() == nil) {
		return nil
	}
	if errors.Is(err, fs.ErrPermission) {
		return err
	}
	for i := 1; ; i++ {
		to := filepath.Join(dir, fmt.Sprintf("notes-damaged-%04d.json", i))
		if _, err := os.Lstat(to); errors.Is(err, fs.ErrNotExist) {
			return os.Rename(filepath.Join(dir, notesFile), to)
		}
	}
}

// takeBack writes the notes again as the database has them, after a change that was not committed.
func (b *Book) takeBack(id, mark string) error {
	err := b.change(func(tx *sql.Tx) error {
		n, err := notesOf(tx, id)
		if errors.Is(err, sql.ErrNoRows) { // it was never entered: its notes stay, as those of any folder
			return nil
		}
		if err != nil {
			return err
		}
		data, err := encodeNotes(n)
		if err != nil {
			return err
		}
		return ignoreGone(writeWhole(filepath.Join(b.dir, id, notesFile), data))
	})
	if err != nil {
		return fmt.Errorf("its notes may hold the change all the same; the next start looks: %w", err)
	}
	return ignoreGone(os.Remove(mark))
}

// heal takes in the notes of sessions whose change was interrupted between folder and database.
func (b *Book) heal() error {
	marks, err := filepath.Glob(filepath.Join(globbed(filepath.Dir(b.file)), notingMark+"*"+markTail+"*"))
	if err != nil || len(marks) == 0 {
		return err
	}
	err = b.change(func(tx *sql.Tx) error {
		for _, m := range marks {
			id, _, _ := strings.Cut(strings.TrimPrefix(filepath.Base(m), notingMark), markTail)
			if _, err := os.Stat(filepath.Join(b.dir, id, notesFile)); err != nil || !IsID(id) {
				continue
			}
			if err := b.renote(tx, id); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	for _, m := range marks {
		if err := ignoreGone(os.Remove(m)); err != nil {
			return err
		}
	}
	return nil
}

// globbed is a directory in a pattern of filepath.Glob.
func globbed(dir string) string {
	if filepath.Separator == '\\' { // there nothing is escaped
		return dir
	}
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "?", `\?`, "[", `\[`).Replace(dir)
}

// renote makes the rows of a session say what its notes do, and enters one that is not there. What its notes make
// impossible is told. The legs stay as they are.
func (b *Book) renote(tx *sql.Tx, id string) error {
	key, _, err := find(tx, id)
	var none *NotFound
	if errors.As(err, &none) {
		_, err := b.takeIn(tx, id)
		return err
	}
	if err != nil {
		return err
	}
	why, err := apart(tx, func() error {
		n, err := ReadNotes(filepath.Join(b.dir, id))
		if err == nil && n != nil {
			err = n.sound()
		}
		if err != nil || n == nil {
			return err
		}
		return b.rewrite(tx, key, id, n)
	})
	if why != nil {
		b.options.Tell(fmt.Sprintf("session %s: what its notes say is not taken into the logbook: %v", id, why))
	}
	return err
}

// rewrite writes notes into the rows of a session.
func (b *Book) rewrite(tx *sql.Tx, key int64, id string, n *Notes) error {
	began := n.Began.UnixMilli()
	student, err := studentKey(tx, n.Student, began)
	if err != nil {
		return err
	}
	ended := sql.NullInt64{Int64: n.Ended.UnixMilli(), Valid: !n.Ended.IsZero()}
	if _, err := tx.Exec(`UPDATE sessions SET began = ?, ended = ?, station = ?, student = ?, keep = ?, server = ?,
		maneuver = ?, standard = ?, aircraft = ? WHERE key = ?`,
		began, ended, n.Station, student, n.Keep, n.Server, n.Maneuver, n.Standard, n.Aircraft, key); err != nil {
		return err
	}
	for _, q := range []string{`DELETE FROM remarks WHERE session = ?`, `DELETE FROM grades WHERE session = ? AND n > 1`} {
		if _, err := tx.Exec(q, key); err != nil {
			return err
		}
	}
	for i := range n.Remarks {
		if err := insertRemark(tx, key, &n.Remarks[i]); err != nil {
			return err
		}
	}
	return b.restoreRegrades(tx, key, filepath.Join(b.dir, id), n.Regrades)
}

// syncDir makes sure that a file that was moved into place is there after a failure of power too. Not every system
// can: there the file system's own order has to do.
func syncDir(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		_ = d.Close()
	}
}
