package sheet

import (
	"fmt"
	"io"

	"halfturn/coach/layout"
	"halfturn/stream/phrase"
)

// A page is written in a language.
type page struct {
	*layout.Page
	in *phrase.Language
}

func newPage(w io.Writer, in *phrase.Language) *page { return &page{layout.NewPage(w), in} }

// line writes a line; the page keeps the error.
func (p *page) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// heading begins a part of a page.
func (p *page) heading(title string) { p.line("\n%s", layout.Heading(p, p.in.Word(title))) }

// table lines columns up.
func (p *page) table(write func(io.Writer)) {
	t := layout.NewTable(p)
	write(t)
	_ = t.Flush() // the page keeps the error
}
