package maneuver

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"halfturn/coach/aircraft"
	"halfturn/configs/strict"
	"halfturn/stream/phrase"
)

// A Library holds all cards that can be chosen.
type Library struct {
	cards     []*Card
	standards []*Standard
	aircraft  []*aircraft.Aircraft
	standard  string            // judged by where no other is named
	files     map[string]Origin // by kind and name
}

// Origin is where a card was read from, and its text.
type Origin struct {
	File string
	Text []byte
}

// A Folder is a source of cards whose errors name its path.
type Folder struct {
	fs.FS
	Path string
}

// LoadLibrary reads maneuvers/*.toml, standards/*.toml and aircraft/*.toml of each source. A card
// of a later source replaces one of the same name. The first wrong card is the error.
func LoadLibrary(sources ...fs.FS) (*Library, error) {
	l := &Library{files: map[string]Origin{}}
	for _, src := range sources {
		for _, kind := range []string{"maneuvers", "standards", "aircraft"} {
			if err := l.load(src, kind); err != nil {
				return nil, err
			}
		}
	}
	l.sort()
	for _, s := range l.standards {
		for _, c := range l.cards {
			if _, err := s.Apply(c); err != nil {
				return nil, fmt.Errorf("%s: %w", l.files["standards/"+s.Name].File, err)
			}
		}
	}
	return l, nil
}

func (l *Library) load(src fs.FS, kind string) error {
	at := kind
	if f, ok := src.(Folder); ok {
		at = filepath.Join(f.Path, kind)
	}
	entries, err := fs.ReadDir(src, kind)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("cards cannot be read: %s: %w", at, err)
	}
	for _, e := range entries {
		if e.IsDir() || !strings.HasSuffix(e.Name(), ".toml") {
			continue
		}
		data, err := strict.ReadFS(src, path.Join(kind, e.Name()))
		if err != nil {
			return fmt.Errorf("cards cannot be read: in %s: %w", at, err)
		}
		if err := l.Add(filepath.Join(at, e.Name()), data); err != nil {
			return err
		}
	}
	return nil
}

// Add reads one card. The folder in the file's path is its kind, and the file must be named like the card.
func (l *Library) Add(file string, data []byte) error {
	name, err := l.AddAs(filepath.Base(filepath.Dir(file)), file, data)
	if err != nil {
		return err
	}
	if base := strings.TrimSuffix(filepath.Base(file), ".toml"); base != name {
		return fmt.Errorf("%s: name: is %q; a card is named like its file: %q", file, name, base)
	}
	return nil
}

// AddAs reads one card of a kind, "maneuvers", "standards" or "aircraft", and returns its name.
func (l *Library) AddAs(kind, file string, data []byte) (name string, err error) {
	switch kind {
	case "aircraft":
		a, err := aircraft.Load(file, data)
		if err != nil {
			return "", err
		}
		name = a.Name
		l.aircraft = replace(l.aircraft, a, func(x *aircraft.Aircraft) bool { return x.Name == name })
	case "standards":
		s, err := LoadStandard(file, data)
		if err != nil {
			return "", err
		}
		name = s.Name
		l.standards = replace(l.standards, s, func(x *Standard) bool { return x.Name == name })
	default:
		c, err := LoadCard(file, data)
		if err != nil {
			return "", err
		}
		name = c.Name
		l.cards = replace(l.cards, c, func(x *Card) bool { return x.Name == name })
	}
	l.files[kind+"/"+name] = Origin{file, data}
	return name, nil
}

func replace[T any](list []T, x T, same func(T) bool) []T {
	if i := slices.IndexFunc(list, same); i >= 0 {
		list[i] = x
		return list
	}
	return append(list, x)
}

// With returns a library that holds one more card of a kind, as AddAs reads it; this one is not changed.
func (l *Library) With(kind, file string, data []byte) (*Library, error) {
	more := *l
	more.cards, more.standards = slices.Clone(l.cards), slices.Clone(l.standards)
	more.aircraft, more.files = slices.Clone(l.aircraft), maps.Clone(l.files)
	if _, err := more.AddAs(kind, file, data); err != nil {
		return nil, err
	}
	more.sort()
	return &more, nil
}

// sort puts the cards in their order.
func (l *Library) sort() {
	slices.SortFunc(l.cards, func(a, b *Card) int { return cmp.Compare(a.Name, b.Name) })
	slices.SortFunc(l.standards, func(a, b *Standard) int { return cmp.Compare(b.Widen, a.Widen) })
	slices.SortFunc(l.aircraft, func(a, b *aircraft.Aircraft) int { return cmp.Compare(a.Name, b.Name) })
}

// Cards lists the maneuver cards by name.
func (l *Library) Cards() []*Card { return l.cards }

// Aircraft lists the aircraft cards by name.
func (l *Library) Aircraft() []*aircraft.Aircraft { return l.aircraft }

// JudgeBy sets the standard that cards are judged by where no other is named. The error lists those there are.
func (l *Library) JudgeBy(standard string) error {
	_, err := l.standardNamed(standard)
	if err == nil {
		l.standard = standard
	}
	return err
}

// Card finds a maneuver card, judged by the library's standard. The error lists those there are.
func (l *Library) Card(name string) (*Card, error) { return l.Judged(name, l.standard) }

func (l *Library) asWritten(name string) (*Card, error) {
	names := make([]string, len(l.cards))
	for i, c := range l.cards {
		if c.Name == name {
			return c, nil
		}
		names[i] = c.Name
	}
	return nil, phrase.NoManeuver.Error(phrase.Name("name", name), phrase.Words("names", strings.Join(names, ", ")))
}

// Distinct lists the maneuver cards that are neither variants nor building blocks of another: those auto chooses among.
// A block that was meant looks like a whole that was given up; which it is, only the choice says.
func (l *Library) Distinct() []*Card {
	return slices.DeleteFunc(slices.Clone(l.cards), func(c *Card) bool { return c.Variant != "" || c.Block != "" })
}

// Standards lists the standard cards, the widest first.
func (l *Library) Standards() []*Standard { return l.standards }

// Judged returns a maneuver card as a standard judges it; "" is the library's own standard. The
// error lists the names there are.
func (l *Library) Judged(name, standard string) (*Card, error) {
	card, err := l.asWritten(name)
	if standard == "" {
		standard = l.standard
	}
	if err != nil || standard == "" {
		return card, err
	}
	s, err := l.standardNamed(standard)
	if err != nil {
		return nil, err
	}
	return s.Apply(card)
}

func (l *Library) standardNamed(name string) (*Standard, error) {
	names := make([]string, len(l.standards))
	for i, s := range l.standards {
		if s.Name == name {
			return s, nil
		}
		names[i] = s.Name
	}
	return nil, phrase.NoStandard.Error(phrase.Name("name", name), phrase.Words("names", strings.Join(names, ", ")))
}

// AircraftNamed finds an aircraft card; nil for the name "". The error lists those there are.
func (l *Library) AircraftNamed(name string) (*aircraft.Aircraft, error) {
	if name == "" {
		return nil, nil
	}
	names := make([]string, len(l.aircraft))
	for i, a := range l.aircraft {
		if a.Name == name {
			return a, nil
		}
		names[i] = a.Name
	}
	return nil, phrase.NoAircraft.Error(phrase.Name("name", name), phrase.Words("names", strings.Join(names, ", ")))
}

// Origin returns the text of a card: kind "maneuvers", "standards" or "aircraft".
func (l *Library) Origin(kind, name string) (Origin, bool) {
	o, ok := l.files[kind+"/"+name]
	return o, ok
}
