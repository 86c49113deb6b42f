package record

import (
	"errors"
	"io"
	"net/netip"
	"os"
	"path/filepath"
	"sync/atomic"
	"time"

	"halfturn/stream/capture"
	"halfturn/stream/phrase"
)

// A Recorder records one session. Add and Close are for one goroutine at a time.
type Recorder struct {
	dir     string
	opt     Options
	queue   *queue
	dropped atomic.Uint64 // datagrams that did not fit into the queue
	missed  atomic.Uint64 // datagrams that could not be written
	status  atomic.Pointer[Status]
	carried []string // comments of datagrams that were dropped
	last    []string // comments at the end; set before the queue is closed
	done    chan struct{}

	// Of the goroutine:
	file     File
	name     string
	out      *capture.Writer
	size     counter
	good     int64         // bytes that were flushed
	stays    int64         // of these that survive a power failure
	loose    uint64        // datagrams in the others
	counted  uint64        // of them that are counted as written
	pending  time.Duration // since the oldest of them was flushed, by the flushes
	head     int64         // of these before the first datagram
	held     uint64
	since    time.Time // when the first datagram not yet on the disk was received
	told     uint64    // lost so far, as written into the recording
	comments []string  // that could not be written yet
	part     int
}

// Begin starts recording into a folder. The first file is made with the first datagram; its number follows those of the
// files that are there.
func Begin(dir string, o Options) *Recorder {
	o.fill()
	r := &Recorder{dir: dir, opt: o, queue: newQueue(o.Every), done: make(chan struct{})}
	r.status.Store(&Status{State: On})
	o.Totals.begin(r)
	go r.run()
	return r
}

// Add records a datagram. It never blocks; b is copied.
func (r *Recorder) Add(b []byte, source, receiver netip.AddrPort, received time.Time, comments ...string) {
	comments = append(r.carried, comments...)
	if !r.queue.put(b, item{source: source, receiver: receiver, received: received, comments: comments}) {
		r.drop(comments)
		return
	}
	r.carried = nil
}

// mostCarried bounds the comments that wait for the datagram they are attached to.
const mostCarried = 256

func (r *Recorder) drop(comments []string) {
	r.dropped.Add(1)
	r.carried = comments[max(0, len(comments)-mostCarried):]
}

// Flush asks for what was added so far to be written to the disk now. It does not wait.
func (r *Recorder) Flush() { r.queue.ask(ending{flush: true}) }

// Waiting returns how many datagrams wait to be written.
func (r *Recorder) Waiting() int { return int(r.queue.count.Load()) }

// Status returns the state of the recording.
func (r *Recorder) Status() Status {
	s := *r.status.Load()
	s.Lost = r.missed.Load() + r.dropped.Load()
	return s
}

// Close records what waits, and comments that belong to no datagram, and returns when the last file is closed. An error
// means that the end of the recording is not on the disk.
func (r *Recorder) Close(comments ...string) error {
	r.last = append(r.carried, comments...)
	r.queue.ask(ending{closed: true})
	<-r.done
	r.opt.Totals.end(r)
	if s := r.Status(); s.State == Failing {
		return errors.New(s.Words.String())
	}
	return nil
}

func (r *Recorder) run() {
	defer close(r.done)
	ticker := time.NewTicker(r.opt.Every)
	defer ticker.Stop()
	retry := true // to open a file; after a failure at most once per tick
	for {
		tick := false
		select {
		case <-r.queue.wake:
		case <-ticker.C:
			tick, retry = true, true
		}
		b, end := r.queue.take()
		for it, payload := range b.all() {
			if r.file == nil && !retry && r.status.Load().State == Failing {
				r.miss(it)
			} else {
				r.take(it, payload)
				retry = r.status.Load().State != Failing || r.file != nil
			}
			r.queue.wrote(payload)
		}
		b.spare()
		if end.closed {
			r.finish()
			return
		}
		if tick || end.flush {
			r.flush()
		}
		if end.flush {
			r.sync()
		}
	}
}

// take writes one datagram.
func (r *Recorder) take(it *item, payload []byte) {
	if r.file == nil {
		if err := r.open(); err != nil {
			r.miss(it)
			r.fail(err)
			return
		}
	}
	comments := append(r.comments, it.comments...)
	if lost := r.missed.Load() + r.dropped.Load(); lost > r.told && r.opt.Lost != nil {
		comments = append(comments, r.opt.Lost(lost-r.told))
		r.told = lost
	}
	d := capture.Datagram{
		Received:    it.received,
		Source:      it.source,
		Destination: it.receiver,
		Payload:     payload,
		Comments:    comments,
	}
	r.held++
	if err := r.out.Write(&d); err != nil {
		r.comments = comments
		r.fail(err)
		return
	}
	r.comments = nil
	if r.since.IsZero() {
		r.since = it.received
	}
	// By the clock of the datagrams too: a stream replayed faster than it was flown is flushed as often.
	if past := it.received.Sub(r.since); past >= r.opt.Every || past < 0 {
		r.flush()
	}
	if r.size.n >= r.opt.Rotate && r.file != nil {
		r.shut(nil)
	}
}

