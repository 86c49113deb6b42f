package print

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/wording"
	"halfturn/stream/phrase"
)

// leg is the sheet of a leg, with what there is to say of it.
func (p *sheet) leg(i int) {
	l := &p.d.Legs[i]
	p.AddPage()
	p.title(p.toward(l.Plan.Title, l.Direction))
	p.font("", 9.5)
	p.ink(softInk)
	p.CellFormat(0, 5, p.wordf("leg %d of %d · %s standard · %s", i+1, len(p.d.Legs), l.Plan.Standard,
		p.word(orNone(l.Plan.Aircraft))), "", 1, "L", false, 0, "")
	y := p.GetY() + 4
	p.mark(margin+1.8, y, 1.8, l.Verdict)
	p.SetXY(margin+5, y-2.5)
	p.font("B", 10)
	p.ink(ink)
	const right = 44.0 // mm, for grade and score
	room := p.inner() - 5 - right
	p.font("B", p.sized("B", 10, headline(&l.Leg), room))
	p.CellFormat(room, 5, p.fitted(headline(&l.Leg), room), "", 0, "L", false, 0, "")
	if l.Verdict != coach.NotMeasured {
		p.font("", 9.5)
		p.ink(softInk)
		p.CellFormat(0, 5, p.wordf("%s, %s of 100", p.word(grade(&l.Leg)), score(&l.Leg)), "", 0, "R", false, 0, "")
	}
	p.Ln(5)
	for _, line := range p.overruled(l) {
		p.para(line)
	}
	p.lanes(l)
	switch {
	case !l.Change.IsZero():
		p.heading("The one thing to change", 12)
		p.para(l.Change.String())
	case l.Verdict == coach.Met:
		p.heading("The one thing", 12)
		p.para(p.d.Language.Say(phrase.AgainTheSame.Of()))
	}
	p.checks(l)
	p.causes(l)
	p.callouts(l)
}

const (
	laneMost  = 16.0 // mm
	laneLeast = 10.0
	laneOne   = 14.0 // at least, where a leg has one page
	laneGap   = 4.0
	laneTop   = 15.0 // above the first, for the posts
	rowHeight = 4.8  // of a check
	laneLeft  = 26.0 // from the margin to the axis
)

// laneHeight is so much that a leg's checks end on the page they begin on, where that can be.
func (p *sheet) laneHeight(l *Leg) float64 {
	below := 15 + float64(len(l.Checks)+1)*rowHeight // headings, the one thing to change, the table
	if !l.Change.IsZero() || l.Verdict == coach.Met {
		below += 15
	}
	room := p.height - foot - 6 - p.GetY() - laneTop - below
	least := laneLeast
	if !p.d.All {
		least = laneOne // the picture comes before the last of the checks
	}
	return max(least, min(laneMost, room/float64(max(1, len(l.Plan.Lanes)))-laneGap))
}

// lanes draws the sheet: what was flown over the turn angle, on what is allowed.
func (p *sheet) lanes(l *Leg) {
	laneHeight := p.laneHeight(l)
	top := p.GetY() + laneTop
	left, right := margin+laneLeft, p.width-margin-4
	x := func(turn float64) float64 {
		return left + (right-left)*math.Max(0, math.Min(turn/l.Plan.Turn, 1.04))
	}
	bottom := top + float64(len(l.Plan.Lanes))*(laneHeight+laneGap) - laneGap
	p.posts(l, x, top, bottom)
	for i := range l.Plan.Lanes {
		p.lane(l, &l.Plan.Lanes[i], x, top+float64(i)*(laneHeight+laneGap), laneHeight)
	}
	p.SetXY(margin, bottom+1)
}

// posts are the checkpoints, each with its verdict, and that of the leg as a whole before them.
func (p *sheet) posts(l *Leg, x func(float64) float64, top, bottom float64) {
	p.SetLineWidth(0.15)
	turns := []float64{0}
	names := []string{"entry"}
	for _, k := range l.Plan.Checkpoints {
		turns, names = append(turns, k.Turn), append(names, k.Label)
	}
	for i, turn := range turns {
		p.pen(rule)
		p.Line(x(turn), top-5, x(turn), bottom)
		p.font("", 8.5)
		p.ink(ink)
		p.Text(x(turn)-p.GetStringWidth(names[i])/2, top-9, names[i])
		p.verdict(x(turn), top, verdictAt(l.Posts, &turns[i]))
	}
	if v := verdictAt(l.Posts, nil); v != "" {
		p.font("", 8.5)
		p.ink(ink)
		p.Text(margin, top-9, "whole leg")
		p.verdict(margin+1.5, top, v)
	}
}

