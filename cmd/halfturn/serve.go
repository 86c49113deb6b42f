package main

import (
	"context"
	"fmt"
	"sync"

	"halfturn/coach/debrief"
	"halfturn/coach/debrief/text"
)

type serveCmd struct {
	common
	listening
}

// Help says how it ends.
func (serveCmd) Help() string {
	return "Ctrl-C, or SIGTERM, ends it: it keeps what was flown, and prints it. A second one ends it at once, even " +
		"where a disk does not answer; the next start then repairs the recordings. SIGHUP ends it when a terminal " +
		"started it, for that has gone; without a terminal, as a service, it goes on, and says so in the log: a " +
		"changed configuration needs a restart. Under nohup it goes on in any case."
}

// Run serves until it is interrupted, and prints what was flown.
func (s *serveCmd) Run(ctx context.Context, io streams) error {
	cfg, err := loadConfig(&s.common, io.env, s.listening.apply)
	if err != nil {
		return err
	}
	print := printer{io: io}
	l, err := start(ctx, cfg, io, print.session, nil)
	if err != nil {
		return err
	}
	return l.serve(ctx)
}

// printer prints sessions as they end, one at a time.
type printer struct {
	io streams
	mu sync.Mutex
	n  int
}

func (p *printer) session(r *debrief.Report) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.n++
	if err := text.Report(p.io.out, r); err != nil {
		fmt.Fprintf(p.io.err, "halfturn: the summary cannot be printed: %v\n", err)
	}
}
