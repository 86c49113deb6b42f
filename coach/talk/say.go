package talk

import (
	"fmt"
	"math"
	"strings"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// stale is how late a correction may still be said, s.
const stale = 1.5

// A line is what has been said in a leg and what is to be said next.
type line struct {
	*leg.Leg
	until func(turn float64) (s float64, ok bool) // predicts the time to a turn angle
	cue   int                                     // cue that the average voice says next
	sent  int                                     // cue to be sent next
	cues  []spoken
	said  int       // corrections
	due   []float64 // by check, ° of turn from which its correction is considered; +Inf: never, or done
	first float64   // the least of them
	watch []watch
}

// A watch is the state of a watch of the card.
type watch struct {
	channel stream.Channel
	since   float64 // when its lane left the corridor; NaN while it is inside
}

func (t *line) begin(card *maneuver.Card) {
	t.cues = make([]spoken, len(card.AllCues))
	t.due = make([]float64, len(card.Checks))
	for i := range card.Checks {
		t.due[i] = math.Inf(1)
		if at, ok := kinds.Of(&card.Checks[i]).Known.On(&card.Checks[i]); ok {
			t.due[i] = at
		}
	}
	t.watch = make([]watch, len(card.Watches))
	for i := range card.Watches {
		ch, _ := stream.ChannelNamed(card.Watches[i].Channel)
		t.watch[i] = watch{ch, math.NaN()}
	}
	t.findFirst()
}

// skip passes over the cues and corrections of the turn that was flown before the leg committed itself.
func (t *line) skip(card *maneuver.Card, turn float64) {
	for t.cue < len(card.AllCues) && card.AllCues[t.cue].Turn <= turn {
		t.cue++
	}
	t.sent = t.cue
	for i := range t.due {
		if t.due[i] <= turn {
			t.due[i] = math.Inf(1)
		}
	}
	t.findFirst()
}

func (t *line) findFirst() {
	t.first = math.Inf(1)
	for _, at := range t.due {
		t.first = math.Min(t.first, at)
	}
}

// expand fills in a phrase of the card, with the heading spoken figure by figure.
func (t *Talk) expand(say string, turn float64) string {
	if !strings.Contains(say, "{") {
		return say
	}
	entry := t.leg.Facts.Entry.Sample.Value(stream.Heading)
	heading := int(math.Round(stream.Wrap360(entry+t.leg.Side*turn))) % 360
	if heading == 0 {
		heading = 360
	}
	figures := strings.Join(strings.Split(fmt.Sprintf("%03d", heading), ""), " ")
	return t.plan.Phrase(say, turn, figures)
}

// sayAfter looks at the checks decided since the last moment, gives the tone, and says the correction of the one that
// cost most. It is said at once or not at all.
func (t *Talk) sayAfter() bool {
	l := t.leg
	if l.Cur.Turn < l.first {
		return false
	}
	found := t.decideChecks()
	if !found.any || !found.missed && !found.checkpoint {
		return false
	}
	k := &coach.Callout{
		Time: coach.Round(t.now, 3),
		Kind: coach.After,
		ID:   found.id,
		Tone: coach.Met,
		Turn: coach.Round(l.Cur.Turn, 1),
	}
	if found.missed {
		k.Tone = coach.Missed
		if found.words != "" && t.voice.Say(t.now, callout.AfterLevel, found.words) {
			k.Words = found.words
			l.said++
		}
	}
	t.out.Put(k)
	return k.Words != ""
}

// judged is what the checks decided at one moment come to.
type judged struct {
	any, missed bool
	checkpoint  bool   // one is of a checkpoint; the others are silent when met
	words, id   string // of the missed one that cost most
}

// decideChecks grades the checks that the turn has come to.
func (t *Talk) decideChecks() (found judged) {
	l, card, most := t.leg, t.plan.Card, 0.0
	for i := range card.Checks {
		if l.Cur.Turn < l.due[i] {
			continue
		}
		l.due[i] = math.Inf(1)
		spec := &card.Checks[i]
		r := l.SoFar(i)
		if r.Verdict == coach.NotMeasured || r.Weight == 0 {
			continue
		}
		found.any = true
		found.missed = found.missed || r.Verdict == coach.Missed
		found.checkpoint = found.checkpoint || kinds.Of(spec).Known == check.AtTurn
		if cost := r.Weight * (100 - r.Score); r.Verdict == coach.Missed && r.Words != "" && cost > most {
			found.words, found.id, most = r.Words, r.ID, cost
		}
	}
	l.findFirst()
	return found
}

// sayWatch says a correction when a lane has been out of its corridor for a while. It gives way to a cue that is about
// to begin, and is said after it if it still holds then.
func (t *Talk) sayWatch() {
	if t.cueSoon() {
		return
	}
	l, now, watches := t.leg, t.now, t.plan.Card.Watches
	for i := range watches {
		w, state := &watches[i], &l.watch[i]
		off := 0.0
		if l.Cur.Turn >= w.From && l.Cur.Turn <= w.To {
			off = t.outside(w, state.channel)
		}
		if off == 0 {
			state.since = math.NaN()
			continue
		}
		if math.IsNaN(state.since) {
			state.since = now
		}
		words := w.Low
		if off > 0 {
			words = w.High
		}
		if out := now - state.since; out < w.Hold || out > w.Hold+stale || words == "" {
			continue
		}
		if t.voice.Say(now, callout.AfterLevel, words) {
			state.since = math.Inf(-1) // said once per excursion
			l.said++
			t.out.Put(&coach.Callout{
				Time:  coach.Round(now, 3),
				Kind:  coach.After,
				ID:    w.ID,
				Words: words,
				Turn:  coach.Round(l.Cur.Turn, 1),
			})
		}
	}
}

// outside returns how far a lane is above (positive) or below its corridor; 0 inside, and when it is not known.
func (t *Talk) outside(w *maneuver.Watch, channel stream.Channel) float64 {
	l := t.leg
	s, entry := &l.Cur.Sample, &l.Facts.Entry
	switch w.Channel {
	case "ball":
		if v, ok := s.Get(stream.Ball); ok {
			return beyond(v, 0, w.Width)
		}
		return 0
	case check.Power:
		v, ok := check.PowerAt(l.Cur)
		was, had := check.PowerAt(entry)
		if !ok || !had {
			return 0
		}
		return beyond(v, was, w.Width)
	}
	v, ok := s.Get(channel)
	aim, width, known := t.plan.Aim(w.Channel, l.Cur.Turn)
	if !ok || !known {
		return 0
	}
	if channel == stream.Pitch {
		v -= entry.Sample.Value(stream.Pitch)
	}
	return beyond(v, aim, width)
}

// beyond returns how far a value is outside a band about an aim; 0 inside.
func beyond(v, aim, width float64) float64 {
	switch {
	case v > aim+width:
		return v - aim - width
	case v < aim-width:
		return v - aim + width
	}
	return 0
}

// Result says how a leg that ended at a turn angle went: the verdict, or the one thing to change.
func (t *Talk) Result(turn float64, done *coach.Leg) {
	now, level := t.now, callout.ResultLevel
	k := &coach.Callout{
		Time: coach.Round(now, 3),
		Kind: coach.Result,
		ID:   "leg",
		Turn: coach.Round(turn, 1),
	}
	wordResult(k, done)
	if done.Another != nil && done.Outcome == coach.Finished {
		k.Words = "Another maneuver was flown"
		if t.told == done.Another.Maneuver { // once
			k.Words = ""
		}
		t.told = done.Another.Maneuver
	}
	if done.Outcome == coach.KnockOff {
		level = callout.SafetyLevel
	}
	if !t.voice.Say(now, level, k.Words) {
		k.Words = ""
	}
	t.out.Put(k)
}

// wordResult gives a callout the words and the tone for how a leg went.
func wordResult(k *coach.Callout, done *coach.Leg) {
	k.Tone = coach.Missed
	switch {
	case done.Outcome == coach.KnockOff:
		k.Words = "Knock it off"
	case done.Outcome == coach.BrokenOff:
		k.Words = "Broken off"
	case done.Verdict == coach.NotMeasured:
		k.Words, k.Tone = "Not measured", ""
	case done.Verdict != coach.Met && !done.Change.IsZero():
		k.Words = done.Change.String()
	case done.Verdict != coach.Met:
		k.Words = "Not within standard"
	case done.Grade == coach.Excellent:
		k.Words, k.Tone = "Excellent", coach.Met
	default:
		k.Words, k.Tone = "Good", coach.Met
	}
}
