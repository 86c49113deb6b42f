package print

import (
	"fmt"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"halfturn/coach/assess"
	"halfturn/coach/logbook"
	"halfturn/coach/valid"
	"halfturn/stream/phrase"
)

// opened begins a document on a size of paper.
func opened(paper string, d *Debrief) (*sheet, error) {
	size, ok := sizes[paper]
	if !ok {
		return nil, fmt.Errorf("the paper is %q; must be %s", paper, valid.Any(Papers))
	}
	p := &sheet{Fpdf: fpdf.New("P", "mm", size, ""), d: d}
	p.width, p.height = p.GetPageSize()
	p.AddUTF8FontFromBytes("go", "", goregular.TTF)
	p.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	p.SetCatalogSort(true)
	p.SetCreationDate(d.Began.UTC())
	p.SetModificationDate(d.Began.UTC())
	p.SetTitle(printable(d.Title), true)
	p.SetSubject(p.cautions(), true)
	p.SetCreator("Halfturn", true)
	p.SetMargins(margin, margin, margin)
	p.SetCellMargin(0)
	p.SetAutoPageBreak(true, foot+6)
	p.AliasNbPages("{pages}")
	p.SetHeaderFuncMode(p.header, true)
	p.SetFooterFunc(p.footer)
	return p, nil
}

// A FormSheet is a form to be printed on one page.
type FormSheet struct {
	Form     *assess.Form
	Session  string
	Student  string
	Began    time.Time
	Signed   []logbook.Signing
	Language *phrase.Language
}

// formWidths are of the id, what is asked and the checks below it, who marked, and a mark each, mm; 0 is the rest.
var formWidths = []float64{22, 74, 40, 14, 14, 0}

// Form writes a form on one page: its rows become as low as it takes.
func Form(w io.Writer, paper string, f *FormSheet) error {
	d := &Debrief{
		Title:    f.Session,
		Student:  f.Student,
		Began:    f.Began,
		Signed:   f.Signed,
		Language: f.Language,
	}
	p, err := opened(paper, d)
	if err != nil {
		return err
	}
	p.SetAutoPageBreak(false, 0)
	p.AddPage()
	p.title(p.text(f.Form.Title))
	p.font("", 9.5)
	p.ink(softInk)
	facts := []string{f.Form.Document + " " + f.Form.Task}
	if f.Form.Document == "" {
		facts = []string{p.word("No test of this maneuver is published.")}
	}
	if f.Student != "" {
		facts = append(facts, f.Student)
	}
	facts = append(facts, p.date()+" UTC", p.wordf("flown by the standard: %s", p.text(f.Form.Flown)))
	p.MultiCell(0, 5, joined(facts), "", "L", false)
	p.Ln(3)
	if len(f.Form.Elements) > 0 {
		p.elements(f.Form)
		p.font("", 7.5)
		p.ink(softInk)
		p.Ln(2)
		key := "S satisfactory, U unsatisfactory, – not observed; a name stands where a person marked."
		p.MultiCell(0, 3.6, p.word(key), "", "L", false)
	}
	p.font("", 7.5)
	p.ink(softInk)
	for _, line := range p.signedLines() {
		p.MultiCell(0, 3.6, strings.ReplaceAll(line, "\n", " · "), "", "L", false)
	}
	p.SetY(p.height - foot - 9)
	p.signLines()
	return p.Output(w)
}

// text is a text of a card in the language.
func (p *sheet) text(s string) string { return p.d.Language.Text(s) }

func (p *sheet) elements(f *assess.Form) {
	const tallest, lowest = 11.0, 5.5
	room := p.height - foot - 32 - p.GetY()
	h := max(lowest, min(tallest, room/float64(len(f.Elements)+1)))
	p.row(4.8, true, formWidths, "element", "asks for", "marked by", "S", "U", "–")
	for i := range f.Elements {
		p.elementRow(&f.Elements[i], h)
	}
}

func (p *sheet) elementRow(e *assess.Element, h float64) {
	y := p.GetY()
	asked := margin + formWidths[0]
	marked := asked + formWidths[1]
	boxes := marked + formWidths[2]
	until := boxes // to where there is room for what is asked
	if e.By != "" {
		until = marked
	}
	p.ink(ink)
	p.piece(margin, y, asked, h/2, "B", 8.5, p.text(e.ID))
	p.piece(asked, y, until, h/2, "", 8, p.text(e.Asks))
	p.ink(softInk)
	p.piece(asked, y+h/2, until, h/2, "", 7, p.elementChecks(e))
	if e.By != "" {
		p.piece(marked, y, boxes, h/2, "", 7, e.By)
		if e.Mark != e.Computed {
			p.piece(marked, y+h/2, boxes, h/2, "", 7, p.wordf("by the checks: %s", p.word(short[e.Computed])))
		}
	}
	for i, mark := range []string{logbook.Satisfactory, logbook.Unsatisfactory, logbook.NotObserved} {
		p.box(boxes+float64(i)*formWidths[3]+1, y+h/2-2, mark == e.Mark)
	}
	p.pen(rule)
	p.SetLineWidth(0.15)
	p.Line(margin, y+h, p.width-margin, y+h)
	p.SetXY(margin, y+h)
}

