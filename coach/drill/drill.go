package drill

import (
	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/plan"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// Want is how many good legs in a row end a drill; common practice, no source.
const Want = 3

// A Drill counts the legs in which a cause is drilled. It is not safe for concurrent use.
type Drill struct {
	Cause string
	Part

	change phrase.Phrase // what is said after a leg in which it was missed
	noCard bool
	row    int
}

// New makes a drill on a cause in what a plan has flown. The error says that no check of a leg there shows it.
func New(p *plan.Plan, id string) (*Drill, error) {
	part, ok := PartOf(p.Card, id)
	if !ok {
		return nil, phrase.CourseNoWeakness.Error(phrase.Name("cause", id), phrase.Name("maneuver", p.Card.Name))
	}
	return &Drill{Cause: id, Part: part, change: cause.Change(p, id), noCard: !p.Known}, nil
}

// Row is how many good legs in a row there were.
func (d *Drill) Row() int { return d.row }

// Take counts a leg, and notes in it how the drill stands. One that shows nothing of the part counts for nothing.
func (d *Drill) Take(l *coach.Leg) {
	l.Drill = &coach.Drilled{Cause: d.Cause, Verdict: coach.NotMeasured, Row: d.row, Want: Want}
	part, ok := score.Part(l, d.Checks, d.noCard)
	if !ok || part.Verdict == coach.NotMeasured {
		return
	}
	if d.row++; part.Verdict != coach.Met {
		d.row, l.Drill.Change = 0, d.change
	}
	l.Drill.Verdict, l.Drill.Row = part.Verdict, d.row
}
