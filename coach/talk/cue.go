package talk

import (
	"fmt"

	"halfturn/coach"
	"halfturn/coach/callout"
)

// giveWay is how soon a cue must begin for a correction to wait for it, s.
const giveWay = 1.0

// A spoken cue is a cue of the card with the values of this leg filled in.
type spoken struct {
	words  string // "" while they are not filled in
	length float64
	early  float64 // how long before its turn angle it is sent, s
	lead   float64 // how long before that the average voice begins it, s
}

// spoken returns a cue of the card as it is said in this leg.
func (t *Talk) spoken(cue int) *spoken {
	k := &t.leg.cues[cue]
	if k.words == "" {
		q := &t.plan.Card.AllCues[cue]
		k.words = t.expand(q.Say, q.Of)
		k.length, k.early, k.lead = t.voice.Length(k.words), callout.Early(k.words), t.voice.Lead(k.words)
	}
	return k
}

// sendCues sends every cue whose turn angle comes within the lead of a slow voice. Cues are sent early so that every
// listener can begin them when its own voice needs to. One that even an average voice could only say half of in time is
// dropped.
func (t *Talk) sendCues() {
	cues, l := t.plan.Card.AllCues, t.leg
	for l.sent < len(cues) {
		q := &cues[l.sent]
		if q.Say == "" || q.Turn <= l.Cur.Turn {
			l.sent++
			continue
		}
		left, ok := l.until(q.Turn)
		if !ok || left > callout.LongestLead {
			return
		}
		k := t.spoken(l.sent)
		if left > k.early {
			return
		}
		l.sent++
		if left < k.lead-k.length/2 || t.voice.Repeats(t.now, k.words) {
			continue
		}
		t.out.Put(&coach.Callout{
			Time:  coach.Round(t.now, 3),
			Kind:  coach.Cue,
			ID:    fmt.Sprintf("cue-%g", q.Of),
			Words: k.words,
			Turn:  coach.Round(l.Cur.Turn, 1),
			To:    new(q.Turn),
			Due:   new(coach.Round(t.now+left, 2)),
		})
	}
}

// sayCue has the average voice begin the next cue when its words, begun now, end a reaction time before its turn
// angle. One that was not sent is not said. What this voice is saying is what corrections have to give way to; a cue
// that is sent and waits keeps nothing from being said.
func (t *Talk) sayCue() bool {
	cues, l := t.plan.Card.AllCues, t.leg
	for l.cue < len(cues) && cues[l.cue].Turn <= l.Cur.Turn {
		l.cue++
	}
	left, ok := t.beforeCue()
	if !ok || left > 0 || l.cue >= l.sent || t.voice.Busy(t.now, callout.CueLevel) {
		return false
	}
	k := t.spoken(l.cue)
	l.cue++
	return left >= -k.length/2 && t.voice.Say(t.now, callout.CueLevel, k.words)
}

// beforeCue returns how long it is until the average voice has to begin the next cue, s.
func (t *Talk) beforeCue() (float64, bool) {
	cues, next := t.plan.Card.AllCues, t.leg.cue
	if next == len(cues) || cues[next].Say == "" {
		return 0, false
	}
	left, ok := t.leg.until(cues[next].Turn)
	return left - t.spoken(next).lead, ok
}

// cueSoon reports whether the average voice is about to begin a cue.
func (t *Talk) cueSoon() bool {
	left, ok := t.beforeCue()
	return ok && left > 0 && left < giveWay
}
