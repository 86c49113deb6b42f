package course

import (
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/course"
	"halfturn/coach/maneuver/draft"
)

type newCmd struct {
	flags
	From string `help:"Course to begin from." placeholder:"NAME" default:"first"`
	File string `arg:"" help:"File to write, such as mine.toml; it names the course." type:"path"`
}

// Run writes a course of the user's own, begun from another, never over another file.
func (c *newCmd) Run(s base.Streams) error {
	_, lib, err := c.read(s)
	if err != nil {
		return err
	}
	if _, err := lib.Named(c.From); err != nil {
		return base.Usage(err)
	}
	o, _ := lib.Origin(c.From)
	text, err := draft.Renamed(c.File, o.Text)
	if err == nil {
		_, err = course.Load(c.File, text, lib.Cards())
	}
	if err != nil {
		return base.Usage(err)
	}
	if err := draft.Write(c.File, text); err != nil {
		return base.Failf(s.Language, "the course cannot be written: %w", err)
	}
	_, err = fmt.Fprintf(s.Out, "%s\n%s\n%s\n", c.File,
		s.Language.Wordf("Change it, check it with: halfturn course check %s", c.File),
		s.Language.Word("and use it with --cards DIR, after moving it to DIR/courses"))
	return err
}
