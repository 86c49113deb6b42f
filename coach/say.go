package coach

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// stale is how late a correction may still be said, s.
const stale = 1.5

// say decides what is said at this moment of a leg.
func (c *Coach) say(l *leg) {
	c.sendCues(l)
	if c.sayCue(l) {
		return
	}
	if !c.sayAfter(l) {
		c.sayWatch(l)
	}
}

// expand puts the numbers of the plan into a phrase, and the heading spoken figure by figure.
func (c *Coach) expand(say string, turn float64) string {
	if !strings.Contains(say, "{") {
		return say
	}
	entry := c.leg.facts.Entry.Sample.Value(stream.Heading)
	heading := int(math.Round(stream.Wrap360(entry+c.leg.side*turn))) % 360
	if heading == 0 {
		heading = 360
	}
	return c.plan.Phrase(say, turn, strings.Join(strings.Split(fmt.Sprintf("%03d", heading), ""), " "))
}

// Phrase puts the numbers of the plan into a phrase of the card, {bank} and {speed}, and the
// heading as it is to be said.
func (p *Plan) Phrase(say string, turn float64, heading string) string {
	speed := ""
	if aim, _, ok := p.Aim("airspeed", turn); ok {
		speed = fmt.Sprintf("%.0f", aim)
	}
	return strings.NewReplacer("{bank}", fmt.Sprintf("%.0f", p.Bank(turn)), "{speed}", speed, "{heading}", heading).Replace(say)
}

// sayAfter looks at the checks decided since the last moment, gives the tone, and says the
// correction of the one that cost most. It is said at once or not at all.
func (c *Coach) sayAfter(l *leg) bool {
	card := c.plan.Card
	words, id, most := "", "", 0.0
	judged, bad, post := 0, false, false
	for i := range card.Checks {
		if l.cur.Turn < l.known[i] {
			continue
		}
		l.known[i] = math.Inf(1)
		r := record(&card.Checks[i], l.measure(i, &card.Checks[i], nil), &l.facts)
		if r.Verdict == NotMeasured || r.Weight == 0 {
			continue
		}
		judged++
		bad = bad || r.Verdict == Missed
		post = post || kinds.Of(&card.Checks[i]).Known == check.AtTurn // the others are silent when met
		if cost := r.Weight * (100 - r.Score); r.Verdict == Missed && r.Words != "" && cost > most {
			words, id, most = r.Words, r.ID, cost
		}
	}
	if judged == 0 || !bad && !post {
		return false
	}
	k := &Callout{Time: round(c.now, 3), Kind: After, ID: id, Tone: Met, Turn: round(l.cur.Turn, 1)}
	if bad {
		k.Tone = Missed
		if words != "" && c.voice.Say(c.now, callout.AfterLevel, words) {
			k.Words = words
			l.said++
		}
	}
	c.emit(k)
	return k.Words != ""
}

// sayWatch says a correction when a lane has been out of its corridor for a while. It gives way
// to a cue that is about to begin, and is said after it if it still holds then.
func (c *Coach) sayWatch(l *leg) {
	card := c.plan.Card
	if c.cueSoon(l) {
		return
	}
	for i := range card.Watches {
		w := &card.Watches[i]
		if l.cur.Turn < w.From || l.cur.Turn > w.To {
			l.watch[i] = math.NaN()
			continue
		}
		off, ok := c.outside(l, w)
		if !ok || off == 0 {
			l.watch[i] = math.NaN()
			continue
		}
		if math.IsNaN(l.watch[i]) {
			l.watch[i] = c.now
		}
		words := w.Low
		if off > 0 {
			words = w.High
		}
		if out := c.now - l.watch[i]; out < w.Hold || out > w.Hold+stale || words == "" {
			continue
		}
		if c.voice.Say(c.now, callout.AfterLevel, words) {
			l.watch[i] = math.Inf(-1) // once an excursion
			l.said++
			c.emit(&Callout{Time: round(c.now, 3), Kind: After, ID: w.ID, Words: words, Turn: round(l.cur.Turn, 1)})
		}
	}
}

// outside returns how far a lane is above (positive) or below its corridor, 0 inside.
func (c *Coach) outside(l *leg, w *maneuver.Watch) (off float64, ok bool) {
	s := &l.cur.Sample
	var v float64
	switch w.Channel {
	case "ball":
		v, ok = s.Get(stream.Ball)
		return beyond(v, 0, w.Width), ok
	case check.Power:
		v, ok = check.PowerAt(&l.cur)
		was, had := check.PowerAt(&l.facts.Entry)
		return beyond(v, was, w.Width), ok && had
	case "pitch":
		v, ok = s.Get(stream.Pitch)
		v -= l.facts.Entry.Sample.Value(stream.Pitch)
	default:
		ch, _ := stream.ChannelNamed(w.Channel)
		v, ok = s.Get(ch)
	}
	aim, width, known := c.plan.Aim(w.Channel, l.cur.Turn)
	return beyond(v, aim, width), ok && known
}

func beyond(v, aim, width float64) float64 {
	switch {
	case v > aim+width:
		return v - aim - width
	case v < aim-width:
		return v - aim + width
	}
	return 0
}

// sayResult says how the leg went: the verdict, or the one thing to change.
func (c *Coach) sayResult(l *leg, done *Leg) {
	if l.external {
		return
	}
	k := &Callout{Time: round(c.now, 3), Kind: Result, ID: "leg", Turn: round(l.cur.Turn, 1), Tone: Met}
	switch {
	case done.Outcome == KnockOff:
		k.Words, k.Tone = "Knock it off", Missed
	case done.Outcome == BrokenOff:
		k.Words, k.Tone = "Broken off", Missed
	case done.Verdict == Missed && done.Change != "":
		k.Words, k.Tone = done.Change, Missed
	case done.Verdict == Missed:
		k.Words, k.Tone = "Not within standard", Missed
	case done.Grade == Excellent:
		k.Words = "Excellent"
	default:
		k.Words = "Good"
	}
	level := callout.ResultLevel
	if done.Outcome == KnockOff {
		level = callout.SafetyLevel
	}
	if !c.voice.Say(c.now, level, k.Words) {
		k.Words = ""
	}
	c.emit(k)
}
