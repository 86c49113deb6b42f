// Package print makes the printable debrief: a PDF with the sheet of each leg in vectors, its
// checks, causes and callouts, the cautions on every page and room for signatures. It needs no
// browser, and the same debrief gives the same file.
package print

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
)

// A Debrief is what is printed.
type Debrief struct {
	Title   string // of the session
	Student string // "": a line to write it on
	Station string
	Began   time.Time
	Series  []coach.Series
	Summary *debrief.Summary
	Legs    []Leg
	Remarks []string
	Signed  []logbook.Signing // oldest first
	Damage  string            // why the recording could not be read to its end, "" when it could
	Holes   []phrase.Phrase   // where the machine that recorded it lost datagrams, in order
	// Language is that of the print; nil is English. What people wrote stays as it is.
	Language *phrase.Language
	// All prints a cover, and each leg with its causes and callouts; else one page is printed, of one leg.
	All bool
}

// A Leg is a leg with its picture, the plan it was flown by and what was said on the way.
type Leg struct {
	coach.Leg
	Plan     *message.Chart
	Callouts []coach.Callout
}

// Papers are the sizes of paper.
var Papers = []string{"a4", "letter"}

// A4 and Letter, mm.
var sizes = map[string]string{"a4": "A4", "letter": "Letter"}

const (
	margin = 17.0 // mm
	foot   = 16.0 // mm, for the cautions
)

// A color as in the look of the pages, chosen to print well in black ink too.
type color struct{ r, g, b int }

var (
	ink      = color{28, 39, 48}
	softInk  = color{88, 98, 106}
	rule     = color{205, 199, 186}
	corridor = color{217, 230, 222}
	center   = color{110, 152, 131}
	paper    = color{255, 255, 255}
)

type sheet struct {
	*fpdf.Fpdf
	d             *Debrief
	width, height float64
}

// Write writes the debrief on a size of paper.
func Write(w io.Writer, paper string, d *Debrief) error {
	d = d.spoken()
	p, err := opened(paper, d)
	if err != nil {
		return err
	}
	if i := d.weakest(); !d.All && i >= 0 {
		p.SetAutoPageBreak(false, 0)
		p.one(i)
		return p.Output(w)
	}
	p.cover()
	for i := range d.Legs {
		p.leg(i)
	}
	return p.Output(w)
}

func (p *sheet) ink(c color)  { p.SetTextColor(c.r, c.g, c.b) }
func (p *sheet) pen(c color)  { p.SetDrawColor(c.r, c.g, c.b) }
func (p *sheet) fill(c color) { p.SetFillColor(c.r, c.g, c.b) }

func (p *sheet) font(style string, size float64) { p.SetFont("go", style, size) }

func (p *sheet) inner() float64 { return p.width - 2*margin }

// header stands on every page: the short caution, where a reader begins.
func (p *sheet) header() {
	p.SetXY(margin, 8)
	p.font("", 7.5)
	p.ink(softInk)
	p.CellFormat(0, 3.6, "Simulator practice only. Never for use in an aircraft.", "", 0, "L", false, 0, "")
}

// footer stands on every page: the cautions, and which page it is.
func (p *sheet) footer() {
	y := p.height - foot
	p.pen(rule)
	p.SetLineWidth(0.2)
	p.Line(margin, y, p.width-margin, y)
	p.SetXY(margin, y+1.5)
	p.font("", 7.5)
	p.ink(softInk)
	p.MultiCell(p.inner()-24, 3.6, p.cautions(), "", "L", false)
	p.SetXY(p.width-margin-17, y+1.5)
	p.CellFormat(17, 3.6, p.wordf("page %d of {pages}", p.PageNo()), "", 0, "L", false, 0, "")
}

// heading begins a part; it moves to a new page when what follows would be torn off.
func (p *sheet) heading(text string, needs float64) {
	if p.GetY()+needs > p.height-foot-6 {
		p.AddPage()
	}
	p.Ln(4)
	p.font("B", 11)
	p.ink(ink)
	p.CellFormat(0, 6, text, "", 1, "L", false, 0, "")
}