// elementChecks says what the checks of an element found, or why there are none.
func (p *sheet) elementChecks(e *assess.Element) string {
	if len(e.Checks) == 0 {
		return p.text(e.Reason)
	}
	said := make([]string, len(e.Checks))
	for i, k := range e.Checks {
		said[i] = p.text(k.Label) + ": " + p.word(words(k.Verdict))
	}
	return strings.Join(said, ", ")
}

// piece is a line of words from x to a little before an end, set smaller where it is too long, and then cut.
func (p *sheet) piece(x, y, end, h float64, style string, size float64, text string) {
	room := end - x - 2
	p.font(style, p.sized(style, size, text, room))
	p.SetXY(x, y)
	p.CellFormat(room, h, p.fitted(text, room), "", 0, "L", false, 0, "")
}

var short = map[string]string{
	logbook.Satisfactory:   "S",
	logbook.Unsatisfactory: "U",
	logbook.NotObserved:    "–",
}

// box is a box of a form, crossed or not.
func (p *sheet) box(x, y float64, crossed bool) {
	const side = 4.0
	p.pen(ink)
	p.SetLineWidth(0.25)
	p.Rect(x, y, side, side, "D")
	if crossed {
		p.SetLineWidth(0.5)
		p.Line(x+0.7, y+0.7, x+side-0.7, y+side-0.7)
		p.Line(x+0.7, y+side-0.7, x+side-0.7, y+0.7)
	}
}

// gradeWidths are of the maneuver, legs, last, best, median and required, mm; 0 is the rest.
var gradeWidths = []float64{51, 12, 27, 27, 27, 0}

// Sheet writes the grade sheet of a student, as of a time.
func Sheet(w io.Writer, paper string, s *assess.Sheet, at time.Time, language *phrase.Language) error {
	d := &Debrief{Title: s.Student, Student: s.Student, Began: at, Language: language}
	p, err := opened(paper, d)
	if err != nil {
		return err
	}
	p.AddPage()
	p.title(p.wordf("Grade sheet of %s", s.Student))
	p.font("", 9.5)
	p.ink(softInk)
	p.CellFormat(0, 5, p.wordf("sessions: %d · signed: %d · as of %s UTC", s.Sessions, s.Signed, p.date()), "", 1, "L",
		false, 0, "")
	p.Ln(4)
	if len(s.Maneuvers) == 0 {
		p.para("Nothing was graded yet.")
	} else {
		p.row(5.2, true, gradeWidths, "maneuver", "legs", "last", "best", "median", "required")
	}
	for i := range s.Maneuvers {
		p.sheetRow(&s.Maneuvers[i])
	}
	p.agreement(&s.Agreement)
	p.signatures()
	return p.Output(w)
}

func (p *sheet) sheetRow(r *assess.SheetRow) {
	if p.GetY()+12 > p.height-foot-6 {
		p.AddPage()
	}
	required := "–"
	if r.Required != "" {
		reached := "not yet"
		if r.Reached {
			reached = "reached"
		}
		required = p.word(r.Required) + ", " + p.word(reached)
	}
	p.cells(6, false, "", gradeWidths, p.text(r.Title), fmt.Sprint(r.Legs), p.graded(&r.Last), p.graded(&r.Best),
		p.graded(&r.Median), required)
	if !r.WorkOn.IsZero() {
		work := p.d.Language.Say(r.WorkOn) + " " + p.wordf("(%d of %d)", r.Times, r.Of)
		p.font("", 8.5)
		p.ink(softInk)
		p.CellFormat(0, 4.6, p.fitted(p.wordf("work on: %s", work), p.inner()), "", 1, "L", false, 0, "")
	}
	p.Line(margin, p.GetY(), p.width-margin, p.GetY()) // below both lines of a maneuver
}

func (p *sheet) graded(g *assess.Grade) string { return p.word(g.Grade) + " " + number(g.Score, 0) }

// agreement says how well the student judges what was flown.
func (p *sheet) agreement(a *assess.Agreement) {
	if a.Rated == 0 {
		return
	}
	p.heading("The student’s own view", 20)
	p.para(p.wordf("Legs rated: %d; as measured: %d, a grade apart: %d; better than measured: %d, worse: %d.",
		a.Rated, a.Same, a.Near, a.Higher, a.Lower))
	p.para(p.wordf("Legs of which the one thing was named: %d; it was the measured one: %d.", a.Named, a.Thing))
}
