package judge

import (
	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// Tell says what a person has to say to the pilot.
func (j *Judge) Tell(by, words string) { j.talk.Tell(by, words) }

// Stop says that a person stops the pilot. A leg that is flown ends with that, and so does its series: neither is
// graded, since what was flown until then is not what the pilot meant to fly.
func (j *Judge) Stop(by string) {
	j.talk.Stop(by)
	if j.leg != nil {
		j.endLeg(leg.End{Outcome: coach.KnockOff, Reason: stoppedBy(by), External: true})
		j.closeSeries(true)
	}
}

// stoppedBy is the reason of a leg that a person stopped.
func stoppedBy(by string) phrase.Phrase {
	if by == "" {
		return phrase.StoppedOnWord.Of()
	}
	return phrase.StoppedOnWordOf.Of(phrase.Words("by", by))
}

// Abandon lets no leg begin with the turn that is flown now: level flight comes first.
func (j *Judge) Abandon() { j.level.EndLeg(false, 0, 0, 0) }

// Turn returns the turn angle of the leg being flown, °. ok is false between legs.
func (j *Judge) Turn() (turn float64, ok bool) {
	if j.leg == nil {
		return 0, false
	}
	return j.leg.Cur.Turn, true
}

// ungrade takes what was graded from a leg that a person stopped.
func ungrade(done *coach.Leg, e leg.End) {
	if e.External && e.Outcome == coach.KnockOff {
		score.Stopped(done)
	}
}
