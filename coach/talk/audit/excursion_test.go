package audit

import (
	"fmt"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/maneuver"
)

// An excursion is more than twice its corridor from the aim, and longer than a spike: held, s. It must be heard of
// within two seconds. A correction begun while it still grew counts: it is not said again for four seconds
// (MIL-STD-1472 5.3.5 has three at most between two warnings, from memory, and the words take one).
const (
	far    = 2.0
	held   = 1.0
	within = 2.0
	grew   = 4.0
)

// An excursion is a time in which a lane was far from its aim.
type excursion struct {
	lane string
	time float64 // when it passed twice the corridor
	turn float64
	off  float64 // in corridors, the most
}

// helps are what may be asked of an excursion above and below. A steep bank comes off before a low nose comes up, and
// a low height is regained by less bank first (Instrument Flying Handbook; Airplane Flying Handbook, steep turns).
var helps = map[string][2][]callout.Ask{
	"bank": {{callout.BankLess, callout.RollSlower, callout.RollOut}, {callout.BankMore, callout.RollOutSlower}},
	"pitch": {
		{callout.NoseDown, callout.Push},
		{callout.NoseUp, callout.BankLess, callout.WingsLevel, callout.EasePush},
	},
	"airspeed": {{callout.NoseUp, callout.PowerLess}, {callout.NoseDown, callout.Push, callout.PowerMore}},
	"height":   {{callout.NoseDown}, {callout.NoseUp, callout.BankLess}},
	"ball":     {{callout.Ball}, {callout.Ball}},
}

// attitude are the lanes that are heard of whatever else is said. Of the others one that comes while something else is
// corrected waits: one thing at a time (Flight Instructor Guide of the CAA of New Zealand, p. 65).
var attitude = []string{"bank", "pitch"}

// unheard lists the excursions of which nothing was said in time. Where what could be said would be wrong (it comes
// back by itself, or the pull would be a rolling one) silence is right.
func (f *flight) unheard() (list []excursion) {
	for _, l := range f.legs {
		for i := range f.plan.Card.Watches {
			if w := &f.plan.Card.Watches[i]; helps[w.Channel][0] != nil {
				list = append(list, f.unheardIn(l, w)...)
			}
		}
	}
	return list
}

func (f *flight) unheardIn(l *coach.Leg, w *maneuver.Watch) (list []excursion) {
	since, side, most, open := math.NaN(), 0.0, 0.0, -1
	for _, s := range f.samples {
		if s.time < f.found(l) || s.time > l.End {
			continue
		}
		off := 0.0
		if at := turn(l, s.time); at >= w.From && at <= w.To {
			off = f.off(l, w, s.time)
		}
		if math.Abs(off) < far || off*side < 0 {
			since, side, most, open = math.NaN(), 0, 0, -1
			continue
		}
		if math.IsNaN(since) {
			since, side = s.time, math.Copysign(1, off)
		}
		if most = math.Max(most, math.Abs(off)); open >= 0 {
			list[open].off = side * most
		}
		if open < 0 && s.time-since >= held && f.missing(l, w, since, side) {
			open = len(list)
			list = append(list, excursion{w.Channel, since, turn(l, since), side * most})
		}
	}
	return list
}

// missing reports whether something was to be said of an excursion since a moment, and was not.
func (f *flight) missing(l *coach.Leg, w *maneuver.Watch, since, side float64) bool {
	way, words, ask := helps[w.Channel][0], w.High, w.HighAsks
	if side < 0 {
		way, words, ask = helps[w.Channel][1], w.Low, w.LowAsks
	}
	lesser := !slices.Contains(attitude, w.Channel)
	right := way
	if lesser { // what the card has to say of it: no power is asked for where a nose answers for the speed
		right = []callout.Ask{ask}
	}
	if words == "" || f.saidOf(since, way, lesser) || !f.needs(l, since, right) {
		return false
	}
	// A low nose at a bank too steep for a pull waits for the bank: the cue to roll out is the right thing to hear.
	v := f.view(l, since+1)
	low := w.Channel == "pitch" && side < 0 && f.contradicts(callout.NoseUp, &v) == rollingPull
	return !low || !slices.ContainsFunc(f.heard, func(h *heard) bool {
		return h.begun >= since-grew && h.begun <= since+within && slices.Contains(f.asksOf(h), callout.RollOut)
	})
}

// found returns when it was clear that a leg is being flown; nothing can be said of it before.
func (f *flight) found(l *coach.Leg) float64 {
	for _, at := range f.committed {
		if at >= l.Start && at <= l.End {
			return at
		}
	}
	return l.End
}

// off returns how far the lane of a watch is from its aim, in corridors.
func (f *flight) off(l *coach.Leg, w *maneuver.Watch, time float64) float64 {
	v := f.view(l, time)
	if w.Channel == "ball" {
		return v.ball / w.Width
	}
	aim, width, known := f.plan.Aim(w.Channel, v.turn)
	if w.Width > 0 {
		width = w.Width
	}
	value := map[string]float64{"bank": v.bank, "pitch": v.nose, "airspeed": v.speed, "height": v.height}[w.Channel]
	if !known || math.IsNaN(value) {
		return 0
	}
	return (value - aim) / width
}

// saidOf reports whether something was said of an excursion in time, or of a limit, which comes first. Of a lesser one
// it is enough that something else was being corrected.
func (f *flight) saidOf(since float64, way []callout.Ask, lesser bool) bool {
	return slices.ContainsFunc(f.heard, func(h *heard) bool {
		if h.begun < since-grew || h.begun > since+within {
			return false
		}
		switch h.Kind {
		case coach.Safety:
			return true
		case coach.Watch:
			return lesser && h.ended > since || slices.ContainsFunc(f.asksOf(h), func(a callout.Ask) bool {
				return slices.Contains(way, a)
			})
		}
		return false
	})
}

// needs reports whether something right could have been said at any time: the words would have ended a second later.
func (f *flight) needs(l *coach.Leg, since float64, way []callout.Ask) bool {
	v, begun := f.view(l, since+1), f.view(l, since)
	v.wayBack(&begun)
	return slices.ContainsFunc(way, func(a callout.Ask) bool {
		switch a {
		case callout.WingsLevel, callout.Push, callout.EasePush: // the ways back from limits, that no watch asks for
			return false
		}
		return f.contradicts(a, &v) == ""
	})
}

func (e excursion) String() string {
	const says = "%s %.1f corridors off from %.1f s on, at %.0f°: nothing was said of it"
	return fmt.Sprintf(says, e.lane, e.off, e.time, e.turn)
}
