package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"halfturn/coach/maneuver/draft"
)

type cardsNew struct {
	common
	From string `help:"Card to begin from, of a maneuver, a standard or an aircraft." placeholder:"NAME" required:""`
	File string `arg:"" help:"File to write, such as mine.toml; it names the card." type:"path"`
}

// Run writes a card of the user's own, begun from another, never over another file.
func (c *cardsNew) Run(io streams) error {
	lib, err := libraryOf(&c.common, io)
	if err != nil {
		return err
	}
	kind, o, err := findCard(lib, c.From)
	if err != nil {
		return err
	}
	text, err := draft.Rename(kind, c.File, o.Text)
	if err != nil {
		return usageError{err}
	}
	if err := draft.Write(c.File, text); err != nil {
		return fmt.Errorf("the card cannot be written: %w", err)
	}
	name := strings.TrimSuffix(filepath.Base(c.File), ".toml")
	use := map[string]string{
		"maneuvers": "--maneuver " + c.File,
		"aircraft":  "--aircraft " + c.File,
		"standards": "--cards DIR --standard " + name + ", after moving it to DIR/standards",
	}[kind]
	_, err = fmt.Fprintf(io.out, "%s\nChange it, check it with: halfturn cards check %s\nand use it with: %s\n",
		c.File, c.File, use)
	return err
}
