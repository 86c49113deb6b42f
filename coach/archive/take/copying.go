package take

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/textlog"
)

// A copying copies the sessions of one capture.
type copying struct {
	importer  *Importer
	work      *work
	recording *play.Recording
	name      string
	entry     logbook.Entry
	player    *play.Player
	copies    map[*play.Flight]*copied
	done      []*copied
	begun     int // files
	held      int // bytes held of senders that sent nothing useful yet
	stations  map[string]bool
	failed    error // of sessions that a silence ended
	damage    error
	dropped   tally // of senders beyond the limit of stations
	unread    tally // that cannot be graded
	why       phrase.Phrase
	missed    error // a command that could not be followed
}

// A tally counts what is not imported.
type tally struct{ senders, datagrams uint64 }

// A copied is a session being copied.
type copied struct {
	from    *play.Recording
	flight  *play.Flight
	entry   logbook.Entry
	dir     string
	file    *os.File // nil until something useful was sent, and once it is closed
	writer  *capture.Writer
	sum     hash.Hash
	held    []capture.Datagram // of before
	bytes   int                // of these
	refused bool               // its sender is beyond the limit of stations
	student string
	title   string    // of the station of a text log, which names none
	first   time.Time // receipt of the first datagram
	report  debrief.StationReport
	d       Imported
}

// Limits on what is held of a sender before its first sample: the stream may describe its format there. They are
// those of a live session, and for all senders together.
const (
	mostBefore      = 1024
	mostBeforeBytes = 256 << 10
	mostHeldBytes   = 16 << 20
)

// all copies the whole capture.
func (c *copying) all() error {
	defer c.closeAll()
	for {
		d, err := c.player.Next()
		if err != nil {
			var limit *capture.LimitError
			var format *capture.FormatError
			var cut *capture.CutError
			var log *textlog.Error
			switch {
			case errors.Is(err, io.EOF):
			case errors.As(err, &limit):
				return &Refused{phrase.NotTakenSize.Error(phrase.Part("why", phrase.OfError(err)))}
			case errors.As(err, &format), errors.As(err, &log):
				return &Refused{err}
			case errors.As(err, &cut):
				c.damage = err
			default:
				return plain(err)
			}
			break
		}
		s, _, err := c.player.Feed()
		if err != nil && c.missed == nil {
			c.missed = err
		}
		if s != nil && c.failed == nil {
			c.failed = c.take(s, d)
		}
		if c.failed != nil {
			return c.failed
		}
	}
	if err := c.player.End(); err != nil && c.missed == nil {
		c.missed = err
	}
	for _, s := range c.player.Flights() {
		if c.over(s); c.failed != nil {
			return c.failed
		}
	}
	return nil
}

// closeAll closes the files of sessions that were not finished.
func (c *copying) closeAll() {
	for _, k := range c.copies {
		if k.file != nil {
			_ = k.file.Close() // it is removed with the work folder
		}
	}
}

// take copies a datagram.
func (c *copying) take(s *play.Flight, d *capture.Datagram) error {
	k := c.copies[s]
	if k == nil {
		k = &copied{from: c.recording, flight: s, entry: c.entry, sum: sha256.New(), title: play.Title(c.name)}
		c.copies[s] = k
	}
	if k.refused {
		return nil
	}
	if k.file != nil {
		return k.add(d)
	}
	if !s.Session.Proven() && c.recording.Opening() == nil && !c.importer.KeepAll {
		c.hold(k, d)
		return nil
	}
	if k.refused = !c.admit(s); k.refused {
		return nil
	}
	if err := c.begin(k); err != nil {
		return err
	}
	held := k.held
	c.release(k)
	for i := range held {
		if err := k.add(&held[i]); err != nil {
			return err
		}
	}
	return k.add(d)
}

// admit reports whether a sender is within the limit of stations.
func (c *copying) admit(s *play.Flight) bool {
	name := s.Sender.String()
	if c.stations == nil {
		c.stations = map[string]bool{}
	}
	if most := c.importer.Limits.Stations; most > 0 && len(c.stations) >= most && !c.stations[name] {
		return false
	}
	c.stations[name] = true
	return true
}

