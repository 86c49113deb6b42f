// Package course holds the commands for courses: one file per command.
package course

import (
	"context"
	"errors"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/course"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/names"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
)

// Command is what is done with courses.
type Command struct {
	List  listCmd  `cmd:"" default:"1" help:"List the courses."`
	Show  showCmd  `cmd:"" help:"Show the steps of a course, and how far a student has come."`
	Check checkCmd `cmd:"" help:"Check course files, and say what is wrong with them."`
	New   newCmd   `cmd:"" help:"Begin a course of your own from another."`
	Next  nextCmd  `cmd:"" help:"Say what a student flies next: a plan for today, and why."`
	Drill drillCmd `cmd:"" help:"Say how one error is drilled, and what belongs to it."`
	Week  weekCmd  `cmd:"" help:"Say what got steadier in a student's last seven days."`

	Choose chooseCmd `cmd:"" help:"Choose the course that a student flies."`
	Rule   ruleCmd   `cmd:"" help:"Say that a step is passed, or not yet, and why."`
	Export exportCmd `cmd:"" help:"Write how a student stands, as a table, JSON or a page."`
}

// flags find the courses and the cards they name.
type flags struct {
	Config string   `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Cards  []string `help:"Folder of your own cards and courses; repeatable." placeholder:"DIR" type:"path"`
}

// read reads the configuration and the courses.
func (f *flags) read(s base.Streams) (*settings.Config, *course.Library, error) {
	cfg, err := base.Load(&base.Flags{Config: f.Config, Cards: f.Cards}, s.Env)
	if err != nil {
		return nil, nil, err
	}
	lib, err := cfg.Courses()
	return cfg, lib, err
}

// whom are the flags that name a student, and what the student works on.
type whom struct {
	Student  string `help:"The student." placeholder:"NAME"`
	Data     string `help:"Data directory." placeholder:"DIR" type:"path"`
	Cause    string `help:"Weakness, for a course built from one; halfturn causes lists them." placeholder:"NAME"`
	Maneuver string `help:"Maneuver in which that weakness shows." placeholder:"NAME"`
}

// with opens the logbook, to be changed or only to be read, and does something with the courses in it.
func (w *whom) with(
	ctx context.Context, s base.Streams, f *flags, changes bool, do func(*stored.Courses, stored.Asked) error,
) (err error) {
	cfg, lib, err := f.read(s)
	if err != nil {
		return err
	}
	asked, err := w.asked(s)
	if err != nil {
		return err
	}
	data, err := base.DataDir(s.Language, cfg, w.Data)
	if err != nil {
		return err
	}
	a, err := archive.Open(data, archive.Options{
		Engine:   sqlite.Engine{},
		ReadOnly: !changes && (stored.HasLogbook(data) || !stored.HasSessions(data)),
		Version:  base.Version,
		Regrade:  func(dir string) (*debrief.Report, error) { return base.Judging(cfg, nil).Again(ctx, dir) },
	})
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	return do(&stored.Courses{Archive: a, Library: lib, Required: cfg.Judging.RequiredOf}, asked)
}

// asked is what is asked of whom, of the course that was chosen for the student.
func (w *whom) asked(s base.Streams) (o stored.Asked, err error) {
	if w.Student == "" {
		return o, base.Usagef(s.Language, "%s is missing: say whose", "--student")
	}
	if o.Student, err = names.Person(w.Student); err != nil {
		return o, base.Usage(err)
	}
	o.Now = time.Now()
	o.Cause, o.Maneuver = w.Cause, w.Maneuver
	return o, nil
}

// of names the course, "" for the one that was chosen for the student, and checks what was said of it.
func of(s base.Streams, lib *course.Library, o *stored.Asked, name, step string) error {
	o.Course, o.Step = name, step
	if name == "" {
		if o.Cause != "" || o.Maneuver != "" {
			return base.Usagef(s.Language, "name the course that --cause and --maneuver are for")
		}
		return nil
	}
	one, err := lib.Named(name)
	if err != nil {
		return base.Usage(err)
	}
	if step != "" && one.Step(step) == nil {
		return base.Usage(course.NoStep(one, step))
	}
	_, err = built(s, lib, one, o.Cause, o.Maneuver)
	return err
}

// built is a course as it is flown, where that was said: one that is built from a cause is itself while none was named.
func built(s base.Streams, lib *course.Library, c *course.Course, cause, maneuver string) (*course.Course, error) {
	switch {
	case (cause != "" || maneuver != "") && c.BuiltFrom == "":
		return nil, base.Usagef(s.Language, "the course %s is not built from a cause; leave out --cause and --maneuver",
			c.Name)
	case (cause == "") != (maneuver == ""):
		return nil, base.Usagef(s.Language, "--cause and --maneuver must be given together")
	case cause == "":
		return c, nil
	}
	against, err := lib.Against(c, cause, maneuver)
	if err != nil {
		return nil, base.Usage(err)
	}
	return against, nil
}

// record makes the record of a student, who must be in the logbook.
func record(ctx context.Context, c *stored.Courses, o stored.Asked) (*assess.Record, error) {
	r, err := c.Record(ctx, o)
	if err == nil && !r.Known && r.Chosen.Course == "" {
		return nil, logbook.Refuse(phrase.StudentUnknown.Of(phrase.Name("student", o.Student)))
	}
	return r, err
}
