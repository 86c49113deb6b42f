// Package console is the one way out of the commands to a terminal.
package console

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/term"
)

// A Writer is where commands write text for people, or JSON. Characters that would control a terminal, or turn the
// direction of what follows, are written as escapes, wherever the text came from: a sender, a recording, a card,
// whoever gave a name. The escapes are those of JSON, so that JSON keeps its meaning.
type Writer struct {
	w      io.Writer
	screen screen
	mu     sync.Mutex
	rest   []byte // the beginning of a character that goes on in the next write
}

// New writes to w. Where that ends at a terminal, the Writer is a [layout.Screen].
func New(w io.Writer) *Writer { return &Writer{w: w, screen: screenOf(w)} }

// Width is how many columns the terminal has; 0 where there is none.
func (c *Writer) Width() int { return c.screen.width() }

// Glyphs reports whether the terminal shows shapes.
func (c *Writer) Glyphs() bool { return c.screen.glyphs }

// Write writes p with escapes.
func (c *Writer) Write(p []byte) (int, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	text := append(c.rest, p...)
	whole := len(text) - unfinished(text)
	c.rest = append([]byte{}, text[whole:]...)
	if _, err := c.w.Write(c.screen.style(escape(text[:whole]))); err != nil {
		return 0, err
	}
	return len(p), nil
}

// Close writes what never went on.
func (c *Writer) Close() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	rest := c.rest
	c.rest = nil
	if len(rest) == 0 {
		return nil
	}
	_, err := c.w.Write(c.screen.style(escape(rest)))
	return err
}

// unfinished is how many bytes at the end may belong to what comes next: a part of a character, or of a line's end.
func unfinished(p []byte) int {
	if n := len(p); n > 0 && p[n-1] == '\r' {
		return 1
	}
	for n := 1; n < utf8.UTFMax && n <= len(p); n++ {
		if tail := p[len(p)-n:]; utf8.RuneStart(tail[0]) {
			if utf8.FullRune(tail) {
				return 0
			}
			return n
		}
	}
	return 0
}

// Harmful reports whether a character does something to a terminal but to be seen. The two joiners belong to the
// spelling of some scripts, the soft hyphen is harmless.
func Harmful(r rune) bool {
	switch r {
	case '\n', '\t', '\u200c', '\u200d', '\u00ad':
		return false
	case '\u2028', '\u2029':
		return true
	}
	return unicode.IsControl(r) || unicode.Is(unicode.Cf, r)
}

// escape writes harmful characters as JSON does; it returns p itself when there are none.
func escape(p []byte) []byte {
	var out []byte
	done := 0
	for i := 0; i < len(p); {
		r, n := utf8.DecodeRune(p[i:])
		next := i + n
		switch {
		case r == utf8.RuneError && n == 1:
			out = fmt.Appendf(append(out, p[done:i]...), `\x%02x`, p[i])
			done = next
		case r == '\r' && next < len(p) && p[next] == '\n':
		case !Harmful(r):
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			out = fmt.Appendf(append(out, p[done:i]...), `\u%04x\u%04x`, high, low)
			done = next
		default:
			out = fmt.Appendf(append(out, p[done:i]...), `\u%04x`, r)
			done = next
		}
		i = next
	}
	if done == 0 {
		return p
	}
	return append(out, p[done:]...)
}

// lookEvery is how often [Enter] looks whether it is still wanted.
const lookEvery = 100 * time.Millisecond

// Line is a text as it may stand among a command's own control characters, in one line.
func Line(s string) string { return string(escape([]byte(strings.ReplaceAll(s, "\n", " ")))) }

// Raw is what is behind a Writer, for what is not text, or has control characters of its own.
func Raw(w io.Writer) io.Writer {
	if c, ok := w.(*Writer); ok {
		return c.w
	}
	return w
}

// File is the file behind a writer; false when it is none.
func File(w io.Writer) (*os.File, bool) {
	f, ok := Raw(w).(*os.File)
	return f, ok
}

// IsTerminal reports whether a writer ends at a terminal.
func IsTerminal(w io.Writer) bool {
	f, ok := File(w)
	return ok && term.IsTerminal(int(f.Fd()))
}

// Size returns how many letters fit into a line of the terminal behind w, and how many lines it shows; 80 and 24,
// the usual size, where it does not tell.
func Size(w io.Writer) (columns, rows int) {
	if f, ok := File(w); ok {
		if columns, rows, err := term.GetSize(int(f.Fd())); err == nil && columns > 0 && rows > 0 {
			return columns, rows
		}
	}
	return 80, 24
}
