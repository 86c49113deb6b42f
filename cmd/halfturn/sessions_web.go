package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"strconv"

	"halfturn/coach/archive"
	"halfturn/coach/archive/take"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web"
)

// captures gives sessions out as files and takes captures in, for the pages.
type captures struct {
	cfg  *settings.Config
	data string
	book *archive.Archive
}

var _ web.Captures = (*captures)(nil)

// Export writes a session or one leg of it.
func (c *captures) Export(ctx context.Context, w io.Writer, id string, e web.Export) error {
	if _, err := c.book.Folder(id); err != nil {
		return err
	}
	rec, err := stored.Find(ctx, c.data, id)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		return &logbook.Refused{Words: err.Error()}
	}
	out := stored.Export{Format: e.Format, Leg: e.Leg, Paper: cmp.Or(e.Paper, "a4")}
	if e.Format == "pdf" {
		if err := out.About(ctx, c.book, id); err != nil {
			return err
		}
	}
	err = out.Write(ctx, &interruptible{ctx, w}, rec, judging(c.cfg, nil))
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

// Import takes one capture in, within the limits of any capture. All is as [take.Importer] says: with an error
// nothing of it is left.
func (c *captures) Import(ctx context.Context, name string, capture io.Reader) (any, error) {
	in := judging(c.cfg, nil).Importer(c.book, "halfturn "+version)
	in.Silence = c.cfg.Idle.Duration
	taken, err := in.Receive(ctx, capture, name)
	var refused *take.Refused
	if errors.As(err, &refused) {
		return nil, &logbook.Refused{Words: strconv.Quote(name) + ": " + err.Error()}
	}
	if err != nil {
		return nil, noRoom(err)
	}
	return newImportList([]*take.Taken{taken}), nil
}

// noRoom tells why a capture could not be written here; any other error stays as it is.
func noRoom(err error) error {
	var own *fs.PathError
	if !errors.As(err, &own) {
		return err
	}
	return &web.Problem{Status: http.StatusInsufficientStorage, Phrase: phrase.CaptureNoRoom.Of(
		phrase.Name("why", own.Err.Error()))}
}
