package cards

import (
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
)

type listCmd struct{ base.Flags }

// Run lists the cards.
func (c *listCmd) Run(io base.Streams) error {
	lib, err := libraryOf(&c.Flags, io)
	if err != nil {
		return err
	}
	t := layout.NewTable(io.Out)
	fmt.Fprintln(t, layout.Heading(t, "Maneuvers"))
	for _, k := range lib.Cards() {
		fmt.Fprintf(t, "  %s\t%s\t%s standard, %d checks\n", k.Name, k.Title, k.Standard, len(k.Checks))
	}
	fmt.Fprintln(t, layout.Heading(t, "Standards"))
	for _, d := range lib.Standards() {
		fmt.Fprintf(t, "  %s\t%s\t%s\n", d.Name, d.Title, d.Summary)
	}
	fmt.Fprintln(t, layout.Heading(t, "Aircraft"))
	for _, a := range lib.Aircraft() {
		fmt.Fprintf(t, "  %s\t%s\tentry %s, stall %s\n", a.Name, a.Title, knots(a.Entry), knots(a.Stall))
	}
	return t.Flush()
}

func knots(v float64) string {
	if v == 0 {
		return "not given"
	}
	return fmt.Sprintf("%g kt", v)
}
