// Package stations keeps the identities of stations. A station is a simulator: it keeps its id when the program or the
// simulator is started again, sends from another port or address, or is given another name. Ids are unique without
// asking anyone, so that stations of several servers can be told apart. They stand in stations.json of the data folder,
// which is written as a whole or not at all.
package stations

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"halfturn/coach/ids"
	"halfturn/coach/names"
)

// File is the name of the file in the data folder.
const File = "stations.json"

// Most is how many stations are kept; of more, those that were seen longest ago are forgotten.
const Most = 4096

// fileVersion is that of the file's form.
const fileVersion = 1

// A Station is what is known of one station.
type Station struct {
	ID     string    `json:"id"`
	Name   string    `json:"name"`   // as people call it, or Sender when nobody gave it a name
	Sender string    `json:"sender"` // where it sent from last: an address, with the port where that was configured
	Seen   time.Time `json:"seen"`   // when its last session began
}

// Unnamed tells whether nobody gave the station a name.
func (s Station) Unnamed() bool { return s.Name == s.Sender }

// A Register holds the stations. It is safe for concurrent use. The zero value is empty and saves nothing. Only Save
// waits for the disk.
type Register struct {
	file string

	mu      sync.Mutex
	list    []entry
	places  map[string]int // in the list, by key: no two stations have the same
	changed bool

	saving sync.Mutex // one writer of the file at a time; taken before mu
}

// An entry is a station with its name as names are compared.
type entry struct {
	Station
	key string
}

// content is what the file holds.
type content struct {
	Version  int       `json:"version"`
	Stations []Station `json:"stations"`
}

// Open reads the stations of a data folder. One that has no file yet has none. A file that cannot be understood is
// kept under another name; the register is then empty, and returned with an error that says so.
func Open(dir string) (*Register, error) {
	r := &Register{file: filepath.Join(dir, File)}
	data, err := os.ReadFile(r.file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return r, nil
	case err != nil:
		return r, fmt.Errorf("the stations cannot be read: %w; they get new ids", err)
	}
	var c content
	if err = json.Unmarshal(data, &c); err == nil {
		err = c.check()
	}
	if err != nil {
		aside := r.file + ".damaged"
		if moved := os.Rename(r.file, aside); moved != nil {
			return r, fmt.Errorf("%s cannot be understood (%w) nor moved aside (%v); stations get new ids",
				r.file, err, moved)
		}
		return r, fmt.Errorf("%s cannot be understood (%w); it is kept as %s, and stations get new ids",
			r.file, err, aside)
	}
	for _, s := range c.Stations {
		r.add(entry{Station: s}, names.Key(s.Name))
	}
	return r, nil
}

// check tells what is wrong with what a file holds.
func (c *content) check() error {
	if c.Version != fileVersion {
		return fmt.Errorf("version is %d; must be %d", c.Version, fileVersion)
	}
	seen := map[string]bool{}
	for i := range c.Stations {
		s := &c.Stations[i]
		s.Name = names.Tidy(s.Name)
		key := "name " + names.Key(s.Name)
		if !ids.Valid(s.ID) || s.Name == "" || seen[s.ID] || seen[key] {
			return fmt.Errorf("station %d of the list has the id %q and the name %q; each needs its own",
				i+1, s.ID, s.Name)
		}
		seen[s.ID], seen[key] = true, true
	}
	return nil
}

// Find returns the station of a name. Otherwise, it is the one that sent from this sender last and that was renamed,
// as the function tells; with nil those were that had no name of their own.
func (r *Register) Find(name, sender string, renamed func(Station) bool) (Station, bool) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if s := r.find(names.Key(name), sender, renamed); s != nil {
		return s.Station, true
	}
	return Station{}, false
}

// Of is Find for a station that is there now: its name and sender are noted, and one that is not known gets an id.
func (r *Register) Of(name, sender string, renamed func(Station) bool, now time.Time) Station {
	r.mu.Lock()
	defer r.mu.Unlock()
	key := names.Key(name)
	s := r.find(key, sender, renamed)
	if s == nil {
		s = r.add(entry{Station: Station{ID: ids.New(now)}}, key)
	} else if s.key != key {
		place := r.places[s.key]
		delete(r.places, s.key)
		s.key, r.places[key] = key, place
	}
	s.Name, s.Sender, s.Seen = name, sender, now.UTC()
	r.changed = true
	return s.Station
}

// Restore enters a station that was known when a recording was made, unless its id or name is known.
func (r *Register) Restore(s Station) {
	r.mu.Lock()
	defer r.mu.Unlock()
	key := names.Key(s.Name)
	known := func(e entry) bool { return e.ID == s.ID || e.key == key }
	if ids.Valid(s.ID) && s.Name != "" && !slices.ContainsFunc(r.list, known) {
		r.add(entry{Station: s}, key)
		r.changed = true
	}
}

// find looks for a station by the key of its name. mu is held.
func (r *Register) find(key, sender string, renamed func(Station) bool) *entry {
	if i, known := r.places[key]; known {
		return &r.list[i]
	}
	var before *entry
	for i := range r.list {
		s := &r.list[i]
		if s.Sender != sender || renamed != nil && !renamed(s.Station) || renamed == nil && !s.Unnamed() {
			continue
		}
		if before == nil || s.Seen.After(before.Seen) {
			before = s
		}
	}
	return before
}

// add puts a station into the list under the key of its name, in the place of the one seen longest ago when there are
// too many. mu is held.
func (r *Register) add(s entry, key string) *entry {
	if s.key = key; r.places == nil {
		r.places = map[string]int{}
	}
	if len(r.list) < Most {
		r.places[key] = len(r.list)
		r.list = append(r.list, s)
		return &r.list[len(r.list)-1]
	}
	oldest := 0
	for i := range r.list {
		if r.list[i].Seen.Before(r.list[oldest].Seen) {
			oldest = i
		}
	}
	delete(r.places, r.list[oldest].key)
	r.places[key] = oldest
	r.list[oldest] = s
	return &r.list[oldest]
}

// List returns the stations by name.
func (r *Register) List() []Station {
	r.mu.Lock()
	defer r.mu.Unlock()
	list := r.stations()
	slices.SortFunc(list, func(a, b Station) int { return strings.Compare(a.Name, b.Name) })
	return list
}

// stations copies the list. mu is held.
func (r *Register) stations() []Station {
	list := make([]Station, len(r.list))
	for i := range r.list {
		list[i] = r.list[i].Station
	}
	return list
}

// Save writes the file when something changed since it was written.
func (r *Register) Save() error {
	r.saving.Lock()
	defer r.saving.Unlock()
	r.mu.Lock()
	if !r.changed || r.file == "" {
		r.mu.Unlock()
		return nil
	}
	r.changed = false
	c := content{Version: fileVersion, Stations: r.stations()}
	r.mu.Unlock()
	err := c.write(r.file)
	if err != nil {
		r.mu.Lock()
		defer r.mu.Unlock()
		r.changed = true
		return fmt.Errorf("the ids of stations cannot be kept: %w", err)
	}
	return nil
}

// write writes a file and puts it into its place once it is whole and on the disk.
func (c *content) write(file string) (err error) {
	data, err := json.MarshalIndent(c, "", "  ")
	if err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(file), ".stations-*")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(append(data, '\n'))
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	return os.Rename(f.Name(), file)
}
