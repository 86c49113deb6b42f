package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
)

type cardsNew struct {
	common
	From string `help:"Card to begin from, of a maneuver, a standard or an aircraft." placeholder:"NAME" required:""`
	File string `arg:"" help:"File to write: mine.toml. The card is named like it." type:"path"`
}

var nameLine = regexp.MustCompile(`(?m)^name[ \t]*=.*$`)

// Run writes a card of the user's own, begun from another, never over another file.
func (c *cardsNew) Run(io streams) error {
	lib, err := libraryOf(&c.common, io)
	if err != nil {
		return err
	}
	kind, o, err := find(lib, c.From)
	if err != nil {
		return err
	}
	name, ok := strings.CutSuffix(filepath.Base(c.File), ".toml")
	if !ok {
		return usagef("%s: a card's file ends in .toml", c.File)
	}
	text := string(o.Text)
	if at := nameLine.FindStringIndex(text); at != nil { // the first: phases have names too
		text = text[:at[0]] + fmt.Sprintf("name = %q", name) + text[at[1]:]
	}
	if err := checkCard(kind, c.File, []byte(text)); err != nil { // the name is all that changed
		return usageError{err}
	}
	if err := writeNewCard(c.File, []byte(text)); err != nil {
		return err
	}
	use := map[string]string{"maneuvers": "--maneuver " + c.File, "aircraft": "--aircraft " + c.File, "standards": "--cards DIR --standard " + name + ", after putting it into DIR/standards"}[kind]
	_, err = fmt.Fprintf(io.out, "%s\nChange it, check it with: halfturn cards check %s\nand use it with: %s\n", c.File, c.File, use)
	return err
}

// writeNewCard writes a file that must not be there yet.
func writeNewCard(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return fmt.Errorf("the card cannot be written: %w", err)
	}
	_, err = f.Write(data)
	if err := errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("the card cannot be written: %w", err)
	}
	return nil
}
