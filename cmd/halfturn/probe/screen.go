// Package probe shows what arrives on a port: who sends, in which format, and what is missing.
package probe

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/netip"
	"strings"
	"sync"
	"time"

	"halfturn/cmd/halfturn/console"
	"halfturn/coach/layout"
	"halfturn/coach/probe"
)

const redraw = 500 * time.Millisecond

// Options say where and how a [Screen] shows what is heard.
type Options struct {
	Out, Err io.Writer
	JSON     bool   // the result as JSON, at the end
	Plain    bool   // nothing is redrawn, even on a terminal
	Card     string // name of the maneuver card that says what is needed
	Asked    bool   // a simulator is asked for its values
}

// A Screen shows what is heard: redrawn in place on a terminal, in lines elsewhere.
type Screen struct {
	Options
	live    bool
	size    func() (columns, rows int)
	started time.Time
	where   []netip.AddrPort
	drawn   int               // lines on the terminal now
	told    map[string]string // by sender, the line last printed

	mu    sync.Mutex
	notes []string
}

// NewScreen returns a screen; nothing is shown yet.
func NewScreen(o Options) *Screen {
	return &Screen{
		Options: o,
		live:    !o.JSON && !o.Plain && console.IsTerminal(o.Out),
		size:    func() (int, int) { return console.Size(o.Out) },
		started: time.Now(),
		told:    map[string]string{},
	}
}

// Live reports whether the table is redrawn in place.
func (s *Screen) Live() bool { return s.live }

const notesKept = 5

// Note shows something beside the table.
func (s *Screen) Note(text string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.live {
		fmt.Fprintf(layout.NewPage(s.Err), "halfturn: %s\n", text)
		return
	}
	s.notes = append(s.notes, text)
	if len(s.notes) > notesKept {
		s.notes = s.notes[1:]
	}
}

// Begin shows the addresses that are listened on.
func (s *Screen) Begin(where []netip.AddrPort) {
	s.where = where
	if !s.live {
		fmt.Fprintf(s.Err, "listening on %s; Ctrl-C ends it\n", s.addresses())
	}
}

func (s *Screen) addresses() string {
	list := make([]string, len(s.where))
	for i, a := range s.where {
		list[i] = a.String()
	}
	return strings.Join(list, " and ")
}

// Follow shows what comes until the context ends.
func (s *Screen) Follow(ctx context.Context, h *Heard) {
	ticker := time.NewTicker(redraw)
	defer ticker.Stop()
	for {
		switch list := h.All(); {
		case s.live:
			s.draw(list)
		case !s.JSON:
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
func (s *Screen) tell(list []probe.Probe) {
	for i := range list {
		p := &list[i]
		line := p.Link + ", " + cmp.Or(p.Station.Format, "format not recognized yet")
		if p.Samples > 0 && len(p.Missing) > 0 {
			line += ", lacks " + strings.Join(p.Missing, ", ")
		}
		if !p.Advice.IsZero() {
			line += ". " + p.Advice.String()
		}
		if s.told[p.Address] != line {
			s.told[p.Address] = line
			fmt.Fprintf(layout.NewPage(s.Out), "%5.1f s  %s: %s\n", time.Since(s.started).Seconds(), p.Name, line)
		}
	}
}

// draw draws the table over the previous one.
func (s *Screen) draw(list []probe.Probe) {
	columns, rows := s.size()
	var b strings.Builder
	fmt.Fprintf(&b, "halfturn probe  listening on %s  %.0f s  Ctrl-C ends it\n",
		s.addresses(), time.Since(s.started).Seconds())
	if len(list) == 0 {
		fmt.Fprintf(&b, "\nNothing has come yet.\n%s", wrap(nothingCame(s.where, s.Asked), columns, ""))
	}
	for i := range list {
		b.WriteByte('\n')
		printProbe(&b, &list[i], s.Card, columns)
	}
	s.mu.Lock()
	for _, n := range s.notes {
		fmt.Fprintf(&b, "\n%s", wrap(n, columns, ""))
	}
	s.mu.Unlock()
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if most := max(rows-1, 5); len(lines) > most {
		hidden := len(lines) - most + 1
		rest := fmt.Sprintf("... %d more lines; enlarge the window, or end with Ctrl-C to see all", hidden)
		lines = append(lines[:most-1], rest)
	}
	for i := range lines {
		lines[i] = cut(console.Line(lines[i]), columns-1) + "\x1b[K"
	}
	fmt.Fprint(console.Raw(s.Out), s.up(), strings.Join(lines, "\n"), "\n\x1b[J")
	s.drawn = len(lines)
}

// up goes back to where the table begins.
func (s *Screen) up() string {
	if s.drawn == 0 {
		return ""
	}
	return fmt.Sprintf("\x1b[%dA\r", s.drawn)
}

// cut shortens a line to n letters.
func cut(s string, n int) string {
	if r := []rune(s); len(r) > n && n > 0 {
		return string(r[:n])
	}
	return s
}

// End prints the whole result. That nothing came is its error.
func (s *Screen) End(list []probe.Probe) error {
	length := time.Since(s.started).Seconds()
	var nothing error
	if len(list) == 0 {
		nothing = fmt.Errorf("nothing came on %s in %.0f s. %s",
			s.addresses(), length, nothingCame(s.where, s.Asked))
	}
	if s.JSON {
		e := json.NewEncoder(s.Out)
		e.SetIndent("", "  ")
		e.SetEscapeHTML(false)
		return errors.Join(e.Encode(map[string]any{"version": 1, "senders": list}), nothing)
	}
	columns := cmp.Or(layout.WidthOf(s.Out), 100)
	var b strings.Builder
	if s.live {
		columns, _ = s.size()
		fmt.Fprint(console.Raw(s.Out), s.up(), "\x1b[J")
	}
	for i := range list {
		if i > 0 || !s.live {
			fmt.Fprintln(&b)
		}
		printProbe(&b, &list[i], s.Card, columns)
	}
	for _, n := range s.notes {
		b.WriteString(wrap(n, columns, ""))
	}
	_, err := io.WriteString(s.Out, b.String())
	return errors.Join(err, nothing)
}
