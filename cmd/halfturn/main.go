// Command halfturn coaches course-reversal maneuvers flown in a home flight simulator.
//
// For simulator practice only: never in an aircraft.
package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/alecthomas/kong"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/cards"
	"halfturn/cmd/halfturn/certificates"
	"halfturn/cmd/halfturn/cluster"
	"halfturn/cmd/halfturn/console"
	"halfturn/cmd/halfturn/course"
	"halfturn/cmd/halfturn/doctor"
	"halfturn/cmd/halfturn/logbook"
	"halfturn/cmd/halfturn/people"
	"halfturn/cmd/halfturn/sessions"
	"halfturn/cmd/halfturn/signals"
	"halfturn/cmd/halfturn/students"
	"halfturn/coach"
	"halfturn/coach/layout"
	"halfturn/configs/settings"
	"halfturn/configs/strict"
	"halfturn/stream/phrase"
)

// Exit statuses.
const (
	exitDone   = 0
	exitFailed = 1
	exitUsage  = 2
)

const about = "A coach for course-reversal maneuvers in a home flight simulator: it follows the stream, calls the " +
	"checkpoints, grades each leg and says what to change.\n\n"

// cli is every command with its flags.
type cli struct {
	Serve       serveCmd             `cmd:"" help:"Listen to simulators, coach, and serve the pages."`
	Demo        demoCmd              `cmd:"" help:"Serve, with the built-in aircraft flying."`
	Fly         flyCmd               `cmd:"" help:"Only the built-in aircraft, sending its stream."`
	Grade       gradeCmd             `cmd:"" help:"Recordings in, grades out."`
	Sessions    sessions.Command     `cmd:"" help:"Export, import and re-grade recorded sessions."`
	Logbook     logbook.Command      `cmd:"" help:"Where the logbook is kept: copy it into a database, or back."`
	Students    students.Command     `cmd:"" help:"Grade sheets, and what is stored about people."`
	Users       people.Users         `cmd:"" help:"Add, list and remove those who log in by name and password."`
	Stations    people.Stations      `cmd:"" help:"Stations that have a key, and groups."`
	Invitations people.Invitations   `cmd:"" help:"Links by which a guest watches one station."`
	TLS         certificates.Command `cmd:"" name:"tls" help:"Make what serves the pages over TLS."`
	Cluster     cluster.Command      `cmd:"" help:"Look at the engines of a cluster of servers."`

	Brief      briefCmd       `cmd:"" help:"The numbers for one maneuver in one aircraft."`
	Cards      cards.Command  `cmd:"" help:"List, show, check and copy out the cards."`
	Causes     causesCmd      `cmd:"" help:"List the causes a debrief can name, and their advice."`
	Course     course.Command `cmd:"" help:"Courses: their steps, and how far a student has come."`
	Doctor     doctor.Command `cmd:"" help:"What on this machine stands in the way, and what to do."`
	Probe      probeCmd       `cmd:"" help:"What arrives on a port, and what is missing."`
	Simulators simulatorsCmd  `cmd:"" help:"How each simulator is set up, and the files for it."`
	Version    versionCmd     `cmd:"" help:"Print the version."`

	Language *string `help:"${help_language}" placeholder:"CODE"`
}

func main() {
	ctx := signals.UntilInterrupted(os.Stderr)
	status := run(ctx, os.Args[1:], base.Streams{
		Enter: typed(),
		Out:   os.Stdout,
		Err:   os.Stderr,
		Env:   os.LookupEnv,
	})
	if status != exitDone {
		console.HoldWindow()
	}
	os.Exit(status)
}

// run is the whole program: it returns the exit status.
func run(ctx context.Context, args []string, io base.Streams) int {
	var c cli
	exited := -1
	out, errs := console.New(io.Out), console.New(io.Err)
	defer out.Close()
	defer errs.Close()
	io.Out, io.Err = out, errs
	parser, err := kong.New(&c,
		kong.Name("halfturn"),
		kong.Description(about+strings.Join(coach.Cautions[:], " ")),
		kong.Writers(io.Out, io.Err),
		kong.Exit(func(code int) { exited = code }),
		kong.UsageOnError(),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.BindTo(ctx, (*context.Context)(nil)),
		kong.Bind(io),
		kong.PostBuild(expanded),
	)
	if err != nil {
		fmt.Fprintf(io.Err, "halfturn: %v\n", err)
		return exitFailed
	}
	if len(args) == 0 { // a double click
		args = []string{"serve", "--open"}
	}
	if args[0] == "help" { // as other programs are asked; no command of its own, which every list would have
		args = append([]string{"--help"}, args[1:]...)
	}
	parsed, err := parser.Parse(args)
	if exited >= 0 { // --help
		return exited
	}
	if err == nil {
		if io.Language, err = languageOf(parsed, c.Language, io.Env); err == nil {
			err = parsed.Run(io)
		}
	} else {
		io.Language = languageAsked(args, io.Env)
		err = wrongCall(io.Language, err)
	}
	return report(err, &io)
}

// report prints an error in one line and returns the exit status it stands for.
func report(err error, io *base.Streams) int {
	var usage base.UsageError
	var setting settings.Error
	if err == nil {
		return exitDone
	}
	page := layout.NewPage(io.Err)
	fmt.Fprintf(page, "halfturn: %s\n", inOneLine(err, io.Language))
	_ = page.Err() // nowhere is left to say it
	if errors.As(err, &usage) || errors.As(err, &setting) {
		return exitUsage
	}
	return exitFailed
}

// inOneLine is an error without what a terminal would obey: it may quote what a file or a sender holds.
func inOneLine(err error, in *phrase.Language) string {
	return strict.Printable(strings.ReplaceAll(in.Error(err), "\n", "; "))
}

// typed waits for Enter at the terminal; see [base.Streams]. It is nil where there is none.
func typed() func(context.Context) bool {
	if !console.IsTerminal(os.Stdin) {
		return nil
	}
	return func(ctx context.Context) bool { return console.Enter(ctx, os.Stdin) }
}
