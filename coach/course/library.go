package course

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/cause"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/configs/strict"
	"halfturn/stream/phrase"
)

// Folder is where course cards stand in a source of cards.
const Folder = "courses"

// A Library holds the courses that can be chosen, by cards that are all there.
type Library struct {
	cards   *maneuver.Library
	courses []*Course
	files   map[string]maneuver.Origin // by name
}

// LoadLibrary reads courses/*.toml of each source, by the cards of a library. A course of a later source replaces one
// of the same name. The first wrong one is the error.
func LoadLibrary(cards *maneuver.Library, sources ...fs.FS) (*Library, error) {
	l := &Library{cards: cards, files: map[string]maneuver.Origin{}}
	for _, src := range sources {
		if err := l.load(src); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(l.courses, func(a, b *Course) int { return cmp.Compare(a.Name, b.Name) })
	return l, nil
}

func (l *Library) load(src fs.FS) error {
	at := Folder
	if f, ok := src.(maneuver.Folder); ok {
		at = filepath.Join(f.Path, Folder)
	}
	entries, err := fs.ReadDir(src, Folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("courses cannot be read: %s: %w", at, err)
	}
	for _, e := range entries {
		if e.IsDir() || !strings.HasSuffix(e.Name(), ".toml") {
			continue
		}
		data, err := strict.ReadFS(src, path.Join(Folder, e.Name()))
		if err != nil {
			return fmt.Errorf("courses cannot be read: in %s: %w", at, err)
		}
		if err := l.add(filepath.Join(at, e.Name()), data); err != nil {
			return err
		}
	}
	return nil
}

// add reads one course, whose file must be named like it.
func (l *Library) add(file string, data []byte) error {
	c, err := Load(file, data, l.cards)
	if err != nil {
		return err
	}
	if base := strings.TrimSuffix(filepath.Base(file), ".toml"); base != c.Name {
		return fmt.Errorf("%s: name: is %q; a course is named like its file: %q", file, c.Name, base)
	}
	l.courses = slices.DeleteFunc(l.courses, func(x *Course) bool { return x.Name == c.Name })
	l.courses = append(l.courses, c)
	l.files[c.Name] = maneuver.Origin{File: file, Text: data}
	return nil
}

// Courses lists the courses by name.
func (l *Library) Courses() []*Course { return l.courses }

// Cards are the cards that the courses name.
func (l *Library) Cards() *maneuver.Library { return l.cards }

// Named finds a course. The error lists those there are.
func (l *Library) Named(name string) (*Course, error) {
	names := make([]string, len(l.courses))
	for i, c := range l.courses {
		if c.Name == name {
			return c, nil
		}
		names[i] = c.Name
	}
	return nil, phrase.NoCourse.Error(phrase.Name("name", name), phrase.Words("names", strings.Join(names, ", ")))
}

// Origin returns the text of a course.
func (l *Library) Origin(name string) (maneuver.Origin, bool) {
	o, ok := l.files[name]
	return o, ok
}

// Against builds a course against a weakness: a cause that was found in the legs of a maneuver. The error says that
// there is no such cause or maneuver, or that no check of a leg of the maneuver shows it.
func (l *Library) Against(c *Course, id, flown string) (*Course, error) {
	built := *c
	built.BuiltFrom, built.Cause = "", id
	built.Steps = slices.Clone(c.Steps)
	for i := range built.Steps {
		s := &built.Steps[i]
		s.Maneuver = flown
		card, err := l.cards.Judged(flown, s.Standard)
		if err != nil {
			return nil, err
		}
		s.Form = formOf(s, card)
		if s.Part == "" {
			continue
		}
		s.Part, s.Checks = "", nil
		weight := 0.0
		for _, shows := range cause.Shows(id) {
			if k := legCheck(card, shows); k != nil {
				s.Checks = append(s.Checks, shows)
				weight += k.Weight
			}
		}
		if weight == 0 {
			return nil, phrase.CourseNoWeakness.Error(phrase.Name("cause", id), phrase.Name("maneuver", flown))
		}
	}
	return &built, nil
}

// legCheck finds a check of a card that judges a leg; nil when there is none.
func legCheck(card *maneuver.Card, id string) *check.Spec {
	i := slices.IndexFunc(card.Checks, func(k check.Spec) bool { return k.ID == id })
	if i < 0 || kinds.Of(&card.Checks[i]).OfSeries() {
		return nil
	}
	return &card.Checks[i]
}
