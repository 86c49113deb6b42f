package cards

import (
	"cmp"
	"fmt"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/kinds"
	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

type kindsCmd struct{}

// Run lists the kinds of check.
func (kindsCmd) Run(io base.Streams) error {
	in := io.Language
	t := layout.NewTable(io.Out, layout.Below{Column: 3}, layout.Below{Column: 2})
	for _, k := range kinds.All() {
		needs, allows := in.Wordf("needs %s", keys(in, k.Needs)), in.Wordf("may have %s", keys(in, k.Allows))
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", k.Name, in.Word(k.Says), needs, allows)
	}
	return t.Flush()
}

// keys lists keys of a card.
func keys(in *phrase.Language, all []string) string {
	return cmp.Or(strings.Join(all, ", "), in.Word("nothing"))
}
