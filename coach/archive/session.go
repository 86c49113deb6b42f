package archive

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/names"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// NewID makes the folder of a session that began at a time and returns its name: the time
// (UTC), the station, and a number where two would be the same.
func (a *Archive) NewID(began time.Time, station string) (string, error) {
	if why := a.Waits(); why != nil {
		return "", why
	}
	base := began.UTC().Format(idTime) + "_" + plain(station)
	for n := 1; n < 1000; n++ {
		id := base
		if n > 1 {
			id += "_" + strconv.Itoa(n)
		}
		err := os.Mkdir(filepath.Join(a.dir, id), 0o750)
		if err == nil {
			return id, nil
		}
		if !errors.Is(err, os.ErrExist) {
			return "", fmt.Errorf("session %s cannot be kept: %w", id, err)
		}
	}
	return "", fmt.Errorf("session %s cannot be kept: a thousand of that name are there", base)
}

// idTime is how the id of a session begins.
const idTime = "2006-01-02T15-04-05Z"

// plain keeps what every file system takes in a name.
func plain(s string) string {
	out := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '.' || r == '-' {
			return r
		}
		return '-'
	}, s)
	out = strings.Trim(out, "-.")
	return strings.TrimRight(out[:min(len(out), 60)], "-.") // some file systems drop a dot at the end
}

// Folder returns the folder of a session by its id.
func (a *Archive) Folder(id string) (string, error) {
	if !IsID(id) {
		return "", &logbook.NotFound{ID: id}
	}
	dir := filepath.Join(a.dir, id)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return "", &logbook.NotFound{ID: id}
	}
	return dir, nil
}

// Recording lists the files of a session's recording in order; none when only grades were kept.
func (a *Archive) Recording(id string) []string {
	if !IsID(id) {
		return nil
	}
	files, err := record.Parts(filepath.Join(a.dir, id))
	if err != nil {
		return nil
	}
	return files
}

// Begin enters a session. Its folder is there, from NewID. Entered again, nothing is lost.
func (a *Archive) Begin(e logbook.Entry) error {
	if e.Version == "" {
		e.Version = a.options.Version
	}
	return a.change(e.ID, change{
		begins: true,
		check: func(b logbook.Book, f *folder) error {
			if err := keepCards(f.dir, e.Cards); err != nil {
				return fmt.Errorf("session %s cannot be kept: %w", e.ID, err)
			}
			return f.begin(b, &e)
		},
		enter: func(b logbook.Book, f *folder) error {
			e.Key, e.Student, e.Began = f.notes.Key, f.standing().Student, f.notes.Began
			return b.Begin(&e)
		},
	})
}

// begin notes that a session begins, or goes on.
func (f *folder) begin(b logbook.Book, e *logbook.Entry) error {
	was := f.notes
	student, err := studentNamed(b, e.Student.Name, e.Began)
	if err != nil {
		return err
	}
	e.Student = student
	f.notes, f.noted = notesFrom(e), true
	f.notes.Ended = time.Time{}
	if was != nil {
		f.notes.Key, f.notes.Cards, f.notes.Regrades, f.notes.acts = was.Key, was.Cards, was.Regrades, was.acts
		if !was.Began.IsZero() && was.Began.Before(f.notes.Began) {
			f.notes.Began = was.Began
		}
		if was.Student != "" {
			f.notes.Student, f.notes.StudentID = was.Student, was.StudentID
		}
	}
	if f.notes.Key == "" {
		f.notes.Key = ids.New(e.Began)
	}
	for i := range e.Cards {
		f.notes.Cards = append(f.notes.Cards, e.Cards[i].Hash())
	}
	slices.Sort(f.notes.Cards)
	f.notes.Cards = slices.Compact(f.notes.Cards)
	return nil
}

// studentNamed finds a student by name, as it was first written, or gives a new one an id.
func studentNamed(b logbook.Book, name string, met time.Time) (logbook.Student, error) {
	name = names.Tidy(name)
	if name == "" {
		return logbook.Student{}, nil
	}
	s, err := b.Student(context.Background(), name)
	if err == nil && s.Name == "" {
		s = logbook.Student{ID: ids.New(met), Name: name}
	}
	return s, err
}

// Keep enters what a session has flown so far: its first grading. Entered again nothing doubles.
func (a *Archive) Keep(id string, r *debrief.Report) error {
	book, err := a.writable()
	if err != nil {
		return err
	}
	return a.lost(book.Keep(id, r))
}

// End notes when a session was over.
func (a *Archive) End(id string, ended time.Time) error {
	return a.change(id, change{
		check: func(_ logbook.Book, f *folder) error {
			f.notes.Ended, f.noted = ended.UTC().Truncate(time.Millisecond), true
			return nil
		},
		enter: func(b logbook.Book, f *folder) error { return b.End(id, ended) },
	})
}

// act makes a change that adds acts.
func (a *Archive) act(id string, check func(b logbook.Book, f *folder) error) error {
	return a.change(id, change{
		check: check,
		enter: func(b logbook.Book, f *folder) error {
			s := f.standing()
			return b.Act(id, &s)
		},
	})
}

// newAct is an act about a session.
func (f *folder) newAct(kind string, by who.Who, at time.Time) logbook.Act {
	return logbook.Act{ID: ids.New(at), Kind: kind, By: by, At: at, About: logbook.About{Session: f.notes.Key}}
}

// SetStudent notes who is flying; "" is nobody named. A name that names.Person does not take is refused.
func (a *Archive) SetStudent(by who.Who, id, name string) error {
	name, err := names.Person(name)
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	return a.act(id, func(b logbook.Book, f *folder) error {
		student, err := studentNamed(b, name, time.Now())
		if err != nil || student.Name == f.standing().Student.Name {
			return err
		}
		act := f.newAct(logbook.ActStudent, by, time.Now().UTC())
		act.Student = &student
		f.add(act)
		return nil
	})
}

