package console

import (
	"bytes"
	"io"
	"os"
	"strings"

	"halfturn/coach/layout"
)

// A screen is what is known of the terminal behind a Writer. The zero value is none.
type screen struct {
	columns       func() int // nil where there is no terminal
	glyphs, color bool
}

// screenOf finds out what is behind w. A terminal that is called dumb shows neither shapes nor styles, and NO_COLOR
// (no-color.org) does without the styles.
func screenOf(w io.Writer) screen {
	if s, ok := w.(layout.Screen); ok { // one that a caller describes
		styled, ok := w.(interface{ Color() bool })
		return screen{columns: s.Width, glyphs: s.Glyphs(), color: ok && styled.Color()}
	}
	if !IsTerminal(w) {
		return screen{}
	}
	able := os.Getenv("TERM") != "dumb"
	return screen{
		columns: func() int { columns, _ := Size(w); return columns },
		glyphs:  able,
		color:   able && os.Getenv("NO_COLOR") == "" && obeys(),
	}
}

func (s *screen) width() int {
	if s.columns == nil {
		return 0
	}
	return s.columns()
}

// styles are what a terminal obeys for the marks of style (ECMA-48, 8.3.117: select graphic rendition).
var styles = map[rune]string{layout.Bold: "\x1b[1m", layout.Faint: "\x1b[2m", layout.Plain: ""}

const off = "\x1b[0m"

// style replaces the marks of style. On a line that has one, the style ends with the line.
func (s *screen) style(p []byte) []byte {
	if !bytes.Contains(p, []byte("\uFDD0"[:2])) { // the first two bytes of all of them
		return p
	}
	var b strings.Builder
	on := false
	for _, r := range string(p) {
		mark, is := styles[r]
		if on && (is || r == '\n') {
			b.WriteString(off)
			on = false
		}
		switch {
		case !is:
			b.WriteRune(r)
		case s.color && mark != "":
			b.WriteString(mark)
			on = true
		}
	}
	return []byte(b.String())
}
