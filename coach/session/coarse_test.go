package session_test

import (
	"fmt"
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// samplesOf decodes a recording, up to a jump.
func samplesOf(t testing.TB, name string) []stream.Sample {
	t.Helper()
	s := pipeline.New(pipeline.Options{})
	var list []stream.Sample
	for _, d := range datagrams(t, name) {
		switch sample, r := s.Feed(d.Payload, d.Seconds()); r.Outcome {
		case pipeline.Accepted:
			list = append(list, *sample)
		case pipeline.Jumped:
			return list
		}
	}
	return list
}

// coached grades the samples that keep lets through.
func coached(plan *plan.Plan, list []stream.Sample, keep func(t float64) bool) []*coach.Leg {
	c := follow.New(judge.Options{Plan: plan})
	for i := range list {
		if keep(list[i].Value(stream.Time)) {
			c.Step(&list[i])
		}
	}
	c.Break(phrase.Plain("the recording ended"))
	var legs []*coach.Leg
	for _, e := range c.Take() {
		if l, ok := e.(*coach.Leg); ok {
			legs = append(legs, l)
		}
	}
	return legs
}

// thinned lets one sample through in each interval of that many seconds.
func thinned(every float64) func(t float64) bool {
	last := math.Inf(-1)
	return func(t float64) bool {
		if t-last < every-1e-6 {
			return false
		}
		last = t
		return true
	}
}

// thinnings are how a stream loses samples from a moment of a leg on, or up to it: from 60 or 30 a second to 5,
// the other way round, and for a while altogether. gap is the widest interval each leaves, s.
var thinnings = []struct {
	name string
	gap  float64
	keep func(from float64) func(t float64) bool
}{
	{"coarse from there on", 0.2, func(from float64) func(float64) bool {
		slow := thinned(0.2)
		return func(t float64) bool { return t < from || slow(t) }
	}},
	{"coarse up to there", 0.2, func(from float64) func(float64) bool {
		slow := thinned(0.2)
		return func(t float64) bool { return t >= from || slow(t) }
	}},
	{"half a second lost", 0.5, func(from float64) func(float64) bool {
		return func(t float64) bool { return t < from || t >= from+0.5 }
	}},
	{"nine tenths lost", 0.9, func(from float64) func(float64) bool {
		return func(t float64) bool { return t < from || t >= from+0.9 }
	}},
}

// TestDoubtHolds: where a recorded flight turns coarse in mid-leg, or fine, or has a gap, the values of the whole
// recording lie within the uncertainty that is stated, and no uncertainty is more than what the
// largest rate of the recording makes of the widest gap. What has none is as in the whole recording.
func TestDoubtHolds(t *testing.T) {
	stated := 0
	for name, w := range loadTruth(t) {
		plan := options(t, w.Maneuver, w.Aircraft, nil).Coach.Plan
		list := samplesOf(t, name)
		whole := coached(plan, list, func(float64) bool { return true })
		if len(whole) == 0 {
			t.Fatalf("%s: no leg", name)
		}
		l := whole[0]
		for _, thin := range thinnings {
			for _, share := range []float64{0.05, 0.1, 0.3, 0.5, 0.8} {
				from := l.Start + share*(l.End-l.Start)
				legs := coached(plan, list, thin.keep(from))
				if len(legs) == 0 || legs[0].Outcome != l.Outcome {
					t.Errorf("%s, %s at %.0f %%: %d legs", name, thin.name, 100*share, len(legs))
					continue
				}
				for i := range l.Checks {
					was, is := &l.Checks[i], &legs[0].Checks[i]
					if is.Value == nil || !placed[is.Kind] || beyond(l, was) || beyond(legs[0], is) {
						continue
					}
					of := fmt.Sprintf("%s, %s at %.0f %%: %s", name, thin.name, 100*share, is.ID)
					off := math.Abs(*is.Value - *was.Value)
					if is.Uncertainty == nil {
						if off > shifted(list, l, legs[0], is)+0.1 {
							t.Errorf("%s is %g, without a doubt, and was %g", of, *is.Value, *was.Value)
						}
						continue
					}
					stated++
					u := *is.Uncertainty
					if off > u+shifted(list, l, legs[0], is) {
						t.Errorf("%s is %g ± %g, and was %g", of, *is.Value, u, *was.Value)
					}
					gap := thin.gap + 1.0/30 // what was lost, and one interval of the recording
					if most := twice[is.Kind] * fastest(list, l, is.Channel) * gap; u > most+0.01 {
						t.Errorf("%s is uncertain by %g; must be at most %g", of, u, most)
					}
				}
			}
		}
	}
	t.Logf("%d values with an uncertainty", stated)
	if stated < 1000 {
		t.Errorf("only %d values have an uncertainty", stated)
	}
}

// placed are the kinds of check that read a quantity at a place.
var placed = map[string]bool{
	"value":          true,
	"change":         true,
	"extreme":        true,
	"departure":      true,
	"reversal":       true,
	"rise":           true,
	"extreme-angle":  true,
	"crossing-angle": true,
	"roll-out-angle": true,
}

// twice is how many values of the quantity a kind uses; angles have no rate.
var twice = map[string]float64{"value": 1, "change": 1, "extreme": 1, "departure": 1, "reversal": 2, "rise": 2,
	"extreme-angle": math.Inf(1), "crossing-angle": math.Inf(1), "roll-out-angle": math.Inf(1)}

// beyond reports whether a value was found where the leg ends: whether a leg is followed past its exit, or up to
// where it was broken off, is decided by a single sample.
func beyond(l *coach.Leg, k *coach.Check) bool {
	if l.Exit == nil {
		return k.ID == "exit-heading"
	}
	return k.At != nil && k.Kind == "extreme" && *k.At > l.Exit.Turn-1
}

// shifted is by how much a value may differ because the entry of one leg differs from that of the other: what is
// counted from the entry by as much as that does, and what is read at a turn angle because it is read elsewhere.
func shifted(list []stream.Sample, a, b *coach.Leg, k *coach.Check) float64 {
	channel := k.Channel
	switch channel {
	case "power":
		channel = "throttle"
	case "turn":
		channel = "heading"
	case "speed-change":
		channel = "airspeed"
	}
	origin := math.Abs(stream.Wrap180(a.Entry.Values["heading"] - b.Entry.Values["heading"]))
	switch {
	case k.Kind == "extreme-angle", k.Kind == "crossing-angle", k.Kind == "roll-out-angle":
		if origin == 0 {
			return 0
		}
		return origin + 1 // and the degree it is rounded to
	case k.Turn != nil:
		return math.Abs(a.Entry.Values[channel]-b.Entry.Values[channel]) + origin*steepest(list, a, channel)
	}
	return math.Abs(a.Entry.Values[channel] - b.Entry.Values[channel])
}

// steepest is the largest change of a channel in a leg for each degree of turn, over a fifth of a second and where the
// nose comes round at 2°/s at least; 0 where it is no channel.
func steepest(list []stream.Sample, l *coach.Leg, channel string) (most float64) {
	c, ok := stream.ChannelNamed(channel)
	if !ok {
		return 0
	}
	from := 0
	for i := range list {
		a, b := &list[from], &list[i]
		dt := b.Value(stream.Time) - a.Value(stream.Time)
		if dt < 0.2 {
			continue
		}
		from = i
		turned := math.Abs(stream.Wrap180(b.Value(stream.Heading) - a.Value(stream.Heading)))
		if t := a.Value(stream.Time); t < l.Start || t > l.End || turned < 2*dt {
			continue
		}
		most = max(most, math.Abs(b.Value(c)-a.Value(c))/turned)
	}
	return most
}

// fastest is the largest rate of a quantity in a leg, a second; without end where it is no channel.
func fastest(list []stream.Sample, l *coach.Leg, channel string) float64 {
	c, ok := stream.ChannelNamed(channel)
	if channel == "turn" {
		c, ok = stream.Heading, true
	}
	if !ok {
		return math.Inf(1)
	}
	most := 0.0
	for i := 1; i < len(list); i++ {
		a, b := &list[i-1], &list[i]
		if t := a.Value(stream.Time); t < l.Start || t > l.End+2 {
			continue
		}
		d := b.Value(c) - a.Value(c)
		if c == stream.Heading {
			d = stream.Wrap180(d)
		}
		most = max(most, math.Abs(d)/(b.Value(stream.Time)-a.Value(stream.Time)))
	}
	return most
}
