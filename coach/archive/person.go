package archive

import (
	"archive/zip"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/people"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// A Person is what is stored about somebody.
type Person struct {
	Version  int      `json:"version"`
	Name     string   `json:"name"`
	ID       string   `json:"id,omitempty"` // as a student
	Sessions []string `json:"sessions"`     // flown by them, oldest first
	Named    []string `json:"named"`        // sessions of others in which they are named

	Course *logbook.CourseChoice `json:"course,omitempty"` // that was chosen for them; nil is none
}

// Person finds out what is stored about somebody: the sessions that they flew, and those of others in which they are
// named. The error is a [*logbook.Refused] when nothing is.
func (a *Archive) Person(ctx context.Context, name string) (*Person, error) {
	student, err := a.Student(ctx, name)
	if err != nil {
		return nil, err
	}
	p := &Person{Version: 1, Name: names.Tidy(name), ID: student.ID, Sessions: []string{}, Named: []string{}}
	if student.Name != "" {
		p.Name = student.Name
		list, err := logbook.ListAll(ctx, a, logbook.Filter{Student: student.Name}, 0)
		if err != nil {
			return nil, err
		}
		for i := len(list.Sessions) - 1; i >= 0; i-- {
			p.Sessions = append(p.Sessions, list.Sessions[i].ID)
		}
	}
	switch c, err := a.CourseOf(ctx, p.Name); {
	case err != nil:
		return nil, err
	case c.Course != "":
		p.Course = &c
	}
	all, err := a.sessions(ctx)
	if err != nil {
		return nil, err
	}
	for _, id := range all {
		if slices.Contains(p.Sessions, id) {
			continue
		}
		if err := errors.Join(ctx.Err(), a.bring(id, true)); err != nil {
			return nil, err
		}
		holding, _, err := folder.Holding(a.path(id), p.Name)
		if err != nil {
			return nil, err
		}
		if len(holding) > 0 {
			p.Named = append(p.Named, id)
		}
	}
	if p.Name == "" || student.Name == "" && len(p.Named) == 0 && p.Course == nil {
		return nil, logbook.Refuse(phrase.StudentUnknown.Of(phrase.Name("student", name)))
	}
	return p, nil
}

// unended lists the sessions that somebody flew and that have no end: nobody flies them any more. Where nodes share the
// sessions one of them may fly there, and it is an error.
func (a *Archive) unended(ctx context.Context, p *Person) (ids []string, err error) {
	for _, id := range p.Sessions {
		d, err := a.Session(ctx, id)
		if err != nil {
			return nil, err
		}
		if d.Ended != "" {
			continue
		}
		if a.shared != nil {
			if _, held, _ := a.shared.holds(id); !held {
				return nil, fmt.Errorf("session %s is not over yet, or the node that flew it has not entered it: "+
					"try again once it has ended", id)
			}
		}
		ids = append(ids, id)
	}
	return ids, nil
}

// ExportPerson writes everything that is stored about somebody as one zip: whole sessions that they flew, of those of
// others the acts in which they are named, and what the list of people holds of them, nil for nothing.
func (a *Archive) ExportPerson(ctx context.Context, w io.Writer, p *Person, held *people.Held) error {
	if _, err := a.unended(ctx, p); err != nil {
		return err
	}
	z := zip.NewWriter(w)
	err := zipJSON(z, "person.json", p)
	if err == nil && held != nil {
		err = zipJSON(z, "people.json", held)
	}
	for _, id := range p.Sessions {
		if err == nil {
			err = a.zipSession(ctx, z, id)
		}
	}
	for _, id := range p.Named {
		if err == nil {
			err = a.zipNamed(z, id, p.Name)
		}
	}
	return errors.Join(err, z.Close())
}

// zipJSON puts a value into a zip.
func zipJSON(z *zip.Writer, name string, v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	return zipped(z, name, append(text, '\n'))
}

// zipSession puts the folder of a session into a zip, with what the logbook answers about it.
func (a *Archive) zipSession(ctx context.Context, z *zip.Writer, id string) error {
	d, err := a.Session(ctx, id)
	if err != nil {
		return err
	}
	if err := zipJSON(z, "sessions/"+id+"/logbook.json", d); err != nil {
		return err
	}
	dir, err := a.brought(id, true)
	if err != nil {
		return err
	}
	return filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || ctx.Err() != nil || strings.HasPrefix(e.Name(), ".") {
			return errors.Join(err, ctx.Err())
		}
		in, err := os.Open(path)
		if err != nil {
			return err
		}
		defer in.Close()
		rel, err := filepath.Rel(filepath.Dir(dir), path)
		if err != nil {
			return err
		}
		out, err := z.Create("sessions/" + filepath.ToSlash(rel))
		if err == nil {
			_, err = io.Copy(out, in)
		}
		return err
	})
}

