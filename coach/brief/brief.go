package brief

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/cause"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// New writes the sheet of a plan.
func New(p *plan.Plan) *Sheet {
	card := p.Card
	b := &Sheet{
		Version:  1,
		Maneuver: Title{card.Name, card.Title, card.Summary},
		Standard: Title{Name: card.Standard, Title: card.Standard},
		Plan:     message.NewChart(p),
		Problem:  p.Problem,
		Notes:    p.Notes(),
		Gates:    judge.Gates(p),
		Errors:   []Mistake{},
		Usual:    append([]string{}, card.Errors...),
		Said:     []Cue{},
		Cautions: slices.Clone(coach.Cautions[:]),
		Sources:  []string{card.Source},
	}
	if p.Known {
		b.Aircraft = &Title{Name: p.Aircraft.Name, Title: p.Aircraft.Title}
		b.Sources = append(b.Sources, p.Aircraft.Source)
	}
	path := p.Reference()
	b.Numbers = briefNumbers(p, path)
	for i := range b.Numbers {
		b.Numbers[i].Met = bandOf(p, &b.Numbers[i])
	}
	if path != nil {
		b.Notes = append(b.Notes, phrase.BeginsAt.Of(phrase.Number("altitude", plan.Altitude, 0, "ft"),
			phrase.Number("step", 1000, 0, "ft")))
		b.Path = Path(p)
	}
	for _, e := range cause.Expect(p) {
		b.Errors = append(b.Errors, Mistake{e.ID, e.Title, e.Seen, e.Advice})
	}
	for _, q := range card.AllCues {
		if q.Say != "" {
			b.Said = append(b.Said, Cue{q.Of, p.Label(q.Of), p.Phrase(q.Say, q.Of, headingAfter(q.Of), pivotalOf(p))})
		}
	}
	return b
}

// headingAfter names the heading after a turn, which before the flight has no number.
func headingAfter(turn float64) phrase.Arg {
	name := phrase.NewHeading
	switch turn {
	case 180:
		name = phrase.OppositeHeading
	case 360:
		name = phrase.EntryHeading
	}
	return phrase.Part("heading", name.Of())
}

// pivotalOf is the pivotal altitude without wind as it is said, ft above the ground.
func pivotalOf(p *plan.Plan) phrase.Arg {
	path := p.Reference()
	if path == nil {
		return phrase.Words("pivotal", "…")
	}
	return phrase.Number("pivotal", 10*math.Round(aero.PivotalAltitude(path.Points[0].TrueAirspeed)/10), 0, "")
}

// Path is the reference path of a plan, at every whole degree of turn; nil when there is none.
func Path(p *plan.Plan) []Point {
	path := p.Reference()
	if path == nil {
		return nil
	}
	points := make([]Point, len(path.Points))
	for i := range path.Points {
		points[i] = briefPoint(p, &path.Points[i])
	}
	return points
}

func briefPoint(p *plan.Plan, q *aero.Point) Point {
	out := Point{
		Turn:     q.Turn,
		Time:     round2(q.Time),
		Along:    math.Round(q.Along),
		Across:   math.Round(q.Across),
		Height:   math.Round(q.Height) + 0, // no minus before a zero
		Airspeed: round1(q.Airspeed),
		Bank:     round1(q.Bank),
		Pitch:    round1(q.Pitch),
		Load:     round2(q.LoadFactor),
		Energy:   energyHeight(q) - energyHeight(&p.Reference().Points[0]),
	}
	if p.Aircraft.Stall > 0 {
		margin := round1(q.StallMargin)
		out.Stall = &margin
	}
	return out
}

// energyHeight is the energy height of a point of a path, ft, counted from the height of the entry.
func energyHeight(q *aero.Point) float64 {
	return math.Round(aero.EnergyHeight(q.Height, q.TrueAirspeed))
}

// numbers collects the numbers of a brief.
type numbers []Number

// add puts a number in, with the digits after its point; 0, NaN and Inf are not known.
func (n *numbers) add(id string, label *phrase.Definition, v float64, unit string, digits int) {
	k := Number{ID: id, Label: label.Of(), Unit: unit, Digits: digits}
	if v != 0 && !math.IsNaN(v) && !math.IsInf(v, 0) {
		k.Value = &v
	}
	*n = append(*n, k)
}

// briefNumbers are those of the cards, then those of the path.
func briefNumbers(p *plan.Plan, path *aero.Path) []Number {
	var n numbers
	a := &p.Aircraft
	n.add("entry", phrase.LabelEntrySpeed, a.Entry, "kt", 0)
	if p.Card.Reference.Slowest == "apex" {
		n.add("apex", phrase.LabelLowestSpeed, a.Apex, "kt", 0)
	}
	n.add("stall", phrase.LabelStallSpeed, a.Stall, "kt", 0)
	n = append(n, Number{ID: "power", Label: phrase.LabelPower.Of(), Words: a.Power})
	if limit := a.ManeuveringLimit(); limit > 0 {
		n.add("maneuvering", phrase.LabelManeuvering, math.Floor(limit), "kt", 0)
	}
	n.add("deck", phrase.LabelDeckHeight, p.Card.Deck.Height, "ft", 0)
	n.add("lowest-start", phrase.LabelLowestStart, p.StartHeight(), "ft", 0)
	n.add("bank", phrase.LabelSteepest, round1(p.Steepest()), "°", 0)
	if path == nil {
		return n
	}
	if p.Path != nil {
		n.add("nose", phrase.LabelHighestNose, round1(p.Nose), "°", 0)
		n.add("height", phrase.LabelGained, math.Round(highest(path)), "ft", 0)
		if p.Card.Reference.Slowest != "apex" {
			n.add("slowest", phrase.LabelLowestSpeed, round1(path.Slowest().Airspeed), "kt", 0)
		}
	}
	switch p.Card.Reference.Slowest {
	case maneuver.Pivotal:
		n.add("pivotal", phrase.LabelPivotal, math.Round(aero.PivotalAltitude(path.Points[0].TrueAirspeed)), "ft", 0)
	case maneuver.Glide:
		n.add("lost", phrase.LabelLost, -math.Round(path.Lowest().Height), "ft", 0)
	}
	n.add("duration", phrase.LabelDuration, round1(path.Duration), "s", 0)
	n.add("load", phrase.LabelLoad, round2(path.Heaviest().LoadFactor), "g", 1)
	if a.Stall > 0 {
		s := path.NearestStall()
		n.add("stall-margin", phrase.LabelMargin, round1(s.StallMargin), "kt", 0)
		if p.Path != nil { // where height and speed are held it is the same all the way
			n[len(n)-1].Where = phrase.AtTurn.Of(phrase.Number("turn", s.Turn, 0, "°"))
		}
	}
	n.add("radius", phrase.LabelRadius, math.Round(tightest(path)/10)*10, "ft", 0)
	return n
}

// highest is the most height above the entry, ft.
func highest(path *aero.Path) (top float64) {
	for i := range path.Points {
		top = math.Max(top, path.Points[i].Height)
	}
	return top
}

// tightest is the smallest radius of the turn, ft.
func tightest(path *aero.Path) float64 {
	least := math.Inf(1)
	for i := range path.Points {
		least = math.Min(least, path.Points[i].Radius)
	}
	return least
}

func round1(x float64) float64 { return math.Round(x*10) / 10 }
func round2(x float64) float64 { return math.Round(x*100) / 100 }
