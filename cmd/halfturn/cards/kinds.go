package cards

import (
	"fmt"
	"text/tabwriter"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/kinds"
)

type kindsCmd struct{}

// Run lists the kinds of check.
func (kindsCmd) Run(io base.Streams) error {
	t := tabwriter.NewWriter(io.Out, 0, 8, 2, ' ', 0)
	for _, k := range kinds.All() {
		fmt.Fprintf(t, "%s\t%s\tneeds %v\tmay have %v\n", k.Name, k.Says, k.Needs, k.Allows)
	}
	return t.Flush()
}
