package talk

import (
	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/stream/phrase"
)

// Result says how a leg that ended at a turn angle went, and the one thing to change in the next.
func (t *Talk) Result(turn float64, done *coach.Leg) {
	level := callout.ResultLevel
	if done.Outcome == coach.KnockOff {
		level = callout.SafetyLevel
	}
	k := coach.Callout{Kind: coach.Result, ID: "leg", Turn: coach.Round(turn, 1)}
	wordResult(&k, done)
	wordDrill(&k, done.Drill)
	if done.Another != nil && done.Outcome == coach.Finished {
		k.Words = sayAnother
		if t.told == done.Another.Maneuver { // once
			k.Words = ""
		}
		t.told = done.Another.Maneuver
	}
	if k.Words != "" && !t.voice.Say(t.now, level, k.Words) {
		t.voice.Append(t.now, k.Words) // listeners say it after what is being said
	}
	t.put(k)
	t.fade.take(done)
	t.setup.next = done.Change
	if done.Drill != nil {
		t.setup.next = done.Drill.Change
	}
	if done.Another != nil {
		t.setup.next = phrase.Phrase{} // it would be of the chosen maneuver
	}
	if !t.setup.next.IsZero() && done.Outcome == coach.Finished {
		t.sayNext(turn)
	}
}

// sayNext says what to do in the next leg.
func (t *Talk) sayNext(turn float64) {
	next := t.setup.next
	t.voice.Append(t.now, "Next time, "+next.String())
	t.put(coach.Callout{
		Kind:   coach.NextTime,
		ID:     "next",
		Words:  next.String(),
		Phrase: next,
		Turn:   coach.Round(turn, 1),
	})
}

// wordResult gives a callout the words and the tone for how a leg went.
func wordResult(k *coach.Callout, done *coach.Leg) {
	k.Tone = coach.Missed
	switch {
	case done.Outcome == coach.KnockOff:
		k.Words = sayKnockOff
	case done.Outcome == coach.BrokenOff:
		k.Words = sayBrokenOff
	case done.Verdict == coach.NotMeasured:
		k.Words, k.Tone = sayUnmeasured, ""
	case done.Verdict != coach.Met:
		k.Words = sayMissed
	case done.Grade == coach.Excellent:
		k.Words, k.Tone = sayExcellent, coach.Met
	default:
		k.Words, k.Tone = sayGood, coach.Met
	}
}

// wordDrill gives the callout of a leg that came to its end the words and the tone for the part that is drilled.
func wordDrill(k *coach.Callout, d *coach.Drilled) {
	if d == nil || k.Words == sayKnockOff || k.Words == sayBrokenOff {
		return
	}
	k.Tone = coach.Missed
	switch {
	case d.Verdict == coach.NotMeasured:
		k.Words, k.Tone = sayUnmeasured, ""
	case d.Verdict != coach.Met:
		k.Words = sayNotYet
	case d.Row > d.Want || d.Row == 0:
		k.Words, k.Tone = sayGood, coach.Met
	default:
		k.Words, k.Tone = sayInRow[min(d.Row, len(sayInRow))-1], coach.Met
	}
}

// Shallow says that a turn of an angle was too shallow to be a leg.
func (t *Talk) Shallow(turned float64) {
	k := coach.Callout{
		Kind:  coach.Result,
		ID:    "shallow",
		Words: sayShallow,
		Tone:  coach.Missed,
		Turn:  coach.Round(turned, 1),
	}
	if !t.voice.Say(t.now, callout.ResultLevel, k.Words) {
		k.Words = ""
	}
	t.put(k)
}