func (p *sheet) para(text string) {
	p.font("", 9.5)
	p.ink(ink)
	p.MultiCell(0, 4.7, text, "", "L", false)
}

// cover is the first page: who, what, how it went, remarks and signatures.
func (p *sheet) cover() {
	d := p.d
	p.AddPage()
	p.font("B", 22)
	p.ink(ink)
	p.CellFormat(0, 10, "Debrief", "", 1, "L", false, 0, "")
	p.font("", 10)
	p.ink(softInk)
	p.CellFormat(0, 5, d.Title, "", 1, "L", false, 0, "")
	p.Ln(4)
	of := func(name func(*message.Chart) string) string { return listed(d.Legs, name) }
	p.facts([][2]string{
		{"Student", d.Student},
		{"Station", d.Station},
		{"Date (UTC)", p.date()},
		{"Maneuver", of(func(q *message.Chart) string { return q.Title })},
		{"Standard", of(func(q *message.Chart) string { return q.Standard })},
		{"Aircraft", of(func(q *message.Chart) string { return orNone(q.Aircraft) })},
	})
	if d.Damage != "" {
		p.Ln(2)
		p.para(p.wordf("Not all of it: %s.", d.Damage))
	}
	if len(d.Holes) > 0 {
		p.Ln(2)
		p.para(p.lost(coverHoles))
	}
	p.overview()
	p.heading("Remarks", 30)
	for _, r := range d.Remarks {
		p.para(r)
	}
	if p.GetY()+writingRoom < p.height-foot-6 {
		p.lines(3) // else the lines to sign on would stand alone on the next page
	}
	p.signed()
	p.signatures()
}

// writingRoom is what the lines to write remarks on and the signatures below them take, mm.
const writingRoom = 55.0

// Holes named one by one, on the cover and on the one page of a leg; those after them are counted.
const (
	coverHoles = 6
	oneHoles   = 1
)

// lost says where datagrams were lost, at most so many places.
func (p *sheet) lost(most int) string {
	var places []string
	for _, h := range p.d.Holes[:min(most, len(p.d.Holes))] {
		places = append(places, p.d.Language.Say(h))
	}
	if more := len(p.d.Holes) - most; more > 0 {
		places = append(places, p.wordf("More such losses: %d.", more))
	}
	return strings.Join(places, " ")
}

// title begins a document or a leg; one too long for a line goes on in the next.
func (p *sheet) title(text string) {
	p.font("B", 17)
	p.ink(ink)
	p.MultiCell(0, 8, text, "", "L", false)
}

// facts are names with their values; an empty value is a line to write on.
func (p *sheet) facts(rows [][2]string) {
	p.pen(softInk)
	p.SetLineWidth(0.2)
	for _, r := range rows {
		p.font("", 9.5)
		p.ink(softInk)
		p.CellFormat(28, 5.6, r[0], "", 0, "L", false, 0, "")
		p.ink(ink)
		if r[1] == "" {
			p.Line(p.GetX(), p.GetY()+4.8, p.GetX()+70, p.GetY()+4.8)
		}
		p.MultiCell(0, 5.6, r[1], "", "L", false)
	}
}

// overviewWidths are of leg, maneuver, direction, grade and score, mm; 0 is the rest.
var overviewWidths = []float64{12, 68, 24, 34, 0}

