package school

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/folder"
	"halfturn/coach/archive/remote"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/stream/contain"
	"halfturn/stream/phrase"
	"halfturn/stream/record"
	"halfturn/web/share/link"
)

// Limits of a session that is received.
const (
	mostSession = 8 << 30 // bytes
	mostParts   = 9999
	mostJobs    = 256 // sessions that wait to be graded
)

// An inbox takes the recordings of homes into the archive.
type inbox struct {
	book     *archive.Archive
	grade    func(ctx context.Context, dir string) (*debrief.Report, error)
	complete func(file string) // takes each file of a session that is complete
	linked   func(station string) bool
	ended    func(station string, left *folder.Left) // takes that a session was ended without its home
	log      zerolog.Logger
	faults   *contain.Faults
	jobs     chan job

	shared sync.Mutex // held while the file is changed that says whose a session is
}

// errFault says that a session could not be graded.
var errFault = errors.New("a fault in the program ended the grading")

// A job is a session that was received whole, or one that is to be ended without its home.
type job struct {
	station, id string
	ended       time.Time
	done        func()       // tells the home
	left        *folder.Left // nil: it was received whole
}

// A mailbox takes the recordings of one link. It is for one goroutine.
type mailbox struct {
	*inbox
	station string
	now     *incoming // the session that is being received; nil is none
	fails   failure
}

// An incoming is a session that is being received.
type incoming struct {
	session, dir string
	archive.Received
	part   int
	size   int64
	total  int64 // bytes of the parts before
	file   *os.File
	gapped bool // the home was told to go back, and has not yet
}

// have says how much there is.
func (in *incoming) have(rewind bool) *link.Have {
	return &link.Have{Session: in.session, Known: true, Part: in.part, Size: in.size, Rewind: rewind}
}

func (in *incoming) close() error {
	if in == nil || in.file == nil {
		return nil
	}
	f := in.file
	in.file = nil
	return f.Close()
}

// close lets go of the session that was being received.
func (m *mailbox) close() {
	_ = m.now.close() // what was written counts, not what was to be
	m.now = nil
}

// take takes a message of the back lane, and returns the answer; nil is none.
func (m *mailbox) take(received link.Message, answer func(link.Message)) (link.Message, error) {
	switch x := received.(type) {
	case *link.Offer:
		return m.offer(x.Session)
	case *link.Begin:
		return m.begin(x)
	case *link.Piece:
		return m.piece(x)
	case *link.Whole:
		return m.whole(x)
	case *link.Finish:
		return m.finish(x, answer)
	case *link.Acts:
		return m.acts(x)
	}
	return nil, nil
}

// offer says how much there is of a session.
func (m *mailbox) offer(session string) (link.Message, error) {
	m.close()
	r, ok := m.book.Received(m.station, session)
	switch {
	case !ok:
		return &link.Have{Session: session, Part: 1}, nil
	case r.Done:
		return &link.Have{Session: session, Known: true, Done: true}, nil
	}
	if err := m.book.Adopt(r.ID); err != nil { // it went on at another node
		return nil, err
	}
	in := &incoming{session: session, Received: r, dir: filepath.Join(m.book.Dir(), r.ID), part: 1}
	parts, err := record.Parts(in.dir)
	if err != nil {
		return nil, err
	}
	for _, name := range parts {
		info, err := os.Stat(name)
		if err != nil {
			return nil, err
		}
		in.total += in.size
		in.part, in.size = record.PartNumber(name), info.Size()
	}
	m.now = in
	return in.have(true), nil
}

// begin enters a session that was not known.
func (m *mailbox) begin(b *link.Begin) (link.Message, error) {
	var e logbook.Entry
	if err := json.Unmarshal(b.Entry, &e); err != nil {
		return nil, &wrongError{"the entry of a session: " + err.Error()}
	}
	r, err := m.book.Receive(m.station, b.Session, e)
	if err != nil {
		return nil, err
	}
	m.log.Info().Str("station", m.station).Str("session", r.ID).Msg("a session is received")
	return m.offer(b.Session)
}

