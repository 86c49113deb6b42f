// Package signals says what ends the program: Ctrl-C, SIGTERM, and SIGHUP where a terminal started it. Elsewhere SIGHUP
// has a service read its configuration again.
package signals

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"sync"
	"syscall"
	"time"

	"halfturn/cmd/halfturn/console"
)

const (
	// failed is the exit status after a second signal.
	failed = 1
	// oneTouch is how soon after a signal another one is the same: some programs that run others pass on a Ctrl-C that
	// the terminal sent to all of them.
	oneTouch = 50 * time.Millisecond
	// lastWords is how long a standard error that nobody reads may hold up the end.
	lastWords = 100 * time.Millisecond
)

// UntilInterrupted returns a context that ends with the first Ctrl-C, or SIGTERM, and with SIGHUP where a terminal
// started the program: that terminal has gone. The second Ctrl-C, or SIGTERM, ends the process at once, whatever it is
// doing.
func UntilInterrupted(words io.Writer) context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	touches := make(chan os.Signal, 8)
	signal.Notify(touches, os.Interrupt, syscall.SIGTERM)
	if hangUps() && fromTerminal() {
		signal.Notify(touches, syscall.SIGHUP)
	}
	go func() {
		var first time.Time
		for s := range touches { // until the process ends
			switch {
			case ctx.Err() == nil:
				first = time.Now()
				signal.Ignore(syscall.SIGPIPE) // what reads the output may have been told to end too
				cancel()
			case s != syscall.SIGHUP && time.Since(first) > oneTouch:
				endAtOnce(words)
			}
		}
	}()
	return ctx
}

// endAtOnce ends the process.
func endAtOnce(words io.Writer) {
	said := make(chan struct{})
	go func() {
		defer close(said)
		fmt.Fprintln(words, "halfturn: ended at once, as a second signal asked for; what was not written yet is lost")
	}()
	select {
	case <-said:
	case <-time.After(lastWords):
	}
	os.Exit(failed)
}

// hangUps reports whether SIGHUP is for this program to handle: nohup, for one, has it ignored.
func hangUps() bool { return !signal.Ignored(syscall.SIGHUP) }

// fromTerminal reports whether a terminal started the program.
func fromTerminal() bool {
	return console.IsTerminal(os.Stdin) || console.IsTerminal(os.Stderr)
}

// HangUps takes the SIGHUPs that a server without a terminal receives, which tell services to read their configuration
// again. From begin on, a function is called for them, one call at a time; one that came before is not lost. stop ends
// that, and waits for the last call. Where a terminal started the program, SIGHUP ends it instead; see
// [UntilInterrupted].
func HangUps() (begin func(call func()), stop func()) {
	if !hangUps() || fromTerminal() {
		return func(func()) {}, func() {}
	}
	received := make(chan os.Signal, 1)
	signal.Notify(received, syscall.SIGHUP)
	var calls sync.WaitGroup
	begin = func(call func()) {
		calls.Go(func() {
			for range received {
				call()
			}
		})
	}
	return begin, func() {
		signal.Stop(received)
		close(received)
		calls.Wait()
	}
}
