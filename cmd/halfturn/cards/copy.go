package cards

import (
	"os"
	"path/filepath"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/maneuver/draft"
)

type copyCmd struct {
	base.Flags
	Name string `arg:"" help:"Name of the card."`
	Dir  string `arg:"" help:"Folder to copy it into; use it later with --cards." type:"path"`
}

// Run copies a card out, never over another file.
func (c *copyCmd) Run(io base.Streams) error {
	lib, err := libraryOf(&c.Flags, io)
	if err != nil {
		return err
	}
	kind, o, err := findCard(io.Language, lib, c.Name)
	if err != nil {
		return err
	}
	path := filepath.Join(c.Dir, kind, c.Name+".toml")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return base.Failf(io.Language, "the card cannot be copied: %w", err)
	}
	if err := draft.Write(path, o.Text); err != nil {
		return base.Failf(io.Language, "the card cannot be copied: %w", err)
	}
	return written(io, path, "--cards "+c.Dir)
}
