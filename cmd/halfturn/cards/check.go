package cards

import (
	"context"
	"errors"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/grading"
	"halfturn/coach/maneuver"
	"halfturn/coach/maneuver/draft"
	"halfturn/configs/strict"
	"halfturn/configs/tomlfile"
)

type checkCmd struct {
	Files []string `arg:"" name:"file" help:"Card files." type:"path"`
}

// Run checks card files of any kind, which their keys tell.
func (c *checkCmd) Run(ctx context.Context, io base.Streams) error {
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
		kind := maneuver.FolderOf(text)
		if err := draft.Check(kind, name, text); err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		good := map[string]string{
			"maneuvers": io.Language.Word("a good maneuver card"),
			"standards": io.Language.Word("a good standard card"),
			"aircraft":  io.Language.Word("a good aircraft card"),
		}[kind]
		if _, err := fmt.Fprintf(io.Out, "%s: %s\n", strict.Printable(name), good); err != nil {
			return errors.Join(failed, err)
		}
	}
	return failed
}
