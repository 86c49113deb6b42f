package sessions

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/debrief/text"
	"halfturn/coach/grading"
	"halfturn/coach/layout"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

type regradeCmd struct {
	base.Flags
	Data    string `help:"Data directory." placeholder:"DIR" type:"path"`
	Session string `arg:"" help:"Session by name or folder, or a capture file; last is the newest session."`
	Against string `help:"${help_regrade_against}" placeholder:"FILE" type:"path"`
	Format  string `help:"${help_regrade_format}" enum:"text,json" default:"text" placeholder:"FORMAT"`
}

// Help says what else there is to know.
func (regradeCmd) Help() string {
	return "Choose another --maneuver, --standard or --aircraft, or other --cards. The new grades of a session are " +
		"kept beside the first as regrade-0001.json and so on; nothing is written over."
}

// Run grades again.
func (r *regradeCmd) Run(ctx context.Context, s base.Streams) error {
	cfg, err := base.Load(&r.Flags, s.Env)
	if err != nil {
		return err
	}
	data, err := base.DataDir(s.Language, cfg, r.Data)
	if err != nil {
		return err
	}
	if r.Session, err = stored.Named(ctx, data, r.Session, sqlite.Engine{}); err != nil {
		return err
	}
	rec, err := stored.Find(ctx, data, r.Session)
	if err != nil {
		return err
	}
	by := base.Judging(cfg, &r.Flags)
	by.Today = true
	again := &stored.Regrade{Judge: by, Against: r.Against, By: who.Owner()}
	if stored.In(data, rec) {
		again.Archive = func() (stored.Keeper, error) { return openBook(ctx, cfg, data) }
	}
	out, failed := again.Run(ctx, rec)
	if out == nil {
		return failed
	}
	return errors.Join(r.show(s.Out, out, s.Language), failed)
}

func (r *regradeCmd) show(to io.Writer, out *stored.Regraded, in *phrase.Language) error {
	if r.Format == "json" {
		return base.Indented(to, out)
	}
	w := layout.NewPage(to)
	if !out.Compared {
		fmt.Fprintln(w, in.Word("There are no grades to compare with; these are the first."))
		return grading.Print(w, out.Report, "text", in)
	}
	for _, c := range out.Cautions {
		fmt.Fprintln(w, in.Text(c))
	}
	fmt.Fprintf(w, "\n%s\n", text.JudgedBy(out.Report.Files[0].By, in))
	for _, note := range out.Report.Files[0].Notes {
		fmt.Fprintln(w, in.Say(note))
	}
	if err := text.Differences(w, out.Differences, in); err != nil {
		return err
	}
	if out.Kept != "" {
		fmt.Fprintln(w, r.kept(out.Kept, in))
	}
	return w.Err()
}

// kept says where the new grades are, and how they are shown: the first of them are the second grading.
func (r *regradeCmd) kept(file string, in *phrase.Language) string {
	n := 0
	if _, err := fmt.Sscanf(filepath.Base(file), "regrade-%d.json", &n); err != nil {
		return in.Wordf("The new grades are kept in %s", file)
	}
	return in.Wordf("The new grades are kept in the session's folder as %s. To show them: halfturn sessions show %s "+
		"--grading %d", filepath.Base(file), r.Session, n+1)
}