// verdict marks a post with its verdict; "" is none.
func (p *sheet) verdict(x, top float64, v string) {
	if v == "" {
		return
	}
	p.mark(x, top-6, 1.5, v)
	p.font("", 6.5)
	p.ink(softInk)
	const beside = 2.3 // mm from the middle of the mark
	if wide := p.GetStringWidth(words(v)); x+beside+wide > p.width-margin {
		x -= 2*beside + wide // the words before the mark, for behind it they would stand in the margin
	}
	p.Text(x+beside, top-5.2, words(v))
}

// verdictAt is the verdict at a turn angle, or of the leg as a whole; "" when nothing was judged there.
func verdictAt(posts []coach.Post, turn *float64) string {
	for _, p := range posts {
		if p.Turn == nil && turn == nil || p.Turn != nil && turn != nil && *p.Turn == *turn {
			return p.Verdict
		}
	}
	return ""
}

// lane draws one quantity.
func (p *sheet) lane(l *Leg, lane *message.Lane, x func(float64) float64, top, laneHeight float64) {
	low, high, ticks := scale(l, lane)
	y := func(v float64) float64 { return top + laneHeight*(high-v)/(high-low) }
	p.font("B", 9)
	p.ink(ink)
	p.Text(margin, top+4, lane.Title.String())
	p.font("", 7)
	p.ink(softInk)
	p.Text(margin, top+7.5, lane.Unit)
	p.SetLineWidth(0.15)
	if n := len(lane.Corridor); n > 1 {
		p.fill(corridor)
		for i, c := range lane.Corridor {
			if i == 0 {
				p.MoveTo(x(c.Turn), y(c.High))
				continue
			}
			p.LineTo(x(c.Turn), y(c.High))
		}
		for i := n - 1; i >= 0; i-- {
			p.LineTo(x(lane.Corridor[i].Turn), y(lane.Corridor[i].Low))
		}
		p.ClosePath()
		p.DrawPath("F")
	}
	p.pen(rule)
	for _, t := range ticks {
		p.Line(x(0), y(t), x(l.Plan.Turn), y(t))
		label := number(t, 0)
		p.Text(x(0)-2-p.GetStringWidth(label), y(t)+0.9, label)
	}
	p.pen(center)
	p.SetLineWidth(0.25)
	p.SetDashPattern([]float64{0.8, 0.8}, 0)
	p.curve(len(lane.Corridor), func(i int) (float64, float64, bool) {
		c := lane.Corridor[i]
		return x(c.Turn), y(c.Aim), true
	})
	p.SetDashPattern([]float64{}, 0)
	p.pen(ink)
	p.SetLineWidth(0.55)
	p.SetLineJoinStyle("round")
	p.SetLineCapStyle("round")
	p.curve(len(l.Trace), func(i int) (float64, float64, bool) {
		v, ok := traced(l, &l.Trace[i], lane.Channel)
		return x(l.Trace[i].Turn), y(v), ok
	})
	p.outsides(l, lane, x, y)
	p.SetLineCapStyle("butt")
}

// scale is from where to where a lane reaches, and where it is ruled: as on the panel when a corridor is drawn and
// what was flown has room there; else, for paper need not stand still, as what was flown needs, in round steps.
func scale(l *Leg, lane *message.Lane) (low, high float64, ticks []float64) {
	low, high = math.Inf(1), math.Inf(-1)
	take := func(v float64) { low, high = math.Min(low, v), math.Max(high, v) }
	for i := range l.Trace {
		if v, ok := traced(l, &l.Trace[i], lane.Channel); ok {
			take(v)
		}
	}
	if low > high || len(lane.Corridor) > 0 && low >= lane.Low && high <= lane.High {
		return lane.Low, lane.High, lane.Ticks
	}
	for _, c := range lane.Corridor {
		take(c.Low)
		take(c.High)
	}
	if lane.Channel != "airspeed" {
		take(0) // they are counted from there
	}
	step := roundStep((high - low) / 3)
	const over = 0.2 // of a step may reach over the outer lines, so that a height a little under 0 costs no step
	first, last := math.Floor(low/step+over), math.Ceil(high/step-over)
	if first >= last {
		last = first + 1
	}
	for k := first; k <= last; k++ {
		ticks = append(ticks, k*step)
	}
	return math.Min(low, first*step), math.Max(high, last*step), ticks
}

