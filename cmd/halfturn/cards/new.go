package cards

import (
	"path/filepath"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/maneuver/draft"
)

type newCmd struct {
	base.Flags
	From string `help:"Card to begin from, of a maneuver, a standard or an aircraft." placeholder:"NAME" required:""`
	File string `arg:"" help:"File to write, such as mine.toml; it names the card." type:"path"`
}

// Run writes a card of the user's own, begun from another, never over another file.
func (c *newCmd) Run(io base.Streams) error {
	lib, err := libraryOf(&c.Flags, io)
	if err != nil {
		return err
	}
	kind, o, err := findCard(io.Language, lib, c.From)
	if err != nil {
		return err
	}
	text, err := draft.Rename(kind, c.File, o.Text)
	if err != nil {
		return base.Usage(err)
	}
	if err := draft.Write(c.File, text); err != nil {
		return base.Failf(io.Language, "the card cannot be written: %w", err)
	}
	name := strings.TrimSuffix(filepath.Base(c.File), ".toml")
	use := map[string]string{
		"maneuvers": "--maneuver " + c.File,
		"aircraft":  "--aircraft " + c.File,
		"standards": "--cards DIR --standard " + name + io.Language.Word(", after moving it to DIR/standards"),
	}[kind]
	return written(io, c.File, use)
}