// miss counts a datagram that cannot be recorded and keeps its comments.
func (r *Recorder) miss(it *item) {
	r.missed.Add(1)
	r.comments = append(r.comments, it.comments...)
	r.comments = r.comments[max(0, len(r.comments)-mostCarried):]
}

// open begins the next file.
func (r *Recorder) open() error {
	if r.part == 0 {
		r.part = lastPart(r.dir)
	}
	name := filepath.Join(r.dir, PartName(r.part+1))
	f, err := r.opt.Open(name)
	if err != nil {
		return err
	}
	r.size = counter{w: f}
	out, err := capture.NewWriter(&r.size, r.opt.Program, r.opt.Station, r.opt.Section(r.part+1))
	if err == nil {
		err = out.Flush()
	}
	if err == nil {
		err = f.Sync()
	}
	if err != nil {
		_ = f.Close() // it is empty; if it cannot be removed, the next file gets another name
		if os.Remove(name) != nil {
			r.part++
		}
		return err
	}
	r.part++
	r.file, r.name, r.out, r.good, r.head, r.since = f, name, out, r.size.n, r.size.n, time.Time{}
	r.stays, r.loose, r.counted, r.pending = r.good, 0, 0, 0
	return nil
}

// flush writes to the file what is buffered, so that it survives the end of the program. Many stations at once would
// have a disk do nothing else than survive power failures: that is done less often.
func (r *Recorder) flush() {
	if r.file == nil || r.held == 0 {
		return
	}
	if err := r.out.Flush(); err != nil {
		r.fail(err)
		return
	}
	fresh := r.held
	r.loose += fresh
	r.good, r.held, r.since = r.size.n, 0, time.Time{}
	// After a failure it is not said that all is well before the disk says so.
	due := r.status.Load().State == Failing
	if r.pending += r.opt.Every; (due || r.pending >= r.opt.Sync) && !r.sync() {
		return
	}
	r.counted = r.loose
	s := *r.status.Load()
	was := s.State
	s.State, s.Words = On, phrase.Phrase{}
	s.Written += fresh
	r.opt.Flushed(r.name, r.good)
	r.store(s, was)
}

// sync has what was flushed survive a power failure. It returns false when that fails.
func (r *Recorder) sync() bool {
	if r.file == nil || r.loose == 0 {
		return true
	}
	if err := r.file.Sync(); err != nil {
		s := *r.status.Load() // what was flushed since the last time may be gone
		s.Written -= r.counted
		r.status.Store(&s)
		r.missed.Add(r.loose)
		r.good = r.stays
		r.fail(err)
		return false
	}
	r.stays, r.loose, r.counted, r.pending = r.good, 0, 0, 0
	return true
}

func (r *Recorder) store(s Status, was string) {
	r.status.Store(&s)
	if s.State != was {
		r.opt.Changed(r.Status())
	}
}

// fail closes the file at its last whole block; the next datagrams go to another one.
func (r *Recorder) fail(err error) {
	s := *r.status.Load()
	was := s.State
	s.State, s.Words = Failing, Words(err)
	r.missed.Add(r.held)
	r.held = 0
	if r.file != nil {
		// Truncating needs no room; if it still fails, the next start repairs the file.
		_ = errors.Join(r.file.Truncate(r.good), r.file.Close())
		if r.good > r.head {
			r.opt.Closed(r.name)
		} else if os.Remove(r.name) == nil {
			r.part--
		}
		r.file, r.out = nil, nil
	}
	r.store(s, was)
}

// shut closes a file that is complete.
func (r *Recorder) shut(comments []string) {
	err := r.out.Finish(comments)
	r.flush()
	if r.file == nil || !r.sync() { // that failed
		return
	}
	if err = errors.Join(err, r.file.Sync()); err != nil {
		r.fail(err)
		return
	}
	err = r.file.Close()
	r.file, r.out = nil, nil
	if err != nil {
		r.fail(err)
		return
	}
	r.opt.Closed(r.name)
}

// finish ends the recording.
func (r *Recorder) finish() {
	comments := append(r.comments, r.last...)
	if r.file == nil && len(comments) > 0 {
		if err := r.open(); err != nil {
			r.fail(err)
			return
		}
	}
	if r.file != nil {
		r.shut(comments)
	}
}

// A counter counts what goes through it.
type counter struct {
	w io.Writer
	n int64
}

func (c *counter) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	c.n += int64(n)
	return n, err
}
