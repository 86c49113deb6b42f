// Package take imports recordings as sessions of an archive.
package take

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
)

// Limits bound what one capture may become. Zero fields set no bound.
type Limits struct {
	Bytes    int64 // uncompressed
	Ratio    int64 // of these to the bytes of the file
	Sessions int
	Stations int // senders that can be read; others are ignored
}

// DefaultLimits are for captures from anyone: one day of a room of simulators, and little more.
var DefaultLimits = Limits{Bytes: 4_000_000_000, Ratio: 100, Sessions: 100, Stations: 64}

// leastSamples is how many samples a session has at least: two a second, below which nothing is graded, for the ten
// seconds that the shortest leg takes.
const leastSamples = 20

// An Importer imports captures as sessions of an archive. It is for one goroutine at a time; any number of importers
// may work on one archive, in any number of processes.
type Importer struct {
	Archive *archive.Archive
	// Follow says how a recording is followed, and by which cards, for the logbook.
	Follow func(*play.Recording) (play.Following, logbook.Entry, error)
	// By is who asks for the import; it is recorded with each session.
	By who.Who
	// Program is the name of this program in the files it writes.
	Program string
	// Silence is how long a sender may be silent before its next session begins.
	Silence time.Duration
	Limits  Limits
	// KeepAll also keeps what cannot be graded.
	KeepAll bool

	known known
}

// An Imported is one session as it was imported; import.json in its folder.
type Imported struct {
	Session string        `json:"session"` // its name; of a double, that of the one there
	File    string        `json:"file"`
	Sender  string        `json:"sender"`
	Hash    string        `json:"hash"` // SHA-256 of sender, times and datagrams
	Double  bool          `json:"double,omitempty"`
	Legs    int           `json:"legs"`
	Why     phrase.Phrase `json:"notGradable,omitzero"` // why it cannot be graded
}

// A Taken is the result of importing one capture.
type Taken struct {
	Sessions []Imported
	Notes    []phrase.Phrase // what was left out, a sentence each
	Damage   error           // where the capture could not be read further; what precedes it was imported
}

// Import imports one capture, under the name its owner gave it. It streams the capture; its memory
// does not depend on the length.
//
// It is all or nothing: with an error (the context ended, the file is no capture, a limit was passed, nothing in it can
// be graded, the disk is full) nothing of the capture is left in the logbook or on the disk. Only when the program
// itself is killed something may be, and Sweep removes it. A *Refused is the capture's own fault.
//
// The same flight twice makes one session, also when it is imported by several at once.
func (in *Importer) Import(ctx context.Context, path, name string) (*Taken, error) {
	w, err := newWork(ctx, in.Archive.Dir())
	if err != nil {
		return nil, err
	}
	defer w.remove()
	return in.from(ctx, w, path, name)
}

// Receive imports a capture from a reader.
func (in *Importer) Receive(ctx context.Context, r io.Reader, name string) (*Taken, error) {
	w, err := newWork(ctx, in.Archive.Dir())
	if err != nil {
		return nil, err
	}
	defer w.remove()
	path := filepath.Join(w.dir, "capture")
	f, err := os.Create(path)
	if err != nil {
		return nil, err
	}
	_, err = io.Copy(f, r)
	if err = errors.Join(err, f.Close(), ctx.Err()); err != nil {
		return nil, err
	}
	return in.from(ctx, w, path, name)
}

// A Refused says why a capture is not imported.
type Refused struct{ err error }

// Error says why.
func (r *Refused) Error() string { return r.err.Error() }

// Unwrap returns the cause.
func (r *Refused) Unwrap() error { return r.err }

// from copies the sessions of a capture into a work folder, grades them, and puts them among the others.
func (in *Importer) from(ctx context.Context, w *work, path, name string) (*Taken, error) {
	rec, err := play.Open(ctx, path)
	if err != nil {
		return nil, &Refused{plain(err)}
	}
	follow, entry, err := in.Follow(rec)
	if err != nil {
		return nil, err
	}
	c := &copying{importer: in, work: w, recording: rec, name: name, entry: entry, copies: map[*play.Flight]*copied{}}
	follow.Silence, follow.Over, follow.Ends = in.Silence, c.over, true
	follow.Limits = &capture.Limits{Bytes: in.Limits.Bytes, Ratio: in.Limits.Ratio}
	if c.player, err = rec.Play(ctx, follow); err != nil {
		return nil, err
	}
	choice := c.player.Choices()[0]
	c.entry.Maneuver, c.entry.Standard, c.entry.Aircraft = choice.Maneuver, choice.Standard, choice.Aircraft
	err = c.all()
	stats := c.player.Stats()
	if err = errors.Join(err, c.player.Close()); err != nil {
		return nil, err
	}
	taken := &Taken{Sessions: []Imported{}, Damage: c.damage, Notes: c.notes(stats)}
	if len(c.done) == 0 {
		return nil, c.nothing(stats, taken.Notes)
	}
	if err := in.enter(ctx, c.done, taken); err != nil {
		return nil, err
	}
	return taken, nil
}

// notGradable says why nothing in a session can be graded; nothing when something can.
func notGradable(r *debrief.StationReport) phrase.Phrase {
	switch {
	case r.Samples == 0 && !r.Advice.IsZero():
		return r.Advice
	case r.Samples == 0:
		return phrase.NoKnownFormat.Of()
	case r.Samples < leastSamples && len(r.Series) == 0:
		return phrase.FewSamples.Of(phrase.Int("samples", r.Samples), phrase.Int("least", leastSamples))
	}
	return phrase.Phrase{}
}

// notes are sentences on what was not imported.
func (c *copying) notes(stats capture.Stats) (notes []phrase.Phrase) {
	say := func(p phrase.Phrase) { notes = append(notes, p) }
	if c.unread.senders > 0 {
		say(phrase.LeftUnread.Of(phrase.Int("datagrams", c.unread.datagrams), phrase.Int("senders", c.unread.senders)))
	}
	if c.dropped.senders > 0 {
		say(phrase.LeftStations.Of(phrase.Int("most", c.importer.Limits.Stations),
			phrase.Int("datagrams", c.dropped.datagrams)))
	}
	if n := c.player.Left(); n > 0 {
		say(phrase.LeftSenders.Of(phrase.Int("most", play.MostSenders), phrase.Int("datagrams", n)))
	}
	for _, err := range []error{c.player.Missing(), c.missed} {
		if err != nil {
			say(phrase.NotAllChosen.Of(phrase.Name("why", err.Error())))
		}
	}
	if stats.Untimed > 0 {
		say(phrase.LeftUntimed.Of(phrase.Int("packets", stats.Untimed)))
	}
	return notes
}

// nothing says why a capture gives no session.
func (c *copying) nothing(stats capture.Stats, notes []phrase.Phrase) error {
	switch {
	case c.damage != nil:
		return &Refused{c.damage}
	case c.unread.datagrams > 0:
		return &Refused{phrase.LeftBecause.Error(phrase.Part("note", notes[0]), phrase.Part("why", c.why))}
	case len(notes) > 0:
		return &Refused{errors.New(notes[0].String())}
	}
	return &Refused{phrase.NoDatagrams.Error(phrase.Int("packets", stats.Packets), phrase.Int("other", stats.Other),
		phrase.Int("fragments", stats.Fragments), phrase.Int("cut", stats.Cut), phrase.Int("malformed",
			stats.Malformed))}
}

// plain is an error of the file system without the file's name, which stands beside it already.
func plain(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		return errors.New(strings.ToLower(p.Err.Error()))
	}
	return err
}