// of returns the session that a message is about, which must have been offered.
func (m *mailbox) of(session string) (*incoming, link.Message, error) {
	if m.now != nil && m.now.session == session {
		return m.now, nil, nil
	}
	answer, err := m.offer(session)
	return m.now, answer, err
}

// piece writes a piece of a file, at its place.
func (m *mailbox) piece(p *link.Piece) (link.Message, error) {
	in, answer, err := m.of(p.Session)
	if in == nil {
		return answer, err
	}
	if p.Part > in.part && p.Offset == 0 && p.Part <= mostParts {
		if err := in.close(); err != nil {
			return nil, err
		}
		in.total += in.size
		in.part, in.size = p.Part, 0
	}
	end := p.Offset + int64(len(p.Bytes))
	switch {
	case in.total+end > mostSession, p.Part > mostParts:
		return nil, phrase.ShareTooLong.Error(phrase.Number("most", mostSession>>30, 0, "GB"))
	case p.Part != in.part, p.Offset > in.size:
		if in.gapped {
			return nil, nil
		}
		in.gapped = true
		return in.have(true), nil
	case end <= in.size: // it is there
		return in.have(false), nil
	}
	if err := m.write(in, p.Bytes[in.size-p.Offset:]); err != nil {
		return nil, err
	}
	in.gapped = false
	return in.have(false), nil
}

// write writes behind what is there.
func (m *mailbox) write(in *incoming, b []byte) (err error) {
	if in.file == nil {
		name := filepath.Join(in.dir, record.PartName(in.part))
		if in.file, err = os.OpenFile(name, os.O_WRONLY|os.O_CREATE, 0o640); err != nil {
			return err
		}
	}
	n, err := in.file.WriteAt(b, in.size)
	in.size += int64(n)
	return err
}

// whole checks a file that is complete, and asks for it again where it differs.
func (m *mailbox) whole(w *link.Whole) (link.Message, error) {
	in, answer, err := m.of(w.Session)
	if in == nil {
		return answer, err
	}
	if w.Part != in.part || in.size < w.Size {
		return in.have(true), nil
	}
	name := filepath.Join(in.dir, record.PartName(in.part))
	same, err := equals(name, w)
	if err != nil {
		return nil, err
	}
	if !same {
		m.log.Warn().Str("station", m.station).Str("session", in.ID).Int("file", in.part).
			Msg("the file differs from that at home; it is received again")
		err := errors.Join(in.close(), os.Truncate(name, 0))
		in.size = 0
		return in.have(true), err
	}
	if in.file != nil {
		if err := in.file.Sync(); err != nil {
			return nil, err
		}
	}
	in.total += in.size
	in.part, in.size = in.part+1, 0
	return in.have(false), in.close()
}

// equals compares a file with that at home.
func equals(name string, w *link.Whole) (bool, error) {
	f, err := os.Open(name)
	if err != nil {
		return false, err
	}
	defer f.Close()
	h := sha256.New()
	n, err := io.Copy(h, f)
	return n == w.Size && hex.EncodeToString(h.Sum(nil)) == w.SHA256, err
}

// finish has a session graded that was received whole.
func (m *mailbox) finish(f *link.Finish, answer func(link.Message)) (link.Message, error) {
	in, said, err := m.of(f.Session)
	if in == nil || said != nil {
		return said, err
	}
	j := job{station: m.station, id: in.ID, ended: f.Ended, done: func() {
		answer(&link.Have{Session: f.Session, Known: true, Done: true})
	}}
	m.close()
	select {
	case m.jobs <- j:
	default:
		m.log.Warn().Str("session", in.ID).Msg("too many sessions wait to be graded; the home offers it again later")
	}
	return nil, nil
}

