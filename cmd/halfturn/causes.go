package main

import (
	"encoding/json"
	"fmt"

	"halfturn/coach/debrief"
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
func (c *causesCmd) Run(io streams) error {
	list := debrief.Meanings()
	if c.Format == "json" {
		e := json.NewEncoder(io.out)
		e.SetIndent("", "  ")
		return e.Encode(list)
	}
	for _, m := range list {
		if _, err := fmt.Fprintf(io.out, "%-22s %s\n%22s %s\n", m.ID, m.Meaning, "", m.Advice); err != nil {
			return err
		}
	}
	return nil
}
