package spool

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/archive/remote"
	"halfturn/stream/record"
)

// A job is a session of which something waits to be stored, or may. Its fields are guarded by Spool.mu, but for those
// of the worker.
type job struct {
	id    string
	parts map[int]*part
	dirty bool // the folder was changed
	over  bool // the session is not flown
	lost  bool // another node has taken the session over
	ours  bool // this node flies the session, or did when it changed it
	news  int  // how often something was announced
	times

	elsewhere bool // it is another node's, which this one follows: nothing waits
	failed    error
	busy      bool // a worker has it
	worker
}

// times say when a job is done.
type times struct {
	packed time.Time // until when it is waited for files to be compressed
	since  time.Time // when the oldest of what waits came
	due    time.Time
	tried  time.Time // when the depot last did not answer about it; zero: it has since
}

// A worker is what whoever does a job knows of it.
type worker struct {
	fence   uint64
	listed  bool  // what the depot has of the recording is known
	asked   bool  // whether the depot was asked
	answers int64 // how often the depot had answered when it did not answer about this session
}

// A part is a file of a recording.
type part struct {
	file     string
	stays    int64 // bytes that are on the disk to stay
	sent     int64 // of these, to the depot
	complete bool
}

// before reports whether a job is done before another.
func (j *job) before(other *job) bool {
	switch {
	case !j.tried.Equal(other.tried):
		return j.tried.Before(other.tried)
	case !j.since.Equal(other.since):
		return j.since.Before(other.since)
	}
	return j.id < other.id
}

// idle reports whether nothing waits.
func (j *job) idle() bool { return j.lost || !j.dirty && j.bytes() == 0 }

// bytes is how much of the recording waits.
func (j *job) bytes() (n int64) {
	for _, p := range j.parts {
		n += max(p.stays-p.sent, 0)
	}
	return n
}

// job returns the job of a session; mu is held.
func (s *Spool) job(id string) *job {
	j := s.jobs[id]
	if j == nil {
		j = &job{id: id, parts: map[int]*part{}}
		s.jobs[id] = j
	}
	return j
}

// wait notes that something of a session waits, and is stored at a time at the latest; mu is held.
func (s *Spool) wait(j *job, now, due time.Time, was bool) {
	j.news++
	if was { // nothing waited
		j.since, j.due = now, due
	} else if due.Before(j.due) {
		j.due = due
	}
	s.stir()
}

// stored takes how much of a file is on the disk to stay.
func (s *Spool) recorded(session, file string, size int64, complete bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	n := record.PartNumber(file)
	if n == 0 {
		return
	}
	j, now := s.job(session), time.Now()
	idle := j.idle()
	p := j.parts[n]
	if p == nil {
		p = &part{}
		j.parts[n] = p
	}
	p.file, p.stays = file, max(p.stays, size)
	due := now.Add(s.opt.Every)
	switch {
	case complete:
		p.complete, j.dirty = true, true
		if s.opt.Compress() {
			j.packed = now.Add(packing)
		}
	case j.bytes() >= s.opt.Piece:
		due = now
	}
	s.wait(j, now, due, idle)
}

// Unsent takes that the folder of a session was changed.
func (s *Spool) Unsent(session string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	j, now := s.job(session), time.Now()
	idle := j.idle()
	j.dirty, j.ours = true, true
	s.wait(j, now, now.Add(soon), idle)
}

// begin takes that a session is flown by this node from now on: it may have been lost before.
func (s *Spool) begin(session string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	j, now := s.job(session), time.Now()
	idle := j.idle()
	j.lost, j.over, j.dirty, j.ours, j.elsewhere = false, false, true, true, false
	s.wait(j, now, now.Add(soon), idle)
}

// ended takes that all of a session is on the disk.
func (s *Spool) ended(session string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	j, now := s.job(session), time.Now()
	idle := j.idle()
	j.over, j.dirty = true, true
	if s.opt.Compress() {
		j.packed = now.Add(packing)
	}
	s.wait(j, now, now.Add(soon), idle)
}

// store stores what waits of a session.
func (s *Spool) store(ctx context.Context, j *job) error {
	dir := filepath.Join(s.book.Dir(), j.id)
	s.mu.Lock()
	news := j.news
	s.mu.Unlock()
	if _, err := os.Stat(dir); err != nil {
		s.drop(j, news) // it is made with the first datagram, was removed, or was left to another node
		return nil
	}
	fence, ok := s.opt.Fence(j.id)
	s.mu.Lock()
	j.elsewhere = !ok && !j.ours
	s.mu.Unlock()
	if !ok { // not held yet, or a copy
		s.later(j, s.opt.Every)
		return nil
	}
	if fence != j.fence { // taken again: what lies under another fence does not count
		j.fence, j.listed = fence, false
	}
	flying := record.Unfinished(dir)
	s.mu.Lock()
	dirty, packing := j.dirty, time.Now().Before(j.packed)
	s.mu.Unlock()
	known := remote.StateOf(dir).Manifest != nil
	if (dirty || !known) && flying {
		if err := s.sendFlying(ctx, j, packing); err != nil {
			return err
		}
		dirty = false
	}
	if flying {
		return s.storePieces(ctx, j)
	}
	if packing && unpackedIn(dir) {
		s.later(j, unpacked)
		return nil
	}
	s.mu.Lock()
	size := j.bytes()
	j.dirty = false // what is changed from now on is stored once more
	s.mu.Unlock()
	j.asked = true
	whole, err := s.book.Send(ctx, j.id, archive.Sending{Fence: fence})
	s.done(j, err != nil, whole)
	if err == nil {
		s.count(size)
	}
	return err
}

