package judge

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
func (j *Judge) spoken(l *leg, cue int) *spoken {
	k := &l.talk.cues[cue]
	if k.words == "" {
		q := &j.opt.Plan.Card.AllCues[cue]
		k.words = j.expand(l, q.Say, q.Of)
		k.length, k.early, k.lead = j.voice.Length(k.words), callout.Early(k.words), j.voice.Lead(k.words)
	}
	return k
}

// sendCues sends every cue whose turn angle comes within the lead of a slow voice. Cues are sent early so that every
// listener can begin them when its own voice needs to. One that even an average voice could only say half of in time is
// dropped.
func (j *Judge) sendCues(l *leg) {
	cues, t, now := j.opt.Plan.Card.AllCues, &l.talk, j.track.Now
	for t.sent < len(cues) {
		q := &cues[t.sent]
		if q.Say == "" || q.Turn <= l.cur.Turn {
			t.sent++
			continue
		}
		left, ok := j.until(l, q.Turn)
		if !ok || left > callout.LongestLead {
			return
		}
		k := j.spoken(l, t.sent)
		if left > k.early {
			return
		}
		t.sent++
		if left < k.lead-k.length/2 || j.voice.Repeats(now, k.words) {
			continue
		}
		j.emit(&coach.Callout{
			Time:  coach.Round(now, 3),
			Kind:  coach.Cue,
			ID:    fmt.Sprintf("cue-%g", q.Of),
			Words: k.words,
			Turn:  coach.Round(l.cur.Turn, 1),
			To:    new(q.Turn),
			Due:   new(coach.Round(now+left, 2)),
		})
	}
}

// sayCue has the average voice begin the next cue when its words, begun now, end a reaction time before its turn
// angle. One that was not sent is not said. What this voice is saying is what corrections have to give way to; a cue
// that is sent and waits keeps nothing from being said.
func (j *Judge) sayCue(l *leg) bool {
	cues, t, now := j.opt.Plan.Card.AllCues, &l.talk, j.track.Now
	for t.cue < len(cues) && cues[t.cue].Turn <= l.cur.Turn {
		t.cue++
	}
	left, ok := j.beforeCue(l)
	if !ok || left > 0 || t.cue >= t.sent || j.voice.Busy(now, callout.CueLevel) {
		return false
	}
	k := j.spoken(l, t.cue)
	t.cue++
	return left >= -k.length/2 && j.voice.Say(now, callout.CueLevel, k.words)
}

// beforeCue returns how long it is until the average voice has to begin the next cue, s.
func (j *Judge) beforeCue(l *leg) (float64, bool) {
	cues, next := j.opt.Plan.Card.AllCues, l.talk.cue
	if next == len(cues) || cues[next].Say == "" {
		return 0, false
	}
	left, ok := j.until(l, cues[next].Turn)
	return left - j.spoken(l, next).lead, ok
}

// cueSoon reports whether the average voice is about to begin a cue.
func (j *Judge) cueSoon(l *leg) bool {
	left, ok := j.beforeCue(l)
	return ok && left > 0 && left < giveWay
}
