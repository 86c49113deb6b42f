package course

import (
	"context"
	"errors"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/course"
	"halfturn/coach/grading"
	"halfturn/configs/strict"
	"halfturn/configs/tomlfile"
)

type checkCmd struct {
	flags
	Files []string `arg:"" name:"file" help:"Course files." type:"path"`
}

// Run checks course files by the cards that they name.
func (c *checkCmd) Run(ctx context.Context, s base.Streams) error {
	_, lib, err := c.read(s)
	if err != nil {
		return err
	}
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
		one, err := course.Load(name, text, lib.Cards())
		if err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		if _, err := fmt.Fprintf(s.Out, "%s: %s\n", strict.Printable(name),
			s.Language.Wordf("a good course, steps: %d", len(one.Steps))); err != nil {
			return errors.Join(failed, err)
		}
	}
	return failed
}
