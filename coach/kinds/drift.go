package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/valid"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

var driftKind = &check.Kind{
	Name:   "drift",
	Says:   "largest departure at the end of any leg from the value at the first entry",
	Needs:  []string{"channel"},
	Allows: []string{},
	Valid:  driftValid,
	Where: func(s *check.Spec, in *phrase.Language) string {
		return in.Wordf("largest departure of %s at the end of any leg from the first entry", quantity(s, in))
	},
	Unit:   ofQuantity,
	Series: ofTwo(drift),
	Bands:  check.Tolerances,
	Looks:  check.AcrossLegs,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// drift measures how far a channel is at the end of a leg from what it was when the first leg began: legs that are each
// within their tolerance may drift away together.
func drift(s *check.Spec, f *check.SeriesFacts) check.Measure {
	first, had := f.Finished[0].At(s.Channel, false)
	if !had {
		return check.None(phrase.Lacks.Of(phrase.Part("what", phrase.Plain(s.Channel))))
	}
	most := 0.0
	for i := range f.Finished {
		v, ok := f.Finished[i].At(s.Channel, true)
		if !ok {
			return check.None(phrase.NotOnEveryLeg.Of())
		}
		if math.Abs(v-first) > math.Abs(most) {
			most = v - first
		}
	}
	return check.Found(most, math.NaN())
}

// driftValid checks that the quantity is a channel, which is what is known of a leg that is over.
func driftValid(v *valid.Validator, key string, s *check.Spec) {
	straight(v, key, s)
	if _, ok := stream.ChannelNamed(s.Channel); s.Channel != "" && !ok {
		v.OneOf(key+".channel", s.Channel, stream.ChannelNames()...)
	}
}
