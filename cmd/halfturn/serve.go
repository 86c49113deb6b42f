package main

import (
	"context"
	"fmt"
	"sync"

	"halfturn/coach/debrief"
)

type serveCmd struct {
	common
	listening
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
	if err := r.Text(p.io.out); err != nil {
		fmt.Fprintf(p.io.err, "halfturn: the summary cannot be printed: %v\n", err)
	}
}
