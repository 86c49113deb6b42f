package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/mattn/go-isatty"

	"halfturn/cmd/halfturn/console"
	"halfturn/coach/archive/play"
	"halfturn/coach/debrief"
	"halfturn/coach/stored"
)

// recordings lists what is to be read: the files and sessions named, and those in the folders named, in order.
func recordings(ctx context.Context, args []string) ([]string, error) {
	var all []string
	for _, name := range args {
		found, err := play.Find(ctx, name)
		if err != nil && ctx.Err() != nil {
			return nil, errInterrupted
		}
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// gradeAll grades files side by side and returns them in their order, whichever was ready
// first. When ctx ends it returns those that were graded to their end.
func gradeAll(ctx context.Context, files []string, by *stored.Judge, jobs int, bar *progress) []debrief.File {
	if jobs == 0 {
		jobs = runtime.GOMAXPROCS(0)
	}
	graded, done := make([]debrief.File, len(files)), make([]bool, len(files))
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(jobs, len(files)) {
		wait.Go(func() {
			for i := range next {
				f := debrief.File{File: files[i], Stations: []debrief.Station{}}
				err := gradeFile(ctx, files[i], by, &f)
				if err != nil && ctx.Err() != nil {
					continue
				}
				if err != nil {
					f.Error = err.Error()
				}
				graded[i], done[i] = f, true
				bar.step(files[i])
			}
		})
	}
feed:
	for i := range files {
		select {
		case next <- i:
		case <-ctx.Done():
			break feed
		}
	}
	close(next)
	wait.Wait()
	kept := []debrief.File{}
	for i := range graded {
		if done[i] {
			kept = append(kept, graded[i])
		}
	}
	return kept
}

// A progress is a bar on a terminal, and nothing elsewhere.
type progress struct {
	mu      sync.Mutex
	w       io.Writer // nil: not a terminal
	columns int
	n, of   int
}

func newProgress(w io.Writer, of int) *progress {
	p := &progress{of: of}
	if f, ok := console.File(w); ok && of > 1 && isatty.IsTerminal(f.Fd()) {
		p.w = f
		p.columns, _ = terminalSize(f)
	}
	return p
}

// step draws that one more file is done.
func (p *progress) step(name string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.n++
	if p.w != nil {
		fmt.Fprintf(p.w, "\r\x1b[K%s", p.line(name))
	}
}

// line is the bar with what was graded last, no wider than the terminal.
func (p *progress) line(name string) string {
	const width = 24
	full := width * p.n / max(p.of, 1)
	line := []rune(fmt.Sprintf("[%s%s] %d of %d  %s", strings.Repeat("=", full), strings.Repeat(" ", width-full), p.n, p.of,
		console.Line(filepath.Base(name))))
	return string(line[:min(len(line), max(p.columns-1, 1))])
}

// clear takes the bar away.
func (p *progress) clear() {
	if p.w != nil {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
