package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"halfturn/coach/aircraft"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/configs/strict"
)

type cardsCmd struct {
	List    cardsList    `cmd:"" default:"1" help:"List the cards."`
	Show    cardsShow    `cmd:"" help:"Show a card: every check with its numbers for an aircraft, and sources."`
	Explain cardsExplain `cmd:"" help:"Explain one check: what it measures, wants and says, and how it scores."`
	New     cardsNew     `cmd:"" help:"Begin a card of your own from another."`
	Measure cardsMeasure `cmd:"" help:"Make an aircraft card from a recording."`
	Check   cardsCheck   `cmd:"" help:"Check card files, and say what is wrong with them."`
	Copy    cardsCopy    `cmd:"" help:"Copy a shipped card into a folder of your own, to change it."`
	Kinds   cardsKinds   `cmd:"" help:"List the kinds of check a card can ask for."`
}

type cardsList struct{ common }

// Run lists the cards.
func (c *cardsList) Run(io streams) error {
	lib, err := libraryOf(&c.common, io)
	if err != nil {
		return err
	}
	t := tabwriter.NewWriter(io.out, 0, 8, 2, ' ', 0)
	fmt.Fprintln(t, "Maneuvers")
	for _, k := range lib.Cards() {
		fmt.Fprintf(t, "  %s\t%s\t%s standard, %d checks\n", k.Name, k.Title, k.Standard, len(k.Checks))
	}
	fmt.Fprintln(t, "Standards")
	for _, d := range lib.Standards() {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", d.Name, d.Title, d.Summary)
	}
	fmt.Fprintln(t, "Aircraft")
	for _, a := range lib.Aircraft() {
		fmt.Fprintf(t, "  %s\t%s\tentry %s, stall %s\n", a.Name, a.Title, knots(a.Entry), knots(a.Stall))
	}
	return t.Flush()
}

func libraryOf(c *common, io streams) (*maneuver.Library, error) {
	cfg, err := loadConfig(c, io.env)
	if err != nil {
		return nil, err
	}
	return cfg.readCards()
}

func find(lib *maneuver.Library, name string) (kind string, o maneuver.Origin, err error) {
	for _, kind := range []string{"maneuvers", "standards", "aircraft"} {
		if o, ok := lib.Origin(kind, name); ok {
			return kind, o, nil
		}
	}
	return "", o, usagef("there is no card %q; halfturn cards lists them", name)
}

type cardsCheck struct {
	Files []string `arg:"" name:"file" help:"Card files." type:"path"`
}

// Run checks card files of any kind, which their keys tell.
func (c *cardsCheck) Run(ctx context.Context, io streams) error {
	var failed error
	for _, name := range c.Files {
		if ctx.Err() != nil {
			return errors.Join(failed, errInterrupted)
		}
		data, err := strict.ReadFile(name)
		if err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		kind := maneuver.KindOf(data)
		if err := checkCard(kind, name, data); err != nil {
			failed = errors.Join(failed, err)
			continue
		}
		if _, err := fmt.Fprintf(io.out, "%s: a good %s card\n", strict.Printable(name), strings.TrimSuffix(kind, "s")); err != nil {
			return errors.Join(failed, err)
		}
	}
	return failed
}

// checkCard validates a card of a kind.
func checkCard(kind, file string, data []byte) (err error) {
	switch kind {
	case "aircraft":
		_, err = aircraft.Load(file, data)
	case "standards":
		_, err = maneuver.LoadStandard(file, data)
	default:
		_, err = maneuver.LoadCard(file, data)
	}
	return err
}

type cardsCopy struct {
	common
	Name string `arg:"" help:"Name of the card."`
	Dir  string `arg:"" help:"Folder to copy it into; use it later with --cards." type:"path"`
}

// Run copies a card out, never over another file.
func (c *cardsCopy) Run(io streams) error {
	lib, err := libraryOf(&c.common, io)
	if err != nil {
		return err
	}
	kind, o, err := find(lib, c.Name)
	if err != nil {
		return err
	}
	path := filepath.Join(c.Dir, kind, c.Name+".toml")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("the card cannot be copied: %w", err)
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return fmt.Errorf("the card cannot be copied: %w", err)
	}
	_, err = f.Write(o.Text)
	if err := errors.Join(err, f.Close()); err != nil {
		return fmt.Errorf("the card cannot be copied: %w", err)
	}
	_, err = fmt.Fprintf(io.out, "%s\nChange it, check it with: halfturn cards check %s\nand use it with: --cards %s\n", path, path, c.Dir)
	return err
}

type cardsKinds struct{}

// Run lists the kinds of check.
func (cardsKinds) Run(io streams) error {
	t := tabwriter.NewWriter(io.out, 0, 8, 2, ' ', 0)
	for _, k := range kinds.All() {
		fmt.Fprintf(t, "%s\t%s\tneeds %v\tmay have %v\n", k.Name, k.Says, k.Needs, k.Allows)
	}
	return t.Flush()
}
