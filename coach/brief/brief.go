package brief

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/cause"
	"halfturn/coach/judge"
	"halfturn/coach/message"
	"halfturn/coach/plan"
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
	if path != nil {
		for i := range path.Points {
			b.Path = append(b.Path, briefPoint(p, &path.Points[i]))
		}
	}
	for _, e := range cause.Expect(p) {
		b.Errors = append(b.Errors, Mistake{e.ID, e.Title, e.Seen, e.Advice})
	}
	for _, q := range card.AllCues {
		if q.Say != "" {
			b.Said = append(b.Said, Cue{q.Of, p.Label(q.Of), p.Phrase(q.Say, q.Of, headingAfter(q.Of))})
		}
	}
	return b
}

// headingAfter names the heading after a turn, which before the flight has no number.
func headingAfter(turn float64) string {
	switch turn {
	case 180:
		return "the opposite heading"
	case 360:
		return "the entry heading"
	default:
		return "the new heading"
	}
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
	}
	if p.Aircraft.Stall > 0 {
		margin := round1(q.StallMargin)
		out.Stall = &margin
	}
	return out
}

// numbers collects the numbers of a brief.
type numbers []Number

// add puts a number in; 0, NaN and Inf are not known.
func (n *numbers) add(id, label string, v float64, unit, format string) {
	k := Number{ID: id, Label: label, Unit: unit, Words: "not given"}
	if v != 0 && !math.IsNaN(v) && !math.IsInf(v, 0) {
		k.Value, k.Words = &v, fmt.Sprintf(format, thousands(v, unit))
	}
	*n = append(*n, k)
}

// thousands writes feet with the thousands set apart, as a word for %s; what else there is stays a
// number.
func thousands(v float64, unit string) any {
	if unit != "ft" {
		return v
	}
	s := strconv.FormatFloat(math.Round(v), 'f', 0, 64)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}

// briefNumbers are those of the cards, then those of the path.
func briefNumbers(p *plan.Plan, path *aero.Path) []Number {
	var n numbers
	a := &p.Aircraft
	n.add("entry", "Entry speed", a.Entry, "kt", "%.0f kt")
	if p.Card.Reference.Slowest == "apex" {
		n.add("apex", "Lowest speed", a.Apex, "kt", "%.0f kt")
	}
	n.add("stall", "Stall speed with wings level", a.Stall, "kt", "%.0f kt")
	power := Number{ID: "power", Label: "Power", Words: a.Power}
	if a.Power == "" {
		power.Words = "not given"
	}
	n = append(n, power)
	if limit := a.ManeuveringLimit(); limit > 0 {
		n.add("maneuvering", "Maneuvering speed", math.Floor(limit), "kt", "%.0f kt")
	}
	n.add("deck", "Hard deck above the ground", p.Card.Deck.Height, "ft", "%s ft")
	n.add("lowest-start", "Start no lower, above the ground", p.StartHeight(), "ft", "%s ft")
	n.add("bank", "Steepest bank", round1(p.Steepest()), "°", "%.0f°")
	if path == nil {
		return n
	}
	if p.Path != nil {
		n.add("nose", "Highest nose above level", round1(p.Nose), "°", "%.0f°")
		n.add("height", "Height gained", math.Round(highest(path)), "ft", "%s ft")
		if p.Card.Reference.Slowest != "apex" {
			n.add("slowest", "Lowest speed", round1(path.Slowest().Airspeed), "kt", "%.0f kt")
		}
	}
	n.add("duration", "Time of a leg", round1(path.Duration), "s", "%.0f s")
	n.add("load", "Highest load factor", round2(path.Heaviest().LoadFactor), "g", "%.1f g")
	if a.Stall > 0 {
		s := path.NearestStall()
		words := "%.0f kt"
		if p.Path != nil { // where height and speed are held it is the same all the way
			words += fmt.Sprintf(", at %.0f° of turn", s.Turn)
		}
		n.add("stall-margin", "Least margin over the stall", round1(s.StallMargin), "kt", words)
	}
	n.add("radius", "Smallest radius, no wind", math.Round(tightest(path)/10)*10, "ft", "%s ft")
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