// overview lists the legs and the one thing to change.
func (p *sheet) overview() {
	p.heading("How it went", 24)
	if len(p.d.Legs) == 0 {
		p.para("No leg was flown.")
		return
	}
	p.row(5.2, true, overviewWidths, "leg", "maneuver", "direction", "grade", "score")
	for i, l := range p.d.Legs {
		y := p.GetY()
		if y+10 > p.height-foot-6 {
			p.AddPage()
			y = p.GetY()
		}
		p.mark(margin+overviewWidths[0]+overviewWidths[1]+overviewWidths[2]+2, y+2.6, 1.5, l.Verdict)
		p.row(5.2, false, overviewWidths, fmt.Sprint(i+1), l.Plan.Title, l.Direction, "      "+grade(&l.Leg),
			score(&l.Leg))
		p.SetX(margin + overviewWidths[0])
		p.font("", 8.5)
		p.ink(softInk)
		p.CellFormat(0, 4.6, p.fitted(headline(&l.Leg), p.inner()-overviewWidths[0]), "", 1, "L", false, 0, "")
	}
	for i := range p.d.Series {
		if title := p.titleOf(&p.d.Series[i]); title != "" && !p.d.Series[i].Missing.IsZero() {
			p.Ln(1.5)
			p.para(p.wordf("%s, not complete: %s.", title, p.d.Series[i].Missing))
		}
	}
	if s := p.d.Summary; s != nil && !s.Change.IsZero() {
		p.heading("The one thing to change", 12)
		p.para(s.Change.String())
	}
}

// titleOf is how the maneuver of a series is read; "" when no leg of the series is printed.
func (p *sheet) titleOf(s *coach.Series) string {
	for i := range p.d.Legs {
		l := &p.d.Legs[i]
		if slices.ContainsFunc(s.Legs, func(o coach.Leg) bool { return o.Start == l.Start }) {
			return l.Plan.Title
		}
	}
	return ""
}

// row is a line of a table with a rule below it.
func (p *sheet) row(h float64, head bool, widths []float64, cells ...string) {
	p.cells(h, head, "B", widths, cells...)
}

// cells are a line of a table; a width of 0 takes the rest. Text too long for its cell is set smaller, and cut where
// that is not enough.
func (p *sheet) cells(h float64, head bool, border string, widths []float64, cells ...string) {
	size := 9.0
	p.ink(ink)
	if head {
		size = 8
		p.ink(softInk)
	}
	p.pen(rule)
	p.SetLineWidth(0.15)
	for i, text := range cells {
		w := widths[i]
		if w == 0 {
			w = p.width - margin - p.GetX()
		}
		p.font("", p.sized("", size, text, w-2))
		p.CellFormat(w, h, p.fitted(text, w-2), border, 0, "L", false, 0, "")
	}
	p.Ln(h)
}

// smallest is how small text becomes before it is cut, as a share of its size.
const smallest = 0.75

// sized is the size at which text fits a width, pt; not under the smallest.
func (p *sheet) sized(style string, size float64, text string, w float64) float64 {
	p.font(style, size)
	if wide := p.GetStringWidth(text); wide > w {
		return size * max(smallest, 0.99*w/wide)
	}
	return size
}

// fitted cuts text to a width.
func (p *sheet) fitted(text string, w float64) string {
	text = p.word(text)
	if p.GetStringWidth(text) <= w {
		return text
	}
	r := []rune(text)
	for len(r) > 0 && p.GetStringWidth(string(r)+"…") > w {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// lines are room to write by hand.
func (p *sheet) lines(n int) {
	p.pen(rule)
	p.SetLineWidth(0.2)
	for range n {
		p.Ln(7)
		p.Line(margin, p.GetY(), p.width-margin, p.GetY())
	}
	p.Ln(2)
}

func (p *sheet) signatures() {
	if p.GetY()+26 > p.height-foot-6 {
		p.AddPage()
	}
	p.Ln(16)
	p.signLines()
}

// signLines are the lines to sign on, here.
func (p *sheet) signLines() {
	y, w := p.GetY(), (p.inner()-16)/3
	p.pen(ink)
	p.SetLineWidth(0.25)
	p.font("", 8.5)
	p.ink(softInk)
	for i, who := range []string{"Student", "Instructor", "Date"} {
		x := margin + float64(i)*(w+8)
		p.Line(x, y, x+w, y)
		p.Text(x, y+4, who)
	}
	p.SetY(y + 8)
}