// sendFlying stores the folder of a session that is being flown, with the files of the recording that are complete.
func (s *Spool) sendFlying(ctx context.Context, j *job, packing bool) error {
	s.mu.Lock()
	complete := map[int]bool{}
	j.dirty = false
	for n, p := range j.parts {
		complete[n] = p.complete
		if _, err := os.Stat(p.file); p.complete && packing && err == nil {
			j.dirty = true // once more, with what is compressed then
		}
	}
	s.mu.Unlock()
	j.asked = true
	_, err := s.book.Send(ctx, j.id, archive.Sending{Fence: j.fence, Parts: func(name string) bool {
		return complete[record.PartNumber(name)] && (strings.HasSuffix(name, ".zst") || !packing)
	}})
	s.mu.Lock()
	defer s.mu.Unlock()
	if err != nil {
		j.dirty = true
		return err
	}
	if j.dirty {
		j.due = time.Now().Add(unpacked)
	}
	m := remote.StateOf(filepath.Join(s.book.Dir(), j.id)).Manifest
	for n, p := range j.parts {
		if m.Has(record.PartName(n)) {
			s.stored += max(p.stays-p.sent, 0)
			p.sent = p.stays
		}
	}
	return nil
}

// later puts a job off.
func (s *Spool) later(j *job, wait time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	j.due = time.Now().Add(wait)
}

// done notes that the folder of a session was stored, or not.
func (s *Spool) done(j *job, failed, whole bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	j.dirty = j.dirty || failed
	if whole && !failed {
		clear(j.parts)
		j.over = true
	}
}

// drop forgets what waits of a session that had no folder when news announcements had come. One that is made later is
// announced again; where that has happened by now, it waits.
func (s *Spool) drop(j *job, news int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if j.news != news {
		return
	}
	clear(j.parts)
	j.dirty, j.over, j.ours = false, true, false
}

// unpackedIn reports whether a file of a recording is not compressed yet.
func unpackedIn(dir string) bool {
	parts, err := record.Parts(dir)
	return err == nil && slices.ContainsFunc(parts, func(p string) bool { return !strings.HasSuffix(p, ".zst") })
}

// storePieces stores what is on the disk of files that are being written.
func (s *Spool) storePieces(ctx context.Context, j *job) error {
	if !j.listed {
		j.asked = true
		there, err := s.book.Pieces(ctx, j.id, j.fence)
		if err != nil {
			return err
		}
		s.mu.Lock()
		m := remote.StateOf(filepath.Join(s.book.Dir(), j.id)).Manifest
		for n, p := range j.parts {
			if m.Has(record.PartName(n)) {
				p.sent = p.stays
				continue
			}
			p.sent = 0
			for _, piece := range there {
				if piece.Part == n && piece.Offset <= p.sent {
					p.sent = max(p.sent, piece.Offset+piece.Size)
				}
			}
		}
		s.mu.Unlock()
		j.listed = true
	}
	s.mu.Lock()
	numbers := slices.Sorted(maps.Keys(j.parts))
	s.mu.Unlock()
	for _, n := range numbers {
		for {
			s.mu.Lock()
			p := *j.parts[n]
			s.mu.Unlock()
			size := min(p.stays-p.sent, s.opt.Piece)
			if size <= 0 {
				break
			}
			piece := remote.Piece{Part: n, Offset: p.sent, Size: size}
			err := s.storePiece(ctx, j, p.file, piece)
			if errors.Is(err, errShorter) {
				s.renewed(j, n)
				return nil
			}
			if err != nil {
				return err
			}
			s.mu.Lock()
			j.parts[n].sent += size
			s.mu.Unlock()
			s.count(size)
		}
	}
	return nil
}

// errShorter says that a file is shorter than it was: the session was left to another node, and is recorded here from
// its beginning again.
var errShorter = errors.New("the file was made again")

// renewed forgets how long a file was. What is written to it from now on is told.
func (s *Spool) renewed(j *job, n int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	j.listed = false
	j.parts[n].stays, j.parts[n].sent = 0, 0
}

// storePiece stores one piece of a file.
func (s *Spool) storePiece(ctx context.Context, j *job, file string, p remote.Piece) error {
	f, err := os.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return errShorter
	}
	if err != nil {
		return err
	}
	defer f.Close() // it was only read
	data := make([]byte, p.Size)
	if _, err := f.ReadAt(data, p.Offset); errors.Is(err, io.EOF) {
		return errShorter
	} else if err != nil {
		return err
	}
	j.asked = true
	return s.book.StorePiece(ctx, j.id, j.fence, p, data)
}

// count counts bytes that were stored.
func (s *Spool) count(n int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.stored += n
}
