// Package notes is what a node of a cluster notes in its data directory: the sessions that it flies, so that a node
// which is started again knows which of them another one has taken over, and the folders of those that were, moved
// aside.
package notes

import (
	"encoding/json"
	"errors"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"sync"

	"github.com/rs/zerolog"
)

const (
	flownFile = "flown.json"
	asideName = "taken"
	ofFile    = "station"
)

// Folders are the session folders of a node; see underway.Folders.
type Folders interface {
	// Aside moves the folder of a session away.
	Aside(id, to string) error
}

// Notes are those of one node. They are safe for concurrent use.
type Notes struct {
	dir     string
	folders Folders
	log     zerolog.Logger

	mu    sync.Mutex // never held while waiting for the disk
	flown map[string]Flown
	now   uint64 // counts the changes of flown

	files   sync.Mutex // held while what is flown is written
	written uint64     // the change that is written; files guards it
}

// In are the notes in a data directory.
func In(data string, folders Folders, log zerolog.Logger) *Notes {
	n := &Notes{dir: filepath.Join(data, "cluster"), folders: folders, log: log}
	n.flown = n.read()
	return n
}

// A Flown session is one that the node flies.
type Flown struct {
	Station string `json:"station"`
	Session string `json:"session"`
	Fence   uint64 `json:"fence"`
}

// Fly notes what a station flies under its lease; session "" is nothing. It is on the disk when Fly returns. What many
// stations note at once, as when a node has died, is written together.
func (n *Notes) Fly(station, session string, fence uint64) {
	n.note(func() {
		if delete(n.flown, station); session != "" {
			n.flown[station] = Flown{station, session, fence}
		}
	})
}

// Landed notes that stations fly nothing under a lease.
func (n *Notes) Landed(stations []string) {
	n.note(func() {
		for _, station := range stations {
			delete(n.flown, station)
		}
	})
}

// note makes a change of what is flown, and returns once it is written.
func (n *Notes) note(change func()) {
	n.mu.Lock()
	change()
	n.now++
	mine := n.now
	n.mu.Unlock()
	n.files.Lock()
	defer n.files.Unlock()
	if n.written >= mine { // with that of another station
		return
	}
	n.mu.Lock()
	text, err := json.Marshal(n.flown)
	is := n.now
	n.mu.Unlock()
	if err == nil {
		err = n.write(text)
	}
	if err != nil {
		n.log.Warn().Err(err).Msg("which sessions this node flies cannot be noted")
		return
	}
	n.written = is
}

// write writes what is flown; files is held.
func (n *Notes) write(text []byte) error {
	if err := os.MkdirAll(n.dir, 0o750); err != nil {
		return err
	}
	name := filepath.Join(n.dir, flownFile)
	if err := os.WriteFile(name+".new", text, 0o640); err != nil {
		return err
	}
	return os.Rename(name+".new", name)
}

// Flown are the sessions that the node flies, or flew when it ended, by station.
func (n *Notes) Flown() map[string]Flown {
	n.mu.Lock()
	defer n.mu.Unlock()
	return maps.Clone(n.flown)
}

func (n *Notes) read() map[string]Flown {
	all := map[string]Flown{}
	text, err := os.ReadFile(filepath.Join(n.dir, flownFile))
	if err == nil && json.Unmarshal(text, &all) == nil {
		return all
	}
	return map[string]Flown{}
}

// folder is where the folder of a session is, moved aside.
func (n *Notes) folder(session string) string { return filepath.Join(n.dir, asideName, session) }

// Aside moves the folder of a session away that another node goes on with; "" is none.
func (n *Notes) Aside(station, session string) {
	if session == "" {
		return
	}
	if err := n.folders.Aside(session, n.folder(session)); err != nil {
		n.log.Error().Err(err).Str("station", station).Str("session", session).
			Msg("another node goes on with the session, and what this one recorded stays")
		return
	}
	err := os.WriteFile(filepath.Join(n.folder(session), ofFile), []byte(station), 0o640)
	if err != nil && !errors.Is(err, fs.ErrNotExist) { // there was no folder
		n.log.Warn().Err(err).Str("session", session).Msg("the folder that was moved aside stays")
	}
}

// IsAside reports whether the folder of a session is moved aside.
func (n *Notes) IsAside(session string) bool {
	_, err := os.Stat(n.folder(session))
	return err == nil
}

// Remove removes what was moved aside of a session.
func (n *Notes) Remove(session string) {
	if err := os.RemoveAll(n.folder(session)); err != nil {
		n.log.Warn().Err(err).Str("session", session).Msg("the folder that was moved aside stays")
	}
}

// A Left session is one whose folder is moved aside.
type Left struct{ Station, Session, Folder string }

// Left are the sessions whose folders are moved aside.
func (n *Notes) Left() (list []Left) {
	entries, _ := os.ReadDir(filepath.Join(n.dir, asideName)) // there is none
	for _, e := range entries {
		dir := n.folder(e.Name())
		if of, err := os.ReadFile(filepath.Join(dir, ofFile)); err == nil {
			list = append(list, Left{string(of), e.Name(), dir})
		}
	}
	return list
}
