package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"halfturn/coach/grading"
	"halfturn/coach/maneuver"
	"halfturn/coach/maneuver/draft"
	"halfturn/configs/strict"
	"halfturn/configs/tomlfile"
)

type cardsCheck struct {
	Files []string `arg:"" name:"file" help:"Card files." type:"path"`
}

// Run checks card files of any kind, which their keys tell.
func (c *cardsCheck) Run(ctx context.Context, io streams) error {
	var failed error
	for _, name := range c.Files {
		if ctx.Err() != nil {
			return errors.Join(failed, grading.ErrInterrupted)
		}
		text, err := tomlfile.Read(name)
		if err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		kind := maneuver.KindOf(text)
		if err := draft.Check(kind, name, text); err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		kind = strings.TrimSuffix(kind, "s")
		if _, err := fmt.Fprintf(io.out, "%s: a good %s card\n", strict.Printable(name), kind); err != nil {
			return errors.Join(failed, err)
		}
	}
	return failed
}
