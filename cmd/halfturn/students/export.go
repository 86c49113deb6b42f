package students

import (
	"context"
	"io"
	"strings"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive"
	"halfturn/coach/names"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
)

type exportCmd struct {
	bookFlags
	Name   []string `arg:"" help:"Whose data."`
	Output string   `short:"o" help:"The zip; left out: standard output." placeholder:"FILE" type:"path"`
	Force  bool     `help:"Write over the output file."`
}

// Help says what else there is to know.
func (exportCmd) Help() string {
	return "The zip holds the whole folder of each session that they flew (recording, grades, acts, cards), what the " +
		"logbook knows of it, and of the sessions of others the acts in which they are named.\n\n" +
		"  halfturn students export Ada Example -o ada.zip"
}

// Run writes the zip.
func (c *exportCmd) Run(ctx context.Context, s base.Streams) error {
	name, err := names.Person(strings.Join(c.Name, " "))
	if err != nil {
		return base.Usage(err)
	}
	return c.with(ctx, s, false, func(a *archive.Archive, _ *settings.Config) error {
		if _, err := a.Person(ctx, name); err != nil { // before a file is made
			return err
		}
		var p *archive.Person
		write := func(w io.Writer) (err error) {
			p, err = a.ExportPerson(ctx, w, name)
			return err
		}
		if c.Output == "" || c.Output == "-" {
			return write(console.Raw(s.Out))
		}
		if err := stored.WriteFile(c.Output, c.Force, write); err != nil {
			return err
		}
		return say(s, "%s: sessions flown by %s: %d, sessions of others that name them: %d.", c.Output, p.Name,
			len(p.Sessions), len(p.Named))
	})
}
