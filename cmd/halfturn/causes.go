package main

import (
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/cause"
	"halfturn/coach/layout"
)

type causesCmd struct {
	Format string `help:"text or json." enum:"text,json" default:"text"`
}

// Help says where the ids are met.
func (causesCmd) Help() string {
	return "Every cause a debrief can name, with its id as it stands in summary.json, what it means, and the advice " +
		"that goes with it."
}

// Run lists the causes.
func (c *causesCmd) Run(io base.Streams) error {
	list := cause.Meanings()
	if c.Format == "json" {
		return base.Indented(io.Out, list)
	}
	t := layout.NewTable(io.Out)
	for _, m := range list {
		fmt.Fprintf(t, "%s\t%s\n\t%s\n", m.ID, io.Language.Word(m.Meaning), io.Language.Told(m.Advice))
	}
	return t.Flush()
}
