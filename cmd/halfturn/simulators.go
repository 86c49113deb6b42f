package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
	"halfturn/configs/guide"
)

type simulatorsCmd struct {
	List simulatorsList `cmd:"" default:"1" help:"List the simulators there are guides for."`
	Show simulatorsShow `cmd:"" help:"Print the steps for one."`
	Copy simulatorsCopy `cmd:"" help:"Write the files for simulators into a folder."`
}

type simulatorsList struct{}

// Run lists the guides.
func (simulatorsList) Run(io base.Streams) error {
	in := io.Language
	list, err := guide.All()
	if err != nil {
		return err
	}
	page := layout.NewPage(io.Out)
	t := layout.NewTable(page)
	for i := range list {
		fmt.Fprintf(t, "%s\t%s\n", list[i].Name, in.Text(list[i].Title))
	}
	_ = t.Flush() // the page keeps the error
	fmt.Fprintf(page, "\n%s\n", in.Word("The steps: halfturn simulators show NAME"))
	fmt.Fprintln(page, in.Word("The files: halfturn simulators copy DIR"))
	return page.Err()
}

type simulatorsShow struct {
	Name string `arg:"" help:"A name of the list."`
}

// Run prints a guide.
func (s *simulatorsShow) Run(io base.Streams) error {
	list, err := guide.All()
	if err != nil {
		return err
	}
	names := []string{}
	for i := range list {
		if list[i].Name == s.Name {
			page := layout.NewPage(io.Out)
			fmt.Fprint(page, list[i].Text(io.Language))
			return page.Err()
		}
		names = append(names, list[i].Name)
	}
	return base.Usagef(io.Language, "there is no guide %q; there are: %s", s.Name, strings.Join(names, ", "))
}

type simulatorsCopy struct {
	Dir string `arg:"" help:"Folder to write into; it is made where it is not there." type:"path"`
}

// Run writes the files out, never over others.
func (s *simulatorsCopy) Run(io base.Streams) error {
	written := func(path string) { fmt.Fprintln(io.Out, path) }
	if err := guide.Copy(s.Dir, written); err != nil {
		return base.Failf(io.Language, "the files cannot be written: %w", err)
	}
	steps := io.Language.Wordf("The steps are in %s, and in: halfturn simulators show NAME",
		filepath.Join(s.Dir, "README.md"))
	_, err := fmt.Fprintf(io.Out, "\n%s\n", steps)
	return err
}
