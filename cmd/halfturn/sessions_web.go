package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"halfturn/coach/logbook"
	"halfturn/coach/session"
	"halfturn/web"
)

// captures gives sessions out as files and takes captures in, for the pages.
type captures struct {
	cfg  *config
	data string
	book *logbook.Book
	turn chan struct{} // has room for the one capture that is being taken in
}

var _ web.Captures = (*captures)(nil)

// upload is how the names of captures begin that are on their way in.
const upload = ".upload-"

// newCaptures makes the captures of a logbook. What a server that was killed left of uploads is removed: only the
// one server of a data directory takes them.
func newCaptures(cfg *config, data string, book *logbook.Book) *captures {
	entries, _ := os.ReadDir(book.Dir()) // what fails is tried again at the next start
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), upload) {
			_ = os.Remove(filepath.Join(book.Dir(), e.Name()))
		}
	}
	return &captures{cfg: cfg, data: data, book: book, turn: make(chan struct{}, 1)}
}

// Export writes a session or one leg of it.
func (c *captures) Export(ctx context.Context, w io.Writer, id string, e web.Export) error {
	if _, err := c.book.Folder(id); err != nil {
		return err
	}
	rec, err := findRecorded(c.data, id)
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	rec.plans = c.cfg.plansOf(rec.dir)
	opt, err := c.cfg.asStood(rec.dir)
	if err != nil {
		return err
	}
	cmd := sessionsExportCmd{Format: e.Format, Leg: e.Leg, Paper: or(e.Paper, "a4")}
	if e.Format == "pdf" {
		if err := cmd.about(ctx, c.book, id); err != nil {
			return err
		}
	}
	err = cmd.write(&interruptible{ctx, w}, rec, opt)
	var none *noLeg
	if errors.As(err, &none) {
		return &logbook.NotFound{ID: fmt.Sprintf("%s, leg %d", id, e.Leg)}
	}
	return err
}

// interruptible stops an export whose reader has gone.
type interruptible struct {
	ctx context.Context
	w   io.Writer
}

func (i *interruptible) Write(p []byte) (int, error) {
	if err := i.ctx.Err(); err != nil {
		return 0, err
	}
	return i.w.Write(p)
}

// asStood is how a session is graded: by what was chosen at its beginning, and its cards as they
// stood, where its folder tells.
func (c *config) asStood(dir string) (session.Options, error) {
	was := c.withCardsOf(dir)
	n, err := logbook.ReadNotes(dir)
	if err != nil || n == nil {
		return was.session() // without notes as configured
	}
	if n.Maneuver != "" {
		was.Maneuver, was.Standard, was.Aircraft = n.Maneuver, n.Standard, n.Aircraft
	}
	if o, err := was.session(); err == nil {
		return o, nil
	}
	return c.session() // its cards are of an older version, and not understood any more
}

// withCardsOf reads also the cards that were kept with a session.
func (c *config) withCardsOf(dir string) config {
	was := *c
	was.from = origins{} // what was chosen then comes from no flag of today
	if cards := filepath.Join(dir, "cards"); isDir(cards) {
		was.Cards = append(append([]string{}, c.Cards...), cards)
	}
	return was
}

func isDir(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}

// Import takes one capture in: it is written to the data directory first, and graded from there. One at a time is
// graded, so that the same flight, sent twice at once, is known the second time.
func (c *captures) Import(ctx context.Context, name string, capture io.Reader) (_ any, err error) {
	f, err := os.CreateTemp(c.book.Dir(), upload+"*")
	if err != nil {
		return nil, noRoom(err)
	}
	defer func() { err = errors.Join(err, os.Remove(f.Name())) }()
	_, err = io.Copy(f, capture)
	if err = errors.Join(err, f.Close()); err != nil {
		return nil, noRoom(err)
	}
	select {
	case c.turn <- struct{}{}:
		defer func() { <-c.turn }()
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	opt, err := c.cfg.session()
	if err != nil {
		return nil, err
	}
	in := &importer{book: c.book, cfg: c.cfg, opt: opt, idle: c.cfg.Idle.Duration, known: knownImports(c.book.Dir()), done: []imported{}}
	if err := in.file(ctx, f.Name(), name); err != nil {
		if ctx.Err() != nil {
			return nil, err
		}
		return nil, &logbook.Refused{Words: strconv.Quote(name) + ": " + err.Error()}
	}
	return map[string]any{"version": 1, "sessions": in.done}, nil
}

// noRoom tells why a capture could not be written here; any other error stays as it is.
func noRoom(err error) error {
	var own *fs.PathError
	if !errors.As(err, &own) {
		return err
	}
	return &web.Problem{Status: http.StatusInsufficientStorage, Words: fmt.Sprintf(
		"the capture cannot be written here (%q); make room where sessions are kept, and send it again", own.Err)}
}
