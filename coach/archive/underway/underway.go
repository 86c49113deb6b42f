// Package underway makes and keeps the folders of sessions that are being flown: it names them, makes them, records
// into them, repairs what a crash left, and compresses what is complete. It knows nothing of the logbook.
//
// [Folders.Reserve] answers from memory, because the goroutine of a station asks it and must never wait for a disk. The
// folder itself is made by [Folders.Make], which the recorder calls before its first write and the archive before it
// enters the session, whichever comes first.
package underway

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/stream/record"
)

// Folders are the session folders of a data directory. They are safe for concurrent use.
type Folders struct {
	dir string

	making sync.Mutex // held while a folder is made, which waits for the disk

	mu       sync.Mutex // never held while waiting for the disk
	taken    map[string]bool
	reserved map[string]bool // those of taken whose folder is still to be made
}

// mostAlike is how many sessions may begin in one second at stations of the same name.
const mostAlike = 1000

// New returns the session folders in dir. Load must be called before names are reserved.
func New(dir string) *Folders {
	return &Folders{dir: dir, taken: map[string]bool{}, reserved: map[string]bool{}}
}

// Load reads which names are taken on the disk.
func (f *Folders) Load() error {
	ids, err := folder.IDs(f.dir)
	if err != nil {
		return err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, id := range ids {
		f.taken[id] = true
	}
	return nil
}

// Reserve names the folder of a session that began at a time, without making it: the time (UTC), the station, and a
// number where two would be the same. It does not wait for the disk.
func (f *Folders) Reserve(began time.Time, station string) (string, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.claim(folder.Name(began, station))
}

// Claim reserves the name of a session that was named elsewhere, with a number where it is taken here. It does not wait
// for the disk.
func (f *Folders) Claim(id string) (string, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.claim(id)
}

// claim reserves a name, with a number where it is taken. mu is held.
func (f *Folders) claim(base string) (string, error) {
	for n := 1; n < mostAlike; n++ {
		id := base
		if n > 1 {
			id += "_" + strconv.Itoa(n)
		}
		if !f.taken[id] {
			f.taken[id], f.reserved[id] = true, true
			return id, nil
		}
	}
	return "", fmt.Errorf("session %s cannot be kept: there are %d of that name", base, mostAlike)
}

// Taken reports whether there is a session of a name, or one is to be made.
func (f *Folders) Taken(id string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.taken[id]
}

// New names a session as Reserve does, and makes its folder at once.
func (f *Folders) New(began time.Time, station string) (string, error) {
	for {
		id, err := f.Reserve(began, station)
		if err != nil {
			return "", err
		}
		if err = f.make(id); err == nil {
			return id, nil
		}
		if !errors.Is(err, fs.ErrExist) { // otherwise another program made it meanwhile
			f.free(id)
			return "", err
		}
	}
}

// Make makes the folder of a reserved session and marks the session as not over. It does nothing when the folder was
// made before, and can be repeated after an error.
func (f *Folders) Make(id string) error {
	f.making.Lock()
	defer f.making.Unlock()
	if !f.isReserved(id) {
		return nil
	}
	if err := f.make(id); err != nil {
		return err
	}
	if err := record.Mark(f.path(id)); err != nil {
		return errors.Join(fmt.Errorf("session %s cannot be marked as not over: %w", id, err), f.unmake(id))
	}
	return nil
}

// make makes the folder of a reserved session.
func (f *Folders) make(id string) error {
	if err := os.Mkdir(f.path(id), 0o750); err != nil {
		return fmt.Errorf("session %s cannot be kept: %w", id, err)
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	delete(f.reserved, id)
	return nil
}

// unmake removes an empty folder, so that it can be made again.
func (f *Folders) unmake(id string) error {
	if err := os.Remove(f.path(id)); err != nil {
		return err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	f.reserved[id] = true
	return nil
}

func (f *Folders) free(id string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	delete(f.taken, id)
	delete(f.reserved, id)
}

func (f *Folders) isReserved(id string) bool {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.reserved[id]
}

// path is the folder of a session.
func (f *Folders) path(id string) string { return filepath.Join(f.dir, id) }

// Record starts or continues the recording of a session. The folder is made with the first datagram, in the recorder's
// goroutine; where that fails, the recorder reports it and tries again.
func (f *Folders) Record(id string, o record.Options) *record.Recorder {
	create := o.Open
	if create == nil {
		create = record.Create
	}
	o.Open = func(name string) (record.File, error) {
		if err := f.Make(id); err != nil {
			return nil, err
		}
		return create(name)
	}
	return record.Begin(f.path(id), o)
}
