// Package course holds the commands for courses: one file per command.
package course

import (
	"context"
	"errors"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/course"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/names"
	"halfturn/coach/stored"
	"halfturn/configs/settings"
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

// legs are those of the student, oldest first; known is the name as the logbook has it.
func (w *whom) legs(
	ctx context.Context, s base.Streams, cfg *settings.Config,
) (known string, legs []course.Flown, err error) {
	name, err := names.Person(w.Student)
	if err != nil {
		return "", nil, base.Usage(err)
	}
	data, err := base.DataDir(cfg, w.Data)
	if err != nil {
		return "", nil, err
	}
	a, err := archive.Open(data, archive.Options{
		Engine:   sqlite.Engine{},
		ReadOnly: stored.HasLogbook(data) || !stored.HasSessions(data),
		Version:  base.Version,
		Regrade:  func(dir string) (*debrief.Report, error) { return base.Judging(cfg, nil).Again(ctx, dir) },
	})
	if err != nil {
		return "", nil, err
	}
	defer func() { err = errors.Join(err, a.Close()) }()
	return stored.FlownBy(ctx, a, name, nil, time.Local)
}

// built is a course as it is flown: one that is built from a cause by what was asked for, else by what was found most
// often in the latest legs.
func (w *whom) built(s base.Streams, lib *course.Library, c *course.Course, legs []course.Flown) (*course.Course,
	error) {
	id, flown := w.Cause, w.Maneuver
	if c.BuiltFrom == "" {
		if id != "" || flown != "" {
			return nil, base.Usagef(s.Language,
				"the course %s is not built from a cause; leave out --cause and --maneuver",
				c.Name)
		}
		return c, nil
	}
	if (id == "") != (flown == "") {
		return nil, base.Usagef(s.Language, "--cause and --maneuver must be given together")
	}
	if id == "" {
		var ok bool
		if id, flown, ok = lib.Weakness(c, legs); !ok {
			return nil, base.Usagef(s.Language,
				"nothing that a course can be built from was found: name a weakness with --cause and --maneuver")
		}
	}
	built, err := lib.Against(c, id, flown)
	if err != nil {
		return nil, base.Usage(err)
	}
	return built, nil
}
