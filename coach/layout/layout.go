// Package layout fits text to the screen it is read on: it folds long lines at words, folds the cells of tables or puts
// them below their row, and marks verdicts by shapes. What does not end at a screen gets neither: lines stay whole and
// columns aligned, so that what is piped into a file or another program does not depend on a terminal.
//
// Style is carried in the text as noncharacters, which Unicode reserves for use within a program (chapter 23.7), and
// which only the console turns into what a terminal obeys.
package layout

import (
	"bytes"
	"io"
	"slices"
	"strings"
	"unicode"

	"halfturn/coach"
)

// A Screen is a writer that ends at a terminal.
type Screen interface {
	io.Writer
	Width() int   // columns; 0 is none: it does not end at a terminal
	Glyphs() bool // it shows shapes
}

// Style marks in a text. Each lasts to the next, or to the end of its line.
const (
	Bold  = '\uFDD0'
	Faint = '\uFDD1'
	Plain = '\uFDD2'
)

// leastWidth is the width below which nothing is folded any more.
const leastWidth = 40

// WidthOf returns how many columns the screen behind w has; 0 where there is none.
func WidthOf(w io.Writer) int {
	if s, ok := w.(Screen); ok && s.Width() > 0 {
		return max(s.Width(), leastWidth)
	}
	return 0
}

// HasGlyphs reports whether the screen behind w shows shapes.
func HasGlyphs(w io.Writer) bool {
	s, ok := w.(Screen)
	return ok && s.Glyphs()
}

// Glyph is the shape of a verdict: a filled disc is met, a half one near, a struck ring missed, a dotted one not
// measured.
func Glyph(verdict string) string {
	switch verdict {
	case coach.Met:
		return "●"
	case coach.Near:
		return "◐"
	case coach.Missed:
		return "⊘"
	}
	return "◌"
}

// Mark is the word of a verdict with its shape before it, where there is a screen that shows shapes. What was missed
// stands out.
func Mark(w io.Writer, verdict, word string) string {
	if !HasGlyphs(w) {
		return word
	}
	style := map[string]rune{coach.Missed: Bold, coach.Near: Plain}[verdict]
	if style == 0 {
		style = Faint
	}
	return string(style) + Glyph(verdict) + " " + word + string(Plain)
}

// Heading is a line that begins a part of a text.
func Heading(w io.Writer, line string) string {
	if !HasGlyphs(w) {
		return line
	}
	text := strings.TrimLeft(line, " ")
	return line[:len(line)-len(text)] + string(Bold) + text + string(Plain)
}

// width is how many columns a text takes.
func width(s string) (n int) {
	for _, r := range s {
		if r >= Bold && r <= Plain || unicode.Is(unicode.Mn, r) {
			continue
		}
		n++
	}
	return n
}

// Fold breaks a line at its spaces into lines of at most a number of columns; 0 sets no bound. The first keeps its
// indentation, the others are indented by two more, those of an item of a list by its mark, and those of a line that is
// not indented not at all. A word that is too long is broken.
func Fold(line string, columns int) []string {
	if columns == 0 || width(line) <= columns {
		return []string{line}
	}
	rest := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(rest)]
	hang := indent
	switch mark, _, _ := strings.Cut(rest, " "); {
	case isItem(mark):
		hang += strings.Repeat(" ", width(mark)+1)
	case indent != "":
		hang += "  "
	}
	return fold(rest, indent, hang, columns)
}

// isItem reports whether a word begins an item of a list: a dash, or a number with a point.
func isItem(mark string) bool {
	number, isNumber := strings.CutSuffix(mark, ".")
	return mark == "-" || isNumber && number != "" && strings.Trim(number, "0123456789") == ""
}

func fold(text, indent, hang string, columns int) (lines []string) {
	current := indent
	begun := false // current has a word
	for _, word := range words(text) {
		space := ""
		if begun {
			space = " "
		}
		if begun && width(current)+1+width(word) > columns {
			lines = append(lines, strings.TrimRight(current, " "))
			current, space = hang, ""
		}
		for room := columns - width(current) - len(space); width(word) > room; room = columns - width(current) {
			head, tail := cut(word, max(room, 1))
			lines = append(lines, current+space+head)
			current, space, word = hang, "", tail
		}
		current += space + word
		begun = true
	}
	return append(lines, strings.TrimRight(current, " "))
}

// words are what a line is made of: a number and its unit are one.
func words(text string) (all []string) {
	for word := range strings.SplitSeq(text, " ") {
		last := len(all) - 1
		if last >= 0 && endsInFigure(all[last]) && slices.Contains(units, strings.TrimRight(word, ").,;:")) {
			all[last] += " " + word
			continue
		}
		all = append(all, word)
	}
	return all
}

// units are those that stand after a space.
var units = []string{"%", "ft", "kt", "g", "s", "ms", "m", "km/h", "m/s", "ft/min", "rpm", "MB", "Hz"}

// endsInFigure reports whether a word is a number, or ends in one.
func endsInFigure(word string) bool {
	return word != "" && word[len(word)-1] >= '0' && word[len(word)-1] <= '9'
}

// cut splits a word after a number of columns.
func cut(word string, columns int) (head, tail string) {
	for i, r := range word {
		if columns == 0 {
			return word[:i], word[i:]
		}
		columns -= width(string(r))
	}
	return word, ""
}

// A Page writes text to a screen, its lines folded; where there is no screen, as it comes. It keeps the first error of
// its writer.
type Page struct {
	w    io.Writer
	rest []byte // of a line that is not whole
	err  error
}

// NewPage writes to w.
func NewPage(w io.Writer) *Page { return &Page{w: w} }

// Width is that of the screen.
func (p *Page) Width() int { return WidthOf(p.w) }

// Glyphs reports whether the screen shows shapes.
func (p *Page) Glyphs() bool { return HasGlyphs(p.w) }

// Write writes the lines that are whole.
func (p *Page) Write(b []byte) (int, error) {
	columns := p.Width()
	if columns == 0 {
		p.put(b)
		return len(b), p.err
	}
	p.rest = append(p.rest, b...)
	for {
		line, rest, whole := bytes.Cut(p.rest, []byte{'\n'})
		if !whole {
			return len(b), p.err
		}
		p.put([]byte(strings.Join(Fold(string(line), columns), "\n") + "\n"))
		p.rest = rest
	}
}

func (p *Page) put(b []byte) {
	if p.err == nil {
		_, p.err = p.w.Write(b)
	}
}

// Err writes what is left, and returns the first error of all writing.
func (p *Page) Err() error {
	if len(p.rest) > 0 {
		p.put([]byte(strings.Join(Fold(string(p.rest), p.Width()), "\n")))
		p.rest = nil
	}
	return p.err
}
