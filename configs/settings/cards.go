package settings

import (
	"fmt"
	"io/fs"
	"maps"
	"os"
	"strings"

	"halfturn/coach"
	"halfturn/coach/course"
	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/configs/tomlfile"
)

// Library reads the cards: the shipped ones, then those that were measured, then those of the user's folders. A
// maneuver or aircraft given as a file is read too, and replaced by its name in the configuration.
func (c *Config) Library() (*maneuver.Library, error) {
	sources, err := c.cardSources()
	if err != nil {
		return nil, err
	}
	lib, err := maneuver.LoadLibrary(sources...)
	if err != nil {
		return nil, err
	}
	if err := c.CardFile(lib, "maneuvers", "maneuver", &c.Maneuver); err != nil {
		return nil, err
	}
	if err := c.CardFile(lib, "aircraft", "aircraft", &c.Aircraft); err != nil {
		return nil, err
	}
	if err := lib.JudgeBy(c.Standard); err != nil {
		return nil, Error{c.Blame("standard", err)}
	}
	return lib, nil
}

// Courses reads the courses, from the same places as the cards that they name.
func (c *Config) Courses() (*course.Library, error) {
	lib, err := c.Library()
	if err != nil {
		return nil, err
	}
	sources, err := c.cardSources()
	if err != nil {
		return nil, err
	}
	return course.LoadLibrary(lib, sources...)
}

// cardSources are the places of cards, in the order in which they are read.
func (c *Config) cardSources() ([]fs.FS, error) {
	sources := []fs.FS{configs.FS}
	if own := c.OwnCards(); isDir(own) {
		sources = append(sources, maneuver.Folder{FS: os.DirFS(own), Path: own})
	}
	for i, dir := range c.Cards {
		info, err := os.Stat(dir)
		if err == nil && !info.IsDir() {
			err = fmt.Errorf("%q is not a folder", dir)
		}
		if err != nil {
			err = fmt.Errorf("the folder of cards cannot be read: %w", err)
			return nil, Error{c.Blame(element("cards", i), err)}
		}
		sources = append(sources, maneuver.Folder{FS: os.DirFS(dir), Path: dir})
	}
	return sources, nil
}

// CardFile adds the card of a file to the library and replaces the file's name in card by the card's. A name that
// is not that of a file stays. key is the setting that names the file, "" for an argument of a command.
func (c *Config) CardFile(lib *maneuver.Library, kind, key string, card *string) error {
	file := *card
	if !strings.HasSuffix(file, ".toml") {
		file = c.files[[2]string{kind, *card}]
		if _, there := lib.Origin(kind, *card); there || file == "" {
			return nil
		}
	}
	data, err := tomlfile.Read(file)
	if err != nil {
		return Error{c.Blame(key, fmt.Errorf("the card cannot be read: %w", err))}
	}
	name, err := lib.AddAs(kind, file, data)
	if err != nil {
		return err
	}
	if name == *card {
		return nil
	}
	*card = name
	c.files = maps.Clone(c.files)
	if c.files == nil {
		c.files = map[[2]string]string{}
	}
	c.files[[2]string{kind, name}] = file
	return nil
}

// CheckChosen checks that there are cards with the names chosen, for all stations and for each one configured.
func (c *Config) CheckChosen(lib *maneuver.Library) error {
	check := func(at, card, aircraft string) error {
		if _, err := lib.Card(card); err != nil && card != coach.AutoManeuver {
			err = fmt.Errorf("%w, and %s: found from what was flown", err, coach.AutoManeuver)
			return Error{c.Blame(at+"maneuver", err)}
		}
		if _, err := lib.AircraftNamed(aircraft); err != nil {
			return Error{c.Blame(at+"aircraft", err)}
		}
		return nil
	}
	if err := check("", c.Maneuver, c.Aircraft); err != nil {
		return err
	}
	for i := range c.Stations {
		card, aircraft := c.Maneuver, c.Aircraft
		override(&card, c.Stations[i].Maneuver)
		override(&aircraft, c.Stations[i].Aircraft)
		if err := check(element("station", i)+".", card, aircraft); err != nil {
			return err
		}
	}
	return nil
}

func override[T any](to, value *T) {
	if value != nil {
		*to = *value
	}
}
