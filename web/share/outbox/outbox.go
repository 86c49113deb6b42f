package outbox

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/stream/record"
	"halfturn/web/share/link"
)

// File is the list of the sessions that the school does not have whole, in the data directory.
const File = "share.json"

// listVersion is of the file.
const listVersion = 1

// list is what the file holds.
type list struct {
	Version  int       `json:"version"`
	With     string    `json:"with"`     // the address of the school
	Complete time.Time `json:"complete"` // the school has all that was recorded up to here
	Sessions []string  `json:"sessions"`
	// Sent are the sessions that the school has, the latest: what is added to one of them is sent, too.
	Sent []string `json:"sent"`
}

// mostSent bounds the sessions to which something can be added that still reaches the school.
const mostSent = 1000

// window is how many bytes of a recording may be under way before the school has said that it has them: more would
// only delay what is live.
const window = 256 << 10

// An Outbox is the sessions that are still to be sent, oldest first. It is safe for concurrent use; Next is for one
// goroutine.
type Outbox struct {
	dir  string // of the sessions
	file string

	mu       sync.Mutex
	list     list
	sessions []*parcel
}

// A parcel is one session of an outbox.
type parcel struct {
	id   string
	over bool
	// What is on the disk to stay: the files before a part, and so much of that.
	part int
	size int64
	// The school was once known to have the recording.
	received bool
	changes  int // how often people added something

	// On the present link:
	asked, known, begun bool
	finished            bool  // the school was told that this is all
	to                  place // up to where it was sent
	had                 place // up to where the school has it
	whole               int   // the file of which the school was told that it is complete
	reader              partReader
	failed              bool // something of it cannot be read
	done                bool // the school has the recording
	acts, noted         int  // how many acts were sent, and how many the school has noted
	looked              bool // there were no more acts on the disk
}

// A place in a recording: the files before a part, and so much of that.
type place struct {
	part int
	size int64
}

// before reports whether a place comes before another one.
func (p place) before(o place) bool { return p.part < o.part || p.part == o.part && p.size < o.size }

// Open reads the list. Sessions of another school are left out.
func Open(data, with string, now time.Time) (*Outbox, error) {
	o := &Outbox{dir: folder.Sessions(data), file: filepath.Join(data, File)}
	text, err := os.ReadFile(o.file)
	if err == nil {
		err = json.Unmarshal(text, &o.list)
	}
	if errors.Is(err, fs.ErrNotExist) {
		err = nil
	}
	if err != nil {
		err = fmt.Errorf("the list of what is still to be shared cannot be read, and is begun again: %w", err)
	}
	if err != nil || o.list.With != with || o.list.Version != listVersion {
		o.list = list{With: with, Complete: now}
	}
	o.list.Version = listVersion
	for _, id := range o.list.Sessions {
		if folder.IsID(id) {
			o.sessions = append(o.sessions, &parcel{id: id, received: slices.Contains(o.list.Sent, id)})
		}
	}
	return o, err
}

// Settle looks at the sessions that an earlier run left, once their recordings were repaired: all of their files are
// complete.
func (o *Outbox) Settle() {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, p := range o.sessions {
		if p.part > 0 {
			continue
		}
		dir := filepath.Join(o.dir, p.id)
		p.over, p.part = !record.Unfinished(dir), 1
		if parts, err := record.Parts(dir); err == nil && len(parts) > 0 {
			p.part = record.PartNumber(parts[len(parts)-1]) + 1
		}
	}
}

// update changes a session, if it is one of these.
func (o *Outbox) update(id string, change func(p *parcel)) bool {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, p := range o.sessions {
		if p.id == id {
			change(p)
			return true
		}
	}
	return false
}

// Add adds a session that begins, or goes on.
func (o *Outbox) Add(id string) {
	if o.update(id, func(p *parcel) { p.over = false }) {
		return
	}
	o.mu.Lock()
	defer o.mu.Unlock()
	o.sessions = append(o.sessions, &parcel{id: id, part: 1})
}