// hold keeps a datagram of a sender that has sent nothing useful yet; the oldest are dropped.
func (c *copying) hold(k *copied, d *capture.Datagram) {
	own := *d
	own.Payload = append([]byte{}, d.Payload...)
	k.held = append(k.held, own)
	k.bytes += len(own.Payload)
	c.held += len(own.Payload)
	for len(k.held) > mostBefore || len(k.held) > 1 && (k.bytes > mostBeforeBytes || c.held > mostHeldBytes) {
		n := len(k.held[0].Payload)
		k.held[1].Comments = append(k.held[0].Comments, k.held[1].Comments...)
		k.held, k.bytes, c.held = k.held[1:], k.bytes-n, c.held-n
	}
}

func (c *copying) release(k *copied) {
	c.held -= k.bytes
	k.held, k.bytes = nil, 0
}

// begin makes the file of a session.
func (c *copying) begin(k *copied) (err error) {
	c.begun++
	k.dir = filepath.Join(c.work.dir, strconv.Itoa(c.begun))
	if err = os.MkdirAll(k.dir, 0o750); err != nil {
		return err
	}
	if k.file, err = os.Create(filepath.Join(k.dir, firstPart)); err != nil {
		return err
	}
	k.writer, err = capture.NewWriter(k.file, c.importer.Program, "import", c.recording.Heading())
	return err
}

// firstPart is the file of a session that was imported.
const firstPart = "stream-0001.pcapng"

// add copies a datagram.
func (k *copied) add(d *capture.Datagram) error {
	k.sumUp(d)
	if err := k.writer.Write(d); err != nil {
		return fmt.Errorf("the session cannot be written: %w", err)
	}
	return nil
}

// sumUp adds a datagram to the hash. A text log whose times do not say the date begins when the file was written, which
// differs from copy to copy: its times count from its beginning.
func (k *copied) sumUp(d *capture.Datagram) {
	if k.first.IsZero() {
		k.first = d.Received
	}
	if !k.from.IsLog() {
		addTo(k.sum, d)
		return
	}
	since := *d
	since.Received = time.UnixMicro(0).Add(d.Received.Sub(k.first))
	addTo(k.sum, &since)
}

// addTo adds a datagram to the hash that identifies a flight.
func addTo(sum hash.Hash, d *capture.Datagram) {
	var head [12]byte
	binary.BigEndian.PutUint64(head[:], uint64(d.Received.UnixMicro()))
	binary.BigEndian.PutUint32(head[8:], uint32(len(d.Payload)))
	sum.Write(head[:])
	sum.Write(d.Payload)
}

// over finishes a session that has ended: if it can be graded, it is kept until all are copied.
func (c *copying) over(s *play.Flight) {
	k := c.copies[s]
	if k == nil || c.failed != nil {
		return // its file is closed with the others
	}
	delete(c.copies, s)
	c.release(k)
	switch {
	case k.refused:
		c.dropped.senders++
		c.dropped.datagrams += s.Datagrams
	case k.file == nil:
		c.ungraded(s)
	default:
		c.failed = c.finish(k)
	}
}

// ungraded counts a session that is not imported.
func (c *copying) ungraded(s *play.Flight) {
	c.unread.senders++
	c.unread.datagrams += s.Datagrams
	if c.why.IsZero() {
		r := c.player.Report(s)
		c.why = notGradable(&r)
	}
}

func (c *copying) finish(k *copied) error {
	k.report = c.player.Report(k.flight)
	sender := k.flight.Sender.String()
	fmt.Fprint(k.sum, sender)
	k.d = Imported{File: c.name, Sender: sender, Hash: hex.EncodeToString(k.sum.Sum(nil)), Why: notGradable(&k.report)}
	for i := range k.report.Series {
		k.d.Legs += len(k.report.Series[i].Legs)
	}
	if !k.d.Why.IsZero() && !c.importer.KeepAll {
		c.ungraded(k.flight)
		err := k.file.Close()
		k.file = nil
		return errors.Join(err, os.RemoveAll(k.dir))
	}
	if most := c.importer.Limits.Sessions; most > 0 && len(c.done) >= most {
		return &Refused{phrase.NotTakenSessions.Error(phrase.Int("most", most),
			phrase.Number("silence", c.importer.Silence.Seconds(), -1, "s"))}
	}
	var rest []string
	if c.recording.Opening() != nil {
		rest = c.player.Rest()
	}
	err := k.writer.Finish(rest)
	err = errors.Join(err, k.file.Sync(), k.file.Close())
	k.file = nil
	if err != nil {
		return fmt.Errorf("the session cannot be written: %w", err)
	}
	k.student = k.flight.Student
	k.flight.Play, k.writer = nil, nil // frees memory: many sessions may wait for the last one
	c.done = append(c.done, k)
	return nil
}
