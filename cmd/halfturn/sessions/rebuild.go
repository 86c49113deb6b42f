package sessions

import (
	"context"
	"errors"

	"halfturn/cmd/halfturn/amount"
	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive"
	"halfturn/coach/archive/lock"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/who"
)

type rebuildCmd struct {
	bookFlags
}

// Help says what else there is to know.
func (rebuildCmd) Help() string {
	return "The folders in the data directory hold everything: recordings, grades, remarks, cards. A logbook that is " +
		"damaged is kept beside, under another name. " +
		"A session without grades is graded again from its recording, by the cards as they stood. " +
		"One that cannot be taken in is left out and named, with the reason; its folder stays as it is, and the exit " +
		"status is 1. " +
		"A server on the same data directory has to be stopped first."
}

// Run rebuilds the logbook.
func (c *rebuildCmd) Run(ctx context.Context, s base.Streams) (err error) {
	cfg, data, err := c.where(s)
	if err != nil {
		return err
	}
	lock, err := lock.Own(data)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, lock.Close()) }()
	book, err := archive.Open(data, archive.Options{
		Engine:  sqlite.Engine{},
		Version: base.Version,
		Repair:  true,
		Regrade: regrader(ctx, cfg),
		Tell:    teller(s),
		Context: ctx,
	})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	bar := console.NewProgress(s.Err, 2)
	n, err := book.Rebuild(ctx, who.Owner(), func(done, of int) {
		bar.SetTotal(of)
		bar.Step(s.Language.Word("sessions"))
	})
	bar.Clear()
	if err != nil {
		return err
	}
	out, err := book.LeftOut(ctx)
	if err != nil {
		return err
	}
	members := map[string]any{"sessions": n, "leftOut": out}
	err = c.done(s, members, s.Language.Wordf("The logbook holds %s.", amount.Sessions(s.Language, n)))
	if err != nil || out.Total == 0 {
		return err
	}
	return errors.New(leftOut(&out, s.Language))
}