// Stored notes how much of a file is on the disk.
func (o *Outbox) Stored(id string, part int, size int64) {
	o.update(id, func(p *parcel) { p.part, p.size = part, size })
}

// Over notes that a session is complete on the disk.
func (o *Outbox) Over(id string) {
	o.update(id, func(p *parcel) { p.over, p.part, p.size = true, math.MaxInt32, 0 })
}

// remove forgets a session.
func (o *Outbox) remove(id string) {
	o.mu.Lock()
	defer o.mu.Unlock()
	o.sessions = slices.DeleteFunc(o.sessions, func(p *parcel) bool { return p.id == id })
}

// Connect forgets what was sent on the link before.
func (o *Outbox) Connect() {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, p := range o.sessions {
		p.reader.close()
		*p = parcel{id: p.id, over: p.over, part: p.part, size: p.size, received: p.received, changes: p.changes}
	}
}

// Have takes what the school says of a session.
func (o *Outbox) Have(h *link.Have) {
	deleted := false // at the school: it does not come again
	o.update(h.Session, func(p *parcel) {
		if h.Done {
			p.known, p.done, p.received = true, true, true
			p.had = place{part: math.MaxInt32}
			return
		}
		deleted = p.received && !h.Known
		if p.known = h.Known; h.Rewind {
			p.begun = false
		}
		at := place{max(h.Part, 1), max(h.Size, 0)}
		p.had = at
		if h.Rewind || p.to.before(at) {
			p.to, p.whole, p.finished = at, 0, false
		}
	})
	if deleted {
		o.remove(h.Session)
	}
}

// Note notes the time when the school has all that is on the disk to stay.
func (o *Outbox) Note(now time.Time) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, p := range o.sessions {
		if !p.received && p.had.before(place{p.part, p.size}) {
			return
		}
	}
	o.list.Complete = now
}

// Save writes the list, if it changed.
func (o *Outbox) Save() error {
	o.mu.Lock()
	ids := make([]string, len(o.sessions))
	for i, p := range o.sessions {
		ids[i] = p.id
	}
	if slices.Equal(ids, o.list.Sessions) && (len(ids) > 0 || o.list.Sessions != nil) {
		o.mu.Unlock()
		return nil
	}
	o.list.Sessions = ids
	text, err := json.MarshalIndent(&o.list, "", "  ")
	o.mu.Unlock()
	if err == nil {
		err = disk.WriteWhole(o.file, append(text, '\n'))
	}
	if err != nil {
		o.mu.Lock()
		o.list.Sessions = nil // it is tried again
		o.mu.Unlock()
		return fmt.Errorf("the list of what is still to be shared cannot be written: %w", err)
	}
	return nil
}

// soon is how long the back lane is behind in any case, s: the recorder writes every second.
const soon = 3.0

// Behind says of how many seconds the school does not have the recording, and how many bytes those are.
func (o *Outbox) Behind(now time.Time) (seconds float64, bytes int64) {
	o.mu.Lock()
	defer o.mu.Unlock()
	for _, p := range o.sessions {
		bytes += o.remaining(p)
	}
	if bytes == 0 {
		o.list.Complete = now
	}
	if seconds = now.Sub(o.list.Complete).Seconds(); seconds < soon {
		seconds = 0
	}
	return seconds, bytes
}

// remaining is how much of a session the school does not have, bytes on the disk. mu is held.
func (o *Outbox) remaining(p *parcel) (n int64) {
	if p.received {
		return 0
	}
	at := p.had
	at.part = max(at.part, 1)
	if p.part == at.part {
		return max(0, p.size-at.size)
	}
	parts, _ := record.Parts(filepath.Join(o.dir, p.id)) // of a folder that is not there nothing remains
	for _, name := range parts {
		number := record.PartNumber(name)
		if number < at.part || number > p.part {
			continue
		}
		if number == p.part {
			n += p.size
			continue
		}
		if info, err := os.Stat(name); err == nil {
			n += info.Size()
		}
		if number == at.part {
			n -= at.size
		}
	}
	return max(0, n)
}