// zipNamed puts the acts of another's session into a zip in which somebody is named.
func (a *Archive) zipNamed(z *zip.Writer, id, name string) error {
	data, err := os.ReadFile(filepath.Join(a.path(id), folder.ActsFile))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	var lines []string
	for line := range strings.Lines(string(data)) {
		if len(names.Spelled([]byte(line), name)) > 0 {
			lines = append(lines, line)
		}
	}
	return zipped(z, "named/"+id+"/"+folder.ActsFile, []byte(strings.Join(lines, "")))
}

func zipped(z *zip.Writer, name string, data []byte) error {
	w, err := z.Create(name)
	if err == nil {
		_, err = w.Write(data)
	}
	return err
}

// A Forgotten says what was deleted.
type Forgotten struct {
	Person

	Left    []string `json:"left"`    // files that still hold the name: of no session, or damaged
	Damaged []string `json:"damaged"` // what cannot be read, where and why: the name may stand there
}

// ForgetPerson deletes what is stored about somebody: the sessions that they flew, also those that are protected, and
// their name in the sessions of others, in signatures, in the logbook and in what is remembered of stations. A
// signature says that a name was removed, and still holds. The caller owns the data directory: nothing is being flown.
// Where nodes share the sessions they may go on; while one of them flies with that person nothing is deleted.
func (a *Archive) ForgetPerson(ctx context.Context, by who.Who, name string) (*Forgotten, error) {
	p, err := a.Person(ctx, name)
	if err != nil {
		return nil, err
	}
	left, err := a.unended(ctx, p)
	if err != nil {
		return nil, err
	}
	for _, id := range left {
		if err := a.End(id, time.Now()); err != nil { // nobody flies it any more
			return nil, err
		}
	}
	book, err := a.writable()
	if err != nil {
		return nil, err
	}
	for _, id := range p.Sessions {
		if err := a.erase(book, id); err != nil {
			return nil, err
		}
	}
	others, err := a.Students(ctx, 0)
	if err != nil {
		return nil, err
	}
	others = slices.DeleteFunc(others, func(o string) bool { return names.Key(o) == names.Key(p.Name) })
	f := &Forgotten{Person: *p, Left: []string{}, Damaged: []string{}}
	for _, id := range p.Named {
		damaged, err := a.removeName(book, id, p.Name, others)
		for _, why := range damaged {
			f.Damaged = append(f.Damaged, a.path(id)+string(filepath.Separator)+why.Error())
		}
		if err != nil {
			return nil, err
		}
	}
	if err := a.lost(book.ForgetStudent(p.Name)); err != nil {
		return nil, err
	}
	left, damaged, err := folder.Holding(a.data, p.Name)
	f.Left = append(f.Left, left...)
	for _, why := range damaged {
		if words := why.Error(); !slices.Contains(f.Damaged, words) {
			f.Damaged = append(f.Damaged, words)
		}
	}
	a.options.Log(fmt.Sprintf("a person was forgotten: %d sessions deleted", len(p.Sessions)), by, "")
	return f, err
}

// erase deletes a session for good, also one that is protected.
func (a *Archive) erase(book logbook.Book, id string) error {
	unlock, err := a.lockEverywhere(book, id)
	if err != nil {
		return err
	}
	defer unlock()
	lock, err := a.lock()
	if err != nil {
		return err
	}
	defer lock.Close()
	from, to := a.own(id), filepath.Join(a.dir, goneMark+id)
	if err := a.shared.remove(id); err != nil {
		return err
	}
	if err := errors.Join(os.RemoveAll(to), os.Rename(from, to)); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the folder of session %s cannot be removed: %w", id, err)
	}
	if err := a.lost(book.Forget(id)); err != nil {
		return err
	}
	return errors.Join(os.RemoveAll(to), a.shared.dropCopy(id))
}

// removeName takes a name out of the session of somebody else, and enters it as it stands then. damaged says what of it
// cannot be read.
func (a *Archive) removeName(book logbook.Book, id, name string, others []string) (damaged []error, err error) {
	if a.shared != nil {
		return a.removeNameShared(book, id, name, others)
	}
	return a.removeNameHere(book, id, name, others, func() error { return nil })
}

// removeNameHere takes a name out of the folder as it is here, and has it stored.
func (a *Archive) removeNameHere(
	book logbook.Book, id, name string, others []string, store func() error,
) (damaged []error, err error) {
	lock, err := a.lock()
	if err != nil {
		return nil, err
	}
	defer lock.Close()
	if damaged, err = folder.RemoveName(a.path(id), name, others); err != nil {
		return damaged, fmt.Errorf("session %s: the name cannot be removed: %w", id, err)
	}
	if err := store(); err != nil {
		return damaged, err
	}
	if s := a.reader().Stored(a.path(id), false); s.Why != nil {
		// The logbook would go on with what it took when the folder could be read, and with the name in it.
		if err := a.lost(book.Forget(id)); err != nil {
			return damaged, err
		}
	}
	return damaged, a.healOne(book, id)
}
