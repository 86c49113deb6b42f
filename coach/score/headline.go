package score

import (
	"halfturn/coach"
	"halfturn/stream/phrase"
)

// Tell fills in what the report of a leg says of its checks: the verdict at each checkpoint, and the headline.
func Tell(l *coach.Leg) { l.Posts, l.Headline = Posts(l.Checks), LegHeadline(l) }

// LegHeadline says in a line what the verdict of a leg rests on: what it was stopped by, the missed check that cost
// most, or that all was within limits; and how many of the checks were.
func LegHeadline(l *coach.Leg) phrase.Phrase {
	t := tallied(l.Checks)
	switch {
	case l.Overruled != nil && !l.Headline.IsZero(): // as a whole: no check says why
		return l.Headline
	case l.Another != nil:
		return phrase.AnotherFlown.Of(phrase.Part("maneuver", phrase.Plain(l.Another.Title)))
	case l.Reason.Is(phrase.StoppedOnWord) || l.Reason.Is(phrase.StoppedOnWordOf):
		return phrase.StoppedBy.Of(phrase.Part("why", l.Reason))
	case l.Verdict == coach.NotMeasured && l.Reason.IsZero():
		return phrase.NothingMeasured.Of()
	case l.Verdict == coach.NotMeasured:
		return phrase.NotMeasuredWhy.Of(phrase.Part("why", l.Reason))
	case l.Outcome == coach.KnockOff:
		return phrase.StoppedBy.Of(phrase.Part("why", l.Reason))
	case l.Outcome == coach.BrokenOff:
		return phrase.BrokenOff.Of(phrase.Part("reason", l.Reason))
	}
	return withCorrections(l, t.withUnmeasured(t.headline(l.Verdict == coach.Near)))
}

// withCorrections adds how many corrections were given on the way to the headline of a leg within standard, which is
// not excellent because of them.
func withCorrections(l *coach.Leg, headline phrase.Phrase) phrase.Phrase {
	switch {
	case l.Verdict != coach.Met || l.Said == 0:
		return headline
	case l.Said == 1:
		return phrase.CorrectedOnce.Of(phrase.Part("headline", headline))
	}
	return phrase.Corrected.Of(phrase.Part("headline", headline), phrase.Int("times", l.Said))
}

// headline says what decided among the checks; fair is that of a leg or series that is not within standard.
func (t *tally) headline(fair bool) phrase.Phrase {
	within := phrase.WithinLimits.Of(phrase.Int("met", t.met), phrase.Int("of", t.n))
	switch {
	case t.n == 0:
		return phrase.NothingMeasured.Of()
	case t.pastLimit:
		return phrase.PastLimit.Of(phrase.Part("what", named(t.worst)), phrase.Part("within", within))
	case t.misses == 1:
		return phrase.NotYet.Of(phrase.Part("what", named(t.worst)), phrase.Part("within", within))
	case t.misses > 1:
		return phrase.NotYetMore.Of(phrase.Part("what", named(t.worst)), phrase.Int("more", t.misses-1),
			phrase.Part("within", within))
	case t.nearly != nil && fair:
		return phrase.Nearly.Of(phrase.Part("what", named(t.nearly)), phrase.Part("within", within))
	case t.nearly != nil:
		return phrase.WithinNearly.Of(phrase.Part("what", named(t.nearly)), phrase.Part("within", within))
	}
	return phrase.AllWithin.Of(phrase.Int("of", t.n))
}

// withUnmeasured adds how many checks were not measured.
func (t *tally) withUnmeasured(headline phrase.Phrase) phrase.Phrase {
	if t.unmeasured == 0 || t.n == 0 {
		return headline
	}
	return phrase.WithUnmeasured.Of(phrase.Part("headline", headline), phrase.Int("none", t.unmeasured),
		phrase.Int("all", t.n+t.unmeasured))
}

func named(k *coach.Check) phrase.Phrase { return phrase.Plain(k.Label) }

// SeriesHeadline says in a line what the verdict of a series rests on: what it lacks, what only the legs together show,
// or its lowest leg.
func SeriesHeadline(s *coach.Series) phrase.Phrase {
	t := tallied(Scored(s))
	lowest := lowestLeg(s)
	if l := elsewhere(s); l != nil {
		return ofLeg(s, l)
	}
	switch {
	case !s.Missing.IsZero():
		return phrase.NotComplete.Of(phrase.Part("what", s.Missing))
	case s.Verdict == coach.NotMeasured:
		return phrase.NothingMeasured.Of()
	case s.Verdict == coach.Met && len(s.Legs) == 2 && t.near == 0:
		return phrase.BothWithin.Of()
	case s.Verdict == coach.Met && len(s.Legs) > 1 && t.near == 0:
		return phrase.LegsWithin.Of(phrase.Int("legs", len(s.Legs)))
	case lowest != nil && lowest.Grade == s.Grade && lowest.Verdict == s.Verdict || t.n == 0:
		return ofLeg(s, lowest)
	}
	return t.withUnmeasured(t.headline(s.Verdict == coach.Near))
}

// ofLeg is the headline of a leg, named where there are several.
func ofLeg(s *coach.Series, l *coach.Leg) phrase.Phrase {
	switch {
	case l == nil:
		return phrase.NothingMeasured.Of()
	case len(s.Legs) == 1:
		return LegHeadline(l)
	}
	return phrase.OfLeg.Of(phrase.Int("leg", l.Number), phrase.Part("headline", LegHeadline(l)))
}

// elsewhere returns the first leg that was another maneuver; nil when there is none.
func elsewhere(s *coach.Series) *coach.Leg {
	for i := range s.Legs {
		if s.Legs[i].Another != nil {
			return &s.Legs[i]
		}
	}
	return nil
}

// lowestLeg returns the leg of the lowest score; nil when none was judged.
func lowestLeg(s *coach.Series) (lowest *coach.Leg) {
	for i := range s.Legs {
		if l := &s.Legs[i]; l.Verdict != coach.NotMeasured && (lowest == nil || l.Score < lowest.Score) {
			lowest = l
		}
	}
	return lowest
}
