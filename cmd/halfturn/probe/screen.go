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
	"halfturn/stream/phrase"
)

const redraw = 500 * time.Millisecond

// Options say where and how a [Screen] shows what is heard.
type Options struct {
	Out, Err io.Writer
	JSON     bool             // the result as JSON, at the end
	Plain    bool             // nothing is redrawn, even on a terminal
	Card     string           // name of the maneuver card that says what is needed
	Asked    bool             // a simulator is asked for its values
	Language *phrase.Language // nil is English
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
		fmt.Fprintln(s.Err, s.Language.Wordf("listening on %s; Ctrl-C ends it", s.addresses()))
	}
}

func (s *Screen) addresses() string {
	list := make([]string, len(s.where))
	for i, a := range s.where {
		list[i] = a.String()
	}
	return strings.Join(list, " "+s.Language.Word("and")+" ")
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
		line := s.said(p)
		if s.told[p.Address] != line {
			s.told[p.Address] = line
			fmt.Fprintf(layout.NewPage(s.Out), "%5s s  %s: %s\n", s.seconds(1), p.Name, line)
		}
	}
}

// said is what is told of a sender in a line.
func (s *Screen) said(p *probe.Probe) string {
	in := s.Language
	line := in.Word(p.Link) + ", " + cmp.Or(in.Text(p.Station.Format), in.Word("format not recognized yet"))
	if p.Samples > 0 && len(p.Missing) > 0 {
		missing := make([]string, len(p.Missing))
		for i, name := range p.Missing {
			missing[i] = in.Text(name)
		}
		line += in.Wordf(", lacks %s", strings.Join(missing, ", "))
	}
	if !p.Advice.IsZero() {
		line += ". " + in.Say(p.Advice)
	}
	return line
}

// seconds is how long it has run.
func (s *Screen) seconds(digits int) string {
	return s.Language.Number(time.Since(s.started).Seconds(), digits)
}

// draw draws the table over the previous one.
func (s *Screen) draw(list []probe.Probe) {
	columns, rows := s.size()
	var b strings.Builder
	in := s.Language
	fmt.Fprintf(&b, "halfturn probe  %s\n",
		in.Wordf("listening on %s  %s s  Ctrl-C ends it", s.addresses(), s.seconds(0)))
	if len(list) == 0 {
		why := wrap(nothingCame(in, s.where, s.Asked), columns, "")
		fmt.Fprintf(&b, "\n%s\n%s", in.Word("Nothing has come yet."), why)
	}
	for i := range list {
		b.WriteByte('\n')
		s.table(&b, columns).sender(&list[i])
	}
	s.mu.Lock()
	for _, n := range s.notes {
		fmt.Fprintf(&b, "\n%s", wrap(n, columns, ""))
	}
	s.mu.Unlock()
	lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
	if most := max(rows-1, 5); len(lines) > most {
		hidden := len(lines) - most + 1
		rest := in.Wordf("... %d more lines; enlarge the window, or end with Ctrl-C to see all", hidden)
		lines = append(lines[:most-1], rest)
	}
	for i := range lines {
		lines[i] = cut(console.Line(lines[i]), columns-1) + "\x1b[K"
	}
	fmt.Fprint(console.Raw(s.Out), s.up(), strings.Join(lines, "\n"), "\n\x1b[J")
	s.drawn = len(lines)
}

// table prints into w.
func (s *Screen) table(w io.Writer, columns int) *table {
	return &table{w: w, in: s.Language, card: s.Card, columns: columns}
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
	var nothing error
	if len(list) == 0 {
		nothing = errors.New(s.Language.Wordf("nothing came on %s in %s s. %s", s.addresses(), s.seconds(0),
			nothingCame(s.Language, s.where, s.Asked)))
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
		s.table(&b, columns).sender(&list[i])
	}
	for _, n := range s.notes {
		b.WriteString(wrap(n, columns, ""))
	}
	_, err := io.WriteString(s.Out, b.String())
	return errors.Join(err, nothing)
}
