package console

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"sync"
)

// A Progress is a bar on a terminal, and nothing elsewhere. Several goroutines may use it.
type Progress struct {
	mu      sync.Mutex
	w       io.Writer // nil where w is not a terminal
	columns int
	n, of   int
}

// NewProgress starts a bar of that number of steps; a single step shows no bar.
func NewProgress(w io.Writer, of int) *Progress {
	p := &Progress{of: of}
	if of > 1 && IsTerminal(w) {
		p.w = Raw(w)
		p.columns, _ = Size(w)
	}
	return p
}

// SetTotal changes the number of steps.
func (p *Progress) SetTotal(of int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.of = of
}

// Step draws that one more step is done, and its name.
func (p *Progress) Step(name string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.n++
	if p.w != nil {
		fmt.Fprintf(p.w, "\r\x1b[K%s", p.line(name))
	}
}

// line is the bar with the name of the last step, no wider than the terminal.
func (p *Progress) line(name string) string {
	const width = 24
	full := width * p.n / max(p.of, 1)
	bar := strings.Repeat("=", full) + strings.Repeat(" ", width-full)
	line := []rune(fmt.Sprintf("[%s] %d/%d  %s", bar, p.n, p.of, Line(filepath.Base(name))))
	return string(line[:min(len(line), max(p.columns-1, 1))])
}

// Clear removes the bar.
func (p *Progress) Clear() {
	if p.w != nil {
		fmt.Fprint(p.w, "\r\x1b[K")
	}
}