// roundStep is the least of 1, 2, 5, 10, 20 and so on that is not under a width.
func roundStep(width float64) float64 {
	for step := 1.0; ; step *= 10 {
		for _, by := range []float64{1, 2, 5} {
			if step*by >= width {
				return step * by
			}
		}
	}
}

// curve draws through points; it is broken where there is none.
func (p *sheet) curve(n int, at func(int) (x, y float64, ok bool)) {
	down := false
	for i := range n {
		x, y, ok := at(i)
		switch {
		case ok && down:
			p.LineTo(x, y)
		case ok:
			p.MoveTo(x, y)
			down = true
		case down:
			p.DrawPath("D")
			down = false
		}
	}
	if down {
		p.DrawPath("D")
	}
}

// traced is the value of a lane, as its checks measure it: height since the entry.
func traced(l *Leg, t *coach.Trace, lane string) (float64, bool) {
	switch lane {
	case "bank":
		return t.Bank, true
	case "pitch":
		return t.Pitch, true
	case "airspeed":
		return deref(t.Airspeed)
	case "height":
		return deref(t.Height)
	case message.LaneRadius, message.LanePivotal:
		return deref(t.Off)
	}
	return 0, false
}

func deref(x *float64) (float64, bool) {
	if x == nil {
		return 0, false
	}
	return *x, true
}

// mark is a verdict as a shape: a filled disc met, a half disc near, a struck ring missed, a
// dotted ring not measured.
func (p *sheet) mark(x, y, r float64, verdict string) {
	atX, atY := p.GetXY() // drawing a path would move what is written next
	defer p.SetXY(atX, atY)
	p.pen(ink)
	p.fill(paper)
	p.SetLineWidth(0.3)
	switch verdict {
	case coach.Met:
		p.fill(ink)
		p.Circle(x, y, r, "F")
	case coach.Near:
		p.Circle(x, y, r, "FD")
		p.fill(ink)
		p.MoveTo(x-r, y)
		p.CurveBezierCubicTo(x-r, y+r*1.333, x+r, y+r*1.333, x+r, y)
		p.ClosePath()
		p.DrawPath("F")
	case coach.Missed:
		p.Circle(x, y, r, "FD")
		p.Line(x-r*1.2, y+r*1.2, x+r*1.2, y-r*1.2)
	default:
		p.SetDashPattern([]float64{0.4, 0.5}, 0)
		p.Circle(x, y, r, "FD")
		p.SetDashPattern([]float64{}, 0)
	}
}

// checks is the table of checks.
func (p *sheet) checks(l *Leg) {
	if len(l.Checks) == 0 {
		return
	}
	p.heading("Checks", 24)
	widths := []float64{54, 22, 20, 46, 0}
	p.row(rowHeight, true, widths, "check", "flown", "aim", "met within", "verdict")
	for i := range l.Checks {
		c := wording.InPercent(&l.Checks[i])
		if p.GetY()+rowHeight > p.height-foot-6 {
			p.AddPage()
			p.row(rowHeight, true, widths, "check", "flown", "aim", "met within", "verdict")
		}
		p.mark(margin+54+22+20+46+2, p.GetY()+rowHeight/2, 1.4, c.Verdict)
		p.row(rowHeight, false, widths, c.Label, figure(c.Value, c.Unit), figure(c.Aim, c.Unit), p.wanted(c),
			"      "+words(c.Verdict))
	}
}

func (p *sheet) causes(l *Leg) {
	if len(l.Causes) == 0 {
		return
	}
	p.heading("Likely causes", 14)
	for _, c := range l.Causes {
		p.para(sentence(c.Evidence.String()) + " " + sentence(c.Advice.String()))
		p.Ln(1)
	}
}

func (p *sheet) callouts(l *Leg) {
	if len(l.Callouts) == 0 {
		return
	}
	p.heading("What was said", 18)
	widths := []float64{22, 22, 26, 0}
	p.row(4.6, true, widths, "after entry", "turned", "kind", "words")
	for _, c := range l.Callouts {
		if c.Words == "" || c.Kind == coach.SetUpSaid {
			continue // the end of a warning; the set-up
		}
		p.row(4.6, false, widths, number(c.Time-l.Start, 1)+" s", number(c.Turn, 0)+"°", kinds[c.Kind], c.Words)
	}
}

var kinds = map[string]string{
	coach.Cue:      "cue",
	coach.Watch:    "on the way",
	coach.Safety:   "safety",
	coach.Result:   "result",
	coach.NextTime: "next time",
	coach.Done:     "as asked for",
	coach.Again:    "again",
}