// acts notes what people at home added to a session, each once.
func (m *mailbox) acts(x *link.Acts) (link.Message, error) {
	var all []logbook.Act
	if err := json.Unmarshal(x.Acts, &all); err != nil {
		return nil, &wrongError{"the acts of a session: " + err.Error()}
	}
	r, ok := m.book.Received(m.station, x.Session)
	if !ok { // it was deleted here
		return &link.Noted{Session: x.Session, Acts: x.From + len(all)}, nil
	}
	if err := m.book.TakeActs(r.ID, m.station, all); err != nil { // the home sends them again on its next link
		m.log.Error().Err(err).Str("station", m.station).Str("session", r.ID).
			Msg("what was added to the session at home is not noted")
		return nil, nil
	}
	return &link.Noted{Session: x.Session, Acts: x.From + len(all)}, nil
}

// run grades and enters sessions until the context ends. What cannot be entered is tried again. What waits at the end
// is offered again.
func (b *inbox) run(ctx context.Context) {
	var failed []job
	retry := time.NewTicker(retryEvery)
	defer retry.Stop()
	try := func(j job) {
		err := errFault
		if j.left != nil {
			b.faults.Run("grading", j.id, func() { err = b.leave(ctx, &j) })
			if errors.Is(err, remote.ErrFenced) {
				b.log.Info().Str("session", j.id).Msg("the home has gone on with the session at another node")
			} else if err != nil { // it is found again
				b.log.Error().Err(err).Str("session", j.id).Msg("the session cannot be ended; it is tried again")
			}
			return
		}
		b.faults.Run("grading", j.id, func() { err = b.enter(ctx, &j) })
		if err == nil {
			j.done()
			return
		}
		if errors.Is(err, remote.ErrFenced) && b.linked(j.station) && b.book.Adopt(j.id) == nil {
			failed = append(failed, j) // the home is here again
			return
		}
		if errors.Is(err, remote.ErrFenced) { // the home is told there
			b.log.Info().Str("session", j.id).Msg("the home has gone on with the session at another node")
			return
		}
		b.log.Error().Err(err).Str("session", j.id).
			Msg("the session was received and cannot be entered; it is tried again")
		if failed = append(failed, j); len(failed) > mostJobs {
			failed = failed[1:] // its home offers it again
		}
	}
	for ctx.Err() == nil {
		select {
		case <-ctx.Done():
		case j := <-b.jobs:
			try(j)
		case <-retry.C:
			again := failed
			failed = nil
			for _, j := range again {
				if ctx.Err() == nil {
					try(j)
				}
			}
		}
	}
}

// enter grades and enters a session, unless that is done.
func (b *inbox) enter(ctx context.Context, j *job) error {
	dir := filepath.Join(b.book.Dir(), j.id)
	if !record.Unfinished(dir) {
		return nil
	}
	notes, err := folder.ReadNotes(dir)
	if err != nil || notes == nil {
		return errors.Join(err, &logbook.NotFound{ID: j.id})
	}
	report, err := b.report(ctx, j, notes)
	if err != nil {
		return err
	}
	e := logbook.Entry{Station: j.station, Ended: j.ended}
	b.shared.Lock()
	err = b.book.Complete(j.id, report, e)
	b.shared.Unlock()
	if err != nil {
		return err
	}
	for _, name := range folder.Recording(dir) {
		b.complete(name)
	}
	b.log.Info().Str("station", j.station).Str("session", j.id).Msg("the session is complete")
	return nil
}

// report grades the recording of a session; nil when there is none.
func (b *inbox) report(ctx context.Context, j *job, notes *folder.Notes) (*debrief.Report, error) {
	dir := filepath.Join(b.book.Dir(), j.id)
	if len(folder.Recording(dir)) == 0 {
		return nil, nil
	}
	report, err := b.grade(ctx, dir)
	if report == nil || err != nil {
		return nil, err
	}
	report.Session = &debrief.SessionDates{
		ID:    j.id,
		Began: notes.Began.UTC().Format(time.RFC3339),
		Ended: j.ended.UTC().Format(time.RFC3339),
	}
	for i := range report.Files {
		for k := range report.Files[i].Stations {
			report.Files[i].Stations[k].Station = j.station
		}
	}
	return report, nil
}
