// Package exchange gives recorded sessions out as files and takes captures in, for the pages.
package exchange

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"strconv"

	"halfturn/coach/archive/play"
	"halfturn/coach/archive/take"
	"halfturn/coach/grading"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/guard"
)

// A Book finds the folders of sessions, and knows what was said about them.
type Book interface {
	stored.Book
	Folder(id string) (string, error)
}

// Captures exchanges sessions and captures.
type Captures struct {
	Book     Book
	Judge    grading.Judge
	Again    func(by stored.Override) *stored.Regrade // grades a session again by other cards
	Importer func() *take.Importer                    // a new one for each capture
	Taken    func(*take.Taken) any                    // what the page is told about it
}

var _ web.Captures = (*Captures)(nil)

// Export writes a session or one leg of it. A session without a recording is refused; an unknown session or leg is a
// [logbook.NotFound].
func (c *Captures) Export(ctx context.Context, w io.Writer, id string, e web.Export) error {
	dir, err := c.Book.Folder(id)
	if err != nil {
		return err
	}
	rec, err := play.Open(ctx, dir)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	var empty *play.EmptyError
	if errors.As(err, &empty) {
		err = fmt.Errorf("session %q has no recording: nothing can be made of it", id)
	}
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	wanted := stored.Export{
		Format:   e.Format,
		Leg:      e.Leg,
		Paper:    cmp.Or(e.Paper, "a4"),
		All:      e.All,
		Language: e.Language,
	}
	if e.Format == "pdf" || e.Format == "json" {
		if err := wanted.About(ctx, c.Book, id); err != nil {
			return err
		}
	}
	err = wanted.Write(ctx, &interruptible{ctx, w}, rec, c.Judge)
	var none *stored.NoLeg
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

// Import takes one capture in, whole or not at all, as [take.Importer] says. A capture that is refused is a
// [logbook.Refused], a full disk a [guard.Problem].
func (c *Captures) Import(ctx context.Context, name string, capture io.Reader) (any, error) {
	taken, err := c.Importer().Receive(ctx, capture, name)
	var refused *take.Refused
	if errors.As(err, &refused) {
		return nil, &logbook.Refused{Words: strconv.Quote(name) + ": " + err.Error()}
	}
	if err != nil {
		return nil, noRoom(err)
	}
	return c.Taken(taken), nil
}

// noRoom says why a capture could not be written here; any other error stays as it is.
func noRoom(err error) error {
	var own *fs.PathError
	if !errors.As(err, &own) {
		return err
	}
	return &guard.Problem{
		Status: http.StatusInsufficientStorage,
		Phrase: phrase.CaptureNoRoom.Of(phrase.Name("why", own.Err.Error())),
	}
}
