package talk

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// How far out is far, in widths of the corridor (common practice, no source).
const (
	farOut   = 2.0 // said at once, and again until it is cured
	fadedOut = 1.5 // where prompts fade, what leaves the corridor by less is not said
	inAgain  = 0.7 // inside again: the next time it leaves is another time
)

// farHold is how long something must be far out, s: no spike of the stream.
const farHold = 0.2

// rounding is more than a time may be off by, s: clocks that count from long ago have few digits left.
const rounding = 1e-3

// stale is how late a watch may still be said, s.
const stale = 1.5

// A watch is the state of a watch of the card.
type watch struct {
	channel stream.Channel
	out     float64 // how far off, in widths; 0 when it is not known, or not watched here
	growing float64 // widths a second
	since   float64 // when it left the corridor; NaN while it is inside
	far     float64 // since when it is far out; NaN while it is not
	said    bool    // since it left
	saidFar bool    // since it was far out
	last    float64 // off by, when growing was last taken
	lastAt  float64
}

// lookAtWatches measures the lanes that the card watches.
func (t *Talk) lookAtWatches() {
	l, watches := t.leg, t.plan.Card.Watches
	for i := range watches {
		w, state := &watches[i], &l.watch[i]
		state.out = 0
		if l.turn >= w.From && l.turn <= w.To {
			state.out = t.offBy(w, state.channel)
		}
		state.grow(t.now)
		away := math.Abs(state.out)
		switch {
		case away <= 1:
			state.since = math.NaN()
		case math.IsNaN(state.since):
			state.since = t.now
		}
		switch {
		case away < farOut:
			state.far = math.NaN()
		case math.IsNaN(state.far):
			state.far = t.now
		}
		if away < inAgain {
			state.said, state.saidFar = false, false
		}
		l.off = l.off || !math.IsNaN(state.far) && steered(w)
	}
}

// steered reports whether a watch is of the attitude: a cue would ask for what cannot be while that is far off.
func steered(w *maneuver.Watch) bool { return w.Channel == "bank" || w.Channel == "pitch" }

// grow follows how fast the lane moves, over a quarter of a second.
func (s *watch) grow(now float64) {
	if d := now - s.lastAt; d >= 0.25-rounding || d < 0 {
		s.growing = 0
		if d > 0 && d < 1 {
			s.growing = (s.out - s.last) / d
		}
		s.last, s.lastAt = s.out, now
	}
}

// wordsOf returns what is said of a watch that is out, and what it asks. Where the bank is so far off that another pace
// will not do, the bank itself is named.
func (t *Talk) wordsOf(w *maneuver.Watch, out float64) (string, callout.Ask) {
	words, ask := w.High, w.HighAsks
	if out < 0 {
		words, ask = w.Low, w.LowAsks
	}
	switch {
	case ask == callout.NoseUp && t.tooSteep(t.leg.bank) && t.leg.nose < 0: // above the horizon it is a climb yet
		return sayBankFirst, callout.BankLess
	case ask == callout.RollSlower && out >= fadedOut && t.fits(callout.BankLess, sayLessBank):
		return sayLessBank, callout.BankLess
	case ask == callout.RollOutSlower && out <= -fadedOut && t.fits(callout.BankMore, sayMoreBank):
		return sayMoreBank, callout.BankMore
	}
	return words, ask
}

// leftOut reports whether a watch does not belong to the part of which alone something is said.
func (t *Talk) leftOut(w *maneuver.Watch) bool { return t.only != nil && !t.only.HasWatch(w.ID) }

// insists reports whether a watch is said again for as long as it is far out. The others are said once more when they
// come to be far out.
func insists(w *maneuver.Watch) bool { return w.Channel != "ball" && w.Channel != check.Power }

