package talk

import (
	"fmt"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
	"halfturn/stream/phrase"
)

// giveWay is how soon a cue must begin for a watch to wait for it, s.
const giveWay = 1.0

// A spoken cue is a cue of the card with the values of this leg filled in.
type spoken struct {
	phrase phrase.Phrase
	words  string // its English; "" while it is not filled in
	length float64
	early  float64 // how long before its turn angle it is sent, s
	lead   float64 // how long before that the average voice begins it, s
	sent   bool    // it was sent, and is to be said
}

// spoken returns a cue of the card as it is said in this leg.
func (t *Talk) spoken(cue int) *spoken {
	k := &t.leg.cues[cue]
	if k.words == "" {
		q := &t.plan.Card.AllCues[cue]
		k.phrase = t.expand(q.Say, q.Of)
		k.words = k.phrase.String()
		k.length, k.early, k.lead = t.voice.Length(k.words), callout.Early(k.words), t.voice.Lead(k.words)
	}
	return k
}

// cueID names a cue by the turn angle it is about.
func cueID(of float64) string { return fmt.Sprintf("cue-%g", of) }

// sendCues sends every cue whose turn angle comes within the lead of a slow voice, once the checkpoint ahead of it is
// passed. Cues are sent early so that every listener can begin them when its own voice needs to. One that even an
// average voice could only say half of in time is dropped, as is one that would come while the flight is far off.
func (t *Talk) sendCues() {
	cues, l := t.plan.Card.AllCues, t.leg
	for l.sent < len(cues) {
		q := &cues[l.sent]
		if q.Say == "" || q.Turn <= l.turn || t.silent(q.Of) || t.ofAnother(q) {
			l.sent++
			continue
		}
		if l.turn < l.before(q.Turn) || t.past() {
			return
		}
		left, ok := l.Until(q.Turn)
		if !ok || left > callout.LongestLead {
			return
		}
		k := t.spoken(l.sent)
		if k.words == "" { // what it would say is not known
			l.sent++
			continue
		}
		if left > k.early {
			return
		}
		at := l.sent
		l.sent++
		if left < k.lead-k.length/2 || t.voice.Repeats(t.now, k.words) || !t.cueFits(q, k.words) {
			continue
		}
		l.cues[at].sent = true
		t.put(say(k.phrase, coach.Callout{
			Kind: coach.Cue,
			ID:   cueID(q.Of),
			To:   new(q.Turn),
			Due:  new(coach.Round(t.now+left, 2)),
		}))
	}
}

// cueFits reports whether none of what a cue asks is wrong for this flight.
func (t *Talk) cueFits(q *maneuver.Cue, words string) bool {
	for _, a := range q.Asks {
		fits := false
		if a == callout.RollOut { // it is judged by what is wanted after its own turn angle
			fits = t.leg.bank > t.plan.Bank(t.leg.next(q.Turn))
		} else {
			fits = t.fits(a, words)
		}
		if !fits {
			return false
		}
	}
	return true
}

// ofAnother reports whether a cue is of another turn than the one that is flown, where there are several.
func (t *Talk) ofAnother(q *maneuver.Cue) bool {
	return t.plan.Card.Several() && q.Of != t.leg.Expected().Turn
}

// silent reports whether the cue of a turn angle is not said in this leg.
func (t *Talk) silent(turn float64) bool {
	if t.only != nil && !t.only.HasCue(turn) {
		return true
	}
	switch t.Prompts() {
	case callout.PromptsOff:
		return true
	case callout.PromptsFade:
		return t.fade.faded(turn)
	}
	return false
}

// past reports whether the flight is past a limit or twice a corridor: then the way back is said, and no cue.
func (t *Talk) past() bool { return t.leg.off || t.limits.any() }

// withdraw takes back the cues that were sent and that the average voice has not begun.
func (t *Talk) withdraw() {
	l := t.leg
	for i := l.cue; i < l.sent; i++ {
		if l.cues[i].sent {
			l.cues[i].sent = false
			t.put(coach.Callout{Kind: coach.Clear, ID: cueID(t.plan.Card.AllCues[i].Of)})
		}
	}
	l.cue = l.sent
}

// sayCue has the average voice begin the next cue when its words, begun now, end a reaction time before its turn
// angle. One that was not sent is not said. What this voice is saying is what watches have to give way to; a cue
// that is sent and waits keeps nothing from being said.
func (t *Talk) sayCue() bool {
	cues, l := t.plan.Card.AllCues, t.leg
	for l.cue < len(cues) && (cues[l.cue].Turn <= l.turn || l.cue < l.sent && !l.cues[l.cue].sent) {
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

// beforeCue returns how long it is until the average voice has to begin the next cue that was sent, s.
func (t *Talk) beforeCue() (float64, bool) {
	next := t.leg.cue
	if next >= t.leg.sent {
		return 0, false
	}
	left, ok := t.leg.Until(t.plan.Card.AllCues[next].Turn)
	return left - t.spoken(next).lead, ok
}

// cueSoon reports whether the average voice is about to begin a cue.
func (t *Talk) cueSoon() bool {
	left, ok := t.beforeCue()
	return ok && left > 0 && left < giveWay
}
