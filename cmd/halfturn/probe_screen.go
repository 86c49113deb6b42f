package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"strings"
	"sync"
	"time"

	"github.com/mattn/go-isatty"

	"halfturn/cmd/halfturn/console"
	"halfturn/coach/session"
)

// A screen shows what is heard: redrawn in place on a terminal, in lines elsewhere.
type screen struct {
	out, err io.Writer
	live     bool
	json     bool
	card     string
	size     func() (columns, rows int)
	started  time.Time
	asked    bool // a simulator is asked for its values
	where    []netip.AddrPort
	drawn    int               // lines on the terminal now
	told     map[string]string // by sender, the line last printed

	mu    sync.Mutex
	notes []string
}

func (p *probeCmd) screen(io streams, cfg *config) *screen {
	s := &screen{out: io.out, err: io.err, asked: cfg.Subscribe.Address != "" || cfg.Subscribe.Discover, json: p.Format == "json", card: cfg.Maneuver, started: time.Now(), told: map[string]string{}}
	term, _ := io.env("TERM")
	if f, ok := console.File(io.out); ok && !s.json && term != "dumb" && isatty.IsTerminal(f.Fd()) {
		s.live, s.size = true, func() (int, int) { return terminalSize(f) }
	}
	return s
}

const notesKept = 5

// note shows something beside the table.
func (s *screen) note(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.live {
		fmt.Fprintf(s.err, "halfturn: %s\n", text)
		return
	}
	s.notes = append(s.notes, text)
	if len(s.notes) > notesKept {
		s.notes = s.notes[1:]
	}
}

func (s *screen) begin(where []netip.AddrPort) {
	s.where = where
	if !s.live {
		fmt.Fprintf(s.err, "listening on %s; Ctrl-C ends it\n", s.addresses())
	}
}

func (s *screen) addresses() string {
	list := make([]string, len(s.where))
	for i, a := range s.where {
		list[i] = a.String()
	}
	return strings.Join(list, " and ")
}

// follow shows what comes until the context ends.
func (s *screen) follow(ctx context.Context, h *heard) {
	ticker := time.NewTicker(redraw)
	defer ticker.Stop()
	for {
		switch list := h.all(); {
		case s.live:
			s.draw(list)
		case !s.json:
			s.tell(list)
		}
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
		}
	}
}

// tell prints a line for each sender about which something has changed.
func (s *screen) tell(list []session.Probe) {
	for i := range list {
		p := &list[i]
		line := p.Link + ", " + or(p.Station.Format, "format not recognized yet")
		if p.Samples > 0 && len(p.Missing) > 0 {
			line += ", lacks " + strings.Join(p.Missing, ", ")
		}
		if p.Advice != "" {
			line += ". " + p.Advice
		}
		if s.told[p.Address] != line {
			s.told[p.Address] = line
			fmt.Fprintf(s.out, "%5.1f s  %s: %s\n", time.Since(s.started).Seconds(), p.Name, line)
		}
	}
}

// draw draws the table over the one before.
func (s *screen) draw(list []session.Probe) {
	columns, rows := s.size()
	var b strings.Builder
	fmt.Fprintf(&b, "halfturn probe  listening on %s  %.0f s  Ctrl-C ends it\n", s.addresses(), time.Since(s.started).Seconds())
	if len(list) == 0 {
		fmt.Fprintf(&b, "\nNothing has come yet.\n%s", wrap(nothingCame(s.where, s.asked), columns, ""))
	}
	for i := range list {
		b.WriteByte('\n')
		printProbe(&b, &list[i], s.card, columns)
	}
	s.mu.Lock()
	for _, n := range s.notes {
		fmt.Fprintf(&b, "\n%s", wrap(n, columns, ""))
	}
	s.mu.Unlock()
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if most := max(rows-1, 5); len(lines) > most {
		hidden := len(lines) - most + 1
		lines = append(lines[:most-1], fmt.Sprintf("... %d more lines; enlarge the window, or end with Ctrl-C to see all", hidden))
	}
	for i := range lines {
		lines[i] = cut(console.Line(lines[i]), columns-1) + "\x1b[K"
	}
	fmt.Fprint(console.Raw(s.out), s.up(), strings.Join(lines, "\n"), "\n\x1b[J")
	s.drawn = len(lines)
}

// up goes back to where the table begins.
func (s *screen) up() string {
	if s.drawn == 0 {
		return ""
	}
	return fmt.Sprintf("\x1b[%dA\r", s.drawn)
}

// cut shortens a line to so many letters.
func cut(s string, n int) string {
	if r := []rune(s); len(r) > n && n > 0 {
		return string(r[:n])
	}
	return s
}

// end prints the whole result. That nothing came is its error.
func (s *screen) end(list []session.Probe) error {
	length := time.Since(s.started).Seconds()
	var nothing error
	if len(list) == 0 {
		nothing = fmt.Errorf("nothing came on %s in %.0f s. %s", s.addresses(), length, nothingCame(s.where, s.asked))
	}
	if s.json {
		e := json.NewEncoder(s.out)
		e.SetIndent("", "  ")
		e.SetEscapeHTML(false)
		return errors.Join(e.Encode(map[string]any{"version": 1, "senders": list}), nothing)
	}
	columns := 100
	var b strings.Builder
	if s.live {
		columns, _ = s.size()
		fmt.Fprint(console.Raw(s.out), s.up(), "\x1b[J")
	}
	for i := range list {
		if i > 0 || !s.live {
			fmt.Fprintln(&b)
		}
		printProbe(&b, &list[i], s.card, columns)
	}
	for _, n := range s.notes {
		b.WriteString(wrap(n, columns, ""))
	}
	_, err := io.WriteString(s.out, b.String())
	return errors.Join(err, nothing)
}
