package main

import (
	"fmt"
	"text/tabwriter"

	"halfturn/coach/kinds"
)

type cardsKinds struct{}

// Run lists the kinds of check.
func (cardsKinds) Run(io streams) error {
	t := tabwriter.NewWriter(io.out, 0, 8, 2, ' ', 0)
	for _, k := range kinds.All() {
		fmt.Fprintf(t, "%s\t%s\tneeds %v\tmay have %v\n", k.Name, k.Says, k.Needs, k.Allows)
	}
	return t.Flush()
}