// SetKeep marks a session never to be removed by age or size, or takes the mark away.
func (a *Archive) SetKeep(by who.Who, id string, keep bool) error {
	return a.act(id, func(_ logbook.Book, f *folder) error {
		if f.standing().Keep == keep {
			return nil
		}
		act := f.newAct(logbook.ActKeep, by, time.Now().UTC())
		act.Keep = keep
		f.add(act)
		return nil
	})
}

// What a session's remarks may hold.
const (
	MaxWords   = 4000 // letters of one
	MaxRemarks = 500
)

// Remark adds a remark and returns it as kept. Its ID is given here, and its time where it has none. Words and a
// name that package names does not take are refused, and a leg that was not flown.
func (a *Archive) Remark(by who.Who, id string, r logbook.Remark) (logbook.Remark, error) {
	if err := checkRemark(&r); err != nil {
		return r, err
	}
	err := a.act(id, func(b logbook.Book, f *folder) error {
		if err := f.fits(b, &r); err != nil {
			return err
		}
		act := f.newAct(logbook.ActRemark, by, r.At)
		act.Number, act.Author, act.Words, act.About.Moment = r.ID, r.By, r.Words, r.Time
		if r.Leg > 0 {
			act.About.Number, act.About.Leg = r.Leg, logbook.LegID(f.notes.Began, f.notes.Key, r.Leg)
		}
		r.Key = act.ID
		f.add(act)
		return nil
	})
	return r, err
}

// checkRemark puts a remark in order, or says what it lacks.
func checkRemark(r *logbook.Remark) (err error) {
	if r.Words, err = names.Words(r.Words); err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	if r.By, err = names.Person(r.By); err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	switch n := utf8.RuneCountInString(r.Words); {
	case n == 0:
		return &logbook.Refused{Words: "the remark has no words"}
	case n > MaxWords:
		return &logbook.Refused{Words: fmt.Sprintf("the remark is %d letters long; allowed: %d", n, MaxWords)}
	case r.Leg < 0:
		return &logbook.Refused{Words: fmt.Sprintf("leg %d is none: legs count from 1, 0 is the session as a whole",
			r.Leg)}
	case r.Time != nil && !(*r.Time >= 0 && *r.Time < 1e7):
		return &logbook.Refused{Words: fmt.Sprintf(
			"the moment %g is none: it counts in seconds from the beginning of the recording", *r.Time)}
	}
	if r.At.IsZero() {
		r.At = time.Now()
	}
	r.At = r.At.UTC().Truncate(time.Second)
	return nil
}

// fits gives the remark its id, or says why the session does not take it.
func (f *folder) fits(b logbook.Book, r *logbook.Remark) error {
	legs, err := b.Legs(context.Background(), f.id)
	if err != nil {
		return err
	}
	there := f.standing().Remarks
	switch {
	case len(there) >= MaxRemarks:
		return &logbook.Refused{Words: fmt.Sprintf("session %q has %d remarks, as many as are kept with one", f.id,
			len(there))}
	case r.Leg > 0 && legs == 0:
		return &logbook.Refused{Words: fmt.Sprintf("session %q has no legs; a remark on the session as a whole is on "+
			"leg 0", f.id)}
	case r.Leg > legs:
		return &logbook.Refused{Words: fmt.Sprintf("session %q has no leg %d; its last one is leg %d", f.id, r.Leg,
			legs)}
	}
	r.ID = 1
	for i := range there {
		r.ID = max(r.ID, there[i].ID+1)
	}
	return nil
}

// Regrade keeps another grading beside the first, with the cards it was made by and, in words, what differs. It returns
// the file of the grades, also with an error when they are kept all the same.
func (a *Archive) Regrade(by who.Who, id string, g logbook.Grading) (file string, err error) {
	if g.Version == "" {
		g.Version = a.options.Version
	}
	dir, err := a.Folder(id)
	if err != nil {
		return "", err
	}
	err = a.change(id, change{
		check: func(_ logbook.Book, f *folder) error {
			f.notes.Regrades = append(f.notes.Regrades, Regraded{
				At:          g.At.UTC().Truncate(time.Millisecond),
				By:          by,
				Server:      g.Version,
				Maneuver:    g.Maneuver,
				Standard:    g.Standard,
				Aircraft:    g.Aircraft,
				Differences: append([]string{}, g.Differences...),
			})
			f.noted, f.regrade = true, g.Report
			return nil
		},
		enter: func(b logbook.Book, f *folder) error {
			file = f.regradeFile
			return b.Regrade(id, &g)
		},
	})
	var none *logbook.NotFound
	if err == nil {
		return file, nil
	}
	if !errors.As(err, &none) {
		return "", err
	}
	if file, err = saveRegrade(dir, g.Report); err != nil {
		return "", err
	}
	return file, fmt.Errorf("the new grades are kept as %s, but %w; halfturn sessions rebuild takes its folder in",
		file, none)
}

// Discard takes back a session that was begun and shall not be: its entry, if there is one, and its folder.
func (a *Archive) Discard(id string) error {
	if !IsID(id) {
		return &logbook.NotFound{ID: id}
	}
	book, err := a.writable()
	if err == nil {
		err = a.lost(book.Undo(id))
	}
	if failed := os.RemoveAll(filepath.Join(a.dir, id)); failed != nil {
		err = errors.Join(err, fmt.Errorf("the folder of session %s cannot be removed: %w", id, failed))
	}
	return err
}
