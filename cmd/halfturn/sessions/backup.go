package sessions

import (
	"context"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
)

type backupCmd struct {
	bookFlags
	File string `arg:"" help:"File to write; it must not be there yet." type:"path"`
}

// Help says what else there is to know.
func (backupCmd) Help() string {
	return "The copy is of the logbook alone, as of one moment: put back as logbook.db it is read as the other. The " +
		"recordings lie in the folder sessions of the data directory; " +
		"copy that too to have everything."
}

// Run copies the logbook.
func (c *backupCmd) Run(ctx context.Context, s base.Streams) error {
	return c.with(ctx, s, true, func(b *archive.Archive) error {
		if err := b.Backup(ctx, c.File); err != nil {
			return err
		}
		return c.done(s, map[string]any{"file": c.File}, s.Language.Wordf("The logbook is copied to %s.", c.File))
	})
}
