package course

import (
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
)

type listCmd struct {
	flags
	Format string `help:"text or json." enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Run lists the courses.
func (c *listCmd) Run(s base.Streams) error {
	_, lib, err := c.read(s)
	if err != nil {
		return err
	}
	if c.Format == "json" {
		return base.Indented(s.Out, map[string]any{"version": 1, "courses": lib.Courses()})
	}
	in := s.Language
	t := layout.NewTable(s.Out)
	fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", in.Word("COURSE"), in.Word("STEPS"), in.Word("TITLE"), in.Word("WHAT IT IS"))
	for _, one := range lib.Courses() {
		fmt.Fprintf(t, "%s\t%d\t%s\t%s\n", one.Name, len(one.Steps), in.Text(one.Title), in.Text(one.Summary))
	}
	return t.Flush()
}
