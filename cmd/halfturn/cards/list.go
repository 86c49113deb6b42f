package cards

import (
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

type listCmd struct{ base.Flags }

// Run lists the cards.
func (c *listCmd) Run(io base.Streams) error {
	lib, err := libraryOf(&c.Flags, io)
	if err != nil {
		return err
	}
	in := io.Language
	t := layout.NewTable(io.Out)
	fmt.Fprintln(t, layout.Heading(t, in.Word("Maneuvers")))
	for _, k := range lib.Cards() {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", k.Name, in.Text(k.Title), in.Wordf("%s standard, %d checks", k.Standard,
			len(k.Checks)))
	}
	fmt.Fprintln(t, layout.Heading(t, in.Word("Standards")))
	for _, d := range lib.Standards() {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", d.Name, in.Text(d.Title), in.Text(d.Summary))
	}
	fmt.Fprintln(t, layout.Heading(t, in.Word("Aircraft")))
	for _, a := range lib.Aircraft() {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", a.Name, in.Text(a.Title), in.Wordf("entry %s, stall %s", knots(in, a.Entry),
			knots(in, a.Stall)))
	}
	return t.Flush()
}

func knots(in *phrase.Language, v float64) string {
	if v == 0 {
		return in.Word("not given")
	}
	return in.Number(v, -1) + " kt"
}
