package cards

import (
	"cmp"
	"fmt"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
)

type kindsCmd struct{}

// Run lists the kinds of check.
func (kindsCmd) Run(io base.Streams) error {
	t := layout.NewTable(io.Out, layout.Below{Column: 3}, layout.Below{Column: 2})
	for _, k := range kinds.All() {
		fmt.Fprintf(t, "%s\t%s\tneeds %s\tmay have %s\n", k.Name, k.Says, keys(k.Needs), keys(k.Allows))
	}
	return t.Flush()
}

// keys lists keys of a card.
func keys(all []string) string { return cmp.Or(strings.Join(all, ", "), "nothing") }