// sayUrgent says what is far out, or of the attitude will be within the second (a speed moves with every gust), and
// again until it is inside. It interrupts a cue the first time; said again, it waits for one that is about to begin. A
// limit comes first.
func (t *Talk) sayUrgent() {
	if t.Prompts() == callout.PromptsOff || t.limits.any() {
		return
	}
	for i := range t.leg.watch {
		w, state := &t.plan.Card.Watches[i], &t.leg.watch[i]
		if math.IsNaN(state.since) || !insists(w) && state.saidFar || t.leftOut(w) {
			continue
		}
		soon := steered(w) && math.Abs(state.out+state.growing) >= farOut && t.now-state.since >= farHold-rounding
		far := t.now-state.far >= farHold-rounding
		back := state.said && state.out*state.growing < 0 // it comes back already
		waits := t.cueSoon() && (state.said || !steered(w))
		if !far && (!soon || state.said) || back || waits {
			continue
		}
		t.sayOf(w, state, true)
	}
}

// sayStalling says that a stall is near, before the limit is passed: in any attitude less pull keeps it off.
func (t *Talk) sayStalling() {
	if !t.stalling() || t.Prompts() == callout.PromptsOff || t.limits.any() {
		t.leg.stalling = math.NaN()
		return
	}
	if math.IsNaN(t.leg.stalling) {
		t.leg.stalling = t.now
	}
	if t.now-t.leg.stalling < farHold-rounding || !t.voice.Insist(t.now, callout.UrgentLevel, sayEasePull) {
		return
	}
	t.leg.said++
	t.withdraw()
	t.put(coach.Callout{Kind: coach.Watch, ID: "stall-near", Words: sayEasePull})
}

// sayWatch says what has been out of its corridor for a while. It gives way to a cue that is about to begin, and is
// said after it if it still holds then.
func (t *Talk) sayWatch() {
	least := 1.0
	switch t.Prompts() {
	case callout.PromptsOff:
		return
	case callout.PromptsFade:
		least = fadedOut
	}
	if t.cueSoon() || t.limits.any() {
		return
	}
	for i := range t.leg.watch {
		w, state := &t.plan.Card.Watches[i], &t.leg.watch[i]
		held := t.now - state.since // NaN inside
		due := held >= w.Hold-rounding && held <= w.Hold+stale
		if math.Abs(state.out) > least && due && !state.said && !t.leftOut(w) {
			t.sayOf(w, state, false)
		}
	}
}

// sayOf says a watch, when what it asks is right here.
func (t *Talk) sayOf(w *maneuver.Watch, state *watch, urgent bool) {
	words, ask := t.wordsOf(w, state.out)
	if words == "" {
		return
	}
	filled := t.expand(words, t.leg.next(t.leg.turn))
	words = filled.String()
	if !t.fits(ask, words) {
		return
	}
	if urgent && !t.voice.Insist(t.now, callout.UrgentLevel, words) ||
		!urgent && !t.voice.Say(t.now, callout.WatchLevel, words) {
		return
	}
	state.said, state.saidFar = true, state.saidFar || !math.IsNaN(state.far)
	t.leg.said++
	if urgent && steered(w) {
		t.withdraw()
	}
	t.put(say(filled, coach.Callout{Kind: coach.Watch, ID: w.ID}))
}

// offBy returns how far a lane is from its aim, in widths of its corridor, positive above; 0 when it is not known.
func (t *Talk) offBy(w *maneuver.Watch, channel stream.Channel) float64 {
	l := t.leg
	s, entry := &l.Moment().Sample, l.Entry()
	switch w.Channel {
	case "ball":
		v, _ := s.Get(stream.Ball)
		return v / w.Width
	case check.OffPivotal:
		v, _ := check.OffPivotalAt(l.Moment())
		return v / w.Width
	case check.Power:
		v, ok := check.PowerAt(l.Moment())
		was, had := check.PowerAt(entry)
		if !ok || !had {
			return 0
		}
		return (v - was) / w.Width
	}
	aim, width, known := t.plan.Aim(w.Channel, l.turn)
	if w.Channel == "airspeed" && t.plan.Card.Reference.Own {
		aim, known = entry.Sample.Get(stream.Airspeed)
		width = t.plan.Card.Corridor.Airspeed
	}
	if w.Width > 0 {
		width = w.Width
	}
	if !known {
		return 0
	}
	v, ok := s.Get(channel)
	switch w.Channel {
	case "pitch":
		v = l.nose
	case "height":
		_, ok = s.Get(stream.Altitude)
		v = l.height
	}
	if !ok {
		return 0
	}
	return (v - aim) / width
}
