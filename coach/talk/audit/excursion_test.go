package audit

import (
	"fmt"
	"math"

	"halfturn/coach"
	"halfturn/coach/callout"
)

// far is how many corridors from its aim an excursion is, held how long a spike is not one, and within how long it must
// be heard of, s. What was said of it while it grew counts.
const (
	far    = 2.0
	held   = 1.0
	within = 2.0
	grew   = 4.0
)

// An excursion is a time in which the bank or the nose was far from its aim.
type excursion struct {
	lane string
	time float64 // when it passed twice the corridor
	turn float64
	off  float64 // in corridors, the most
}

// helps are what may be asked of an excursion above and below.
var helps = map[string][2][]callout.Ask{
	"bank": {{callout.BankLess, callout.RollSlower, callout.RollOut}, {callout.BankMore, callout.RollOutSlower}},
	"pitch": {
		{callout.NoseDown, callout.Push},
		{callout.NoseUp, callout.BankLess, callout.WingsLevel, callout.EasePush},
	},
}

// unheard lists the excursions of which nothing was said in time. Where what could be said would be wrong (it comes
// back by itself, or the pull would be a rolling one) silence is right.
func (f *flight) unheard() (list []excursion) {
	for _, l := range f.legs {
		for _, w := range f.plan.Card.Watches {
			if h, ok := helps[w.Channel]; ok {
				list = append(list, f.unheardIn(l, w.Channel, w.From, w.To, h)...)
			}
		}
	}
	return list
}

func (f *flight) unheardIn(l *coach.Leg, lane string, from, to float64, help [2][]callout.Ask) (list []excursion) {
	since, side, most, done := math.NaN(), 0.0, 0.0, false
	for _, s := range f.samples {
		if s.time < f.found(l) || s.time > l.End {
			continue
		}
		off := 0.0
		if at := turn(l, s.time); at >= from && at <= to {
			off = f.off(l, lane, s.time)
		}
		if math.Abs(off) < far || off*side < 0 {
			since, done, side, most = math.NaN(), false, 0, 0
			continue
		}
		if math.IsNaN(since) {
			since, side = s.time, math.Copysign(1, off)
		}
		most = math.Max(most, math.Abs(off))
		if !done && s.time-since >= held {
			done = true
			way := help[0]
			if side < 0 {
				way = help[1]
			}
			if !f.saidOf(since, way) && f.needs(l, since, way) {
				list = append(list, excursion{lane, since, turn(l, since), side * most})
			}
		}
	}
	return list
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

// off returns how far a lane is from its aim, in corridors.
func (f *flight) off(l *coach.Leg, lane string, time float64) float64 {
	v := f.view(l, time)
	if lane == "bank" {
		return (v.bank - v.bankAim) / v.corridorBank
	}
	if !v.known {
		return 0
	}
	return (v.nose - v.noseAim) / v.corridorNose
}

// saidOf reports whether something was said of an excursion in time, or of a limit, which comes first.
func (f *flight) saidOf(since float64, way []callout.Ask) bool {
	for _, h := range f.heard {
		if h.begun < since-grew || h.begun > since+within || h.Kind != coach.Watch && h.Kind != coach.Safety {
			continue
		}
		if h.Kind == coach.Safety {
			return true
		}
		for _, a := range f.asksOf(h) {
			for _, b := range way {
				if a == b {
					return true
				}
			}
		}
	}
	return false
}

// needs reports whether something right could have been said at any time: the words would have ended a second later.
func (f *flight) needs(l *coach.Leg, since float64, way []callout.Ask) bool {
	v := f.view(l, since+1)
	for _, a := range way {
		if a != callout.WingsLevel && a != callout.Push && a != callout.EasePush && f.contradicts(a, &v) == "" {
			return true
		}
	}
	return false
}

func (e excursion) String() string {
	const says = "%s %.1f corridors off from %.1f s on, at %.0f°: nothing was said of it"
	return fmt.Sprintf(says, e.lane, e.off, e.time, e.turn)
}
