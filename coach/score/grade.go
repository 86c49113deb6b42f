package score

import (
	"math"

	"halfturn/coach"
	"halfturn/stream/phrase"
)

// Where the grades begin.
const (
	excellentFrom = 95.0
	goodFrom      = 80.0
	fairFrom      = 60.0
)

// The most a score can be for what else is known.
const (
	goodMost  = excellentFrom - 1
	fairMost  = goodFrom - 1
	limitMost = fairFrom - 1
	endedMost = 39.0
)

// What a missed check of mean weight costs.
const (
	missCost  = 4.0 // points, just outside the near band
	depthCost = 7.0 // more, for each reach of the near band beyond it
	mostDeep  = 2.0 // of these
)

// nearShare is the share of the weight that may be only near.
const nearShare = 0.25

// gradeOf returns a score in a word; "" where nothing was measured.
func gradeOf(verdict string, score float64) string {
	switch {
	case verdict == coach.NotMeasured:
		return ""
	case score >= excellentFrom:
		return coach.Excellent
	case score >= goodFrom:
		return coach.Good
	case score >= fairFrom:
		return coach.Fair
	}
	return coach.Unable
}

// ceiling returns the highest score of a grade.
func ceiling(grade string) float64 {
	switch grade {
	case coach.Unable:
		return limitMost
	case coach.Fair:
		return fairMost
	case coach.Good:
		return goodMost
	}
	return 100
}

// counted reports whether a check counts: it has a weight, and was measured.
func counted(k *coach.Check) bool { return k.Weight > 0 && k.Verdict != coach.NotMeasured }

// A tally is what a list of checks comes to.
type tally struct {
	weight, mean float64 // the mean is of the scores
	near, missed float64 // weight
	n            int     // how many count
	met          int     // how many of them are met
	unmeasured   int     // how many have a weight and were not measured
	cost         float64 // of what was missed
	dearest      float64 // of it, of the missed check that decides
	worst        *coach.Check
	nearly       *coach.Check // the near one that lost most
	misses       int
	pastLimit    bool
}

// tallied sums up checks.
func tallied(checks []coach.Check) *tally {
	t := &tally{}
	sum, lost := 0.0, 0.0
	for i := range checks {
		k := &checks[i]
		if !counted(k) {
			if k.Weight > 0 {
				t.unmeasured++
			}
			continue
		}
		t.n++
		t.weight += k.Weight
		sum += k.Weight * k.Score
		switch k.Verdict {
		case coach.Met:
			t.met++
		case coach.Near:
			t.near += k.Weight
			if loss := k.Weight * (100 - k.Score); loss > lost {
				t.nearly, lost = k, loss
			}
		}
	}
	if t.weight > 0 {
		t.mean = sum / t.weight
	}
	for i := range checks {
		if k := &checks[i]; counted(k) && k.Verdict == coach.Missed {
			t.miss(k)
		}
	}
	return t
}

// miss adds a missed check. One that is past a limit decides before all others.
func (t *tally) miss(k *coach.Check) {
	t.misses++
	t.missed += k.Weight
	cost := k.Weight / (t.weight / float64(t.n)) * (missCost + depthCost*depth(k))
	t.cost += cost
	if first := k.PastLimit && !t.pastLimit; first || cost > t.dearest && k.PastLimit == t.pastLimit {
		t.worst, t.dearest = k, cost
	}
	t.pastLimit = t.pastLimit || k.PastLimit
}

// depth returns how far a missed check lies beyond its near band, in reaches of that band from the aim; at most
// mostDeep. A band without reach, such as none at all, cannot be missed by more or less.
func depth(k *coach.Check) float64 {
	var outer, inner *float64
	switch low, high := k.Near[0], k.Near[1]; {
	case k.Value == nil:
		return 0
	case high != nil && *k.Value > *high:
		outer, inner = high, k.Met[1]
	case low != nil && *k.Value < *low:
		outer, inner = low, k.Met[0]
	default:
		return 0
	}
	from := 0.0
	switch {
	case k.Aim != nil:
		from = *k.Aim
	case k.Met[0] != nil && k.Met[1] != nil:
		from = (*k.Met[0] + *k.Met[1]) / 2
	case inner != nil:
		from = *inner
	}
	reach := math.Abs(*outer - from)
	if reach == 0 {
		return 0
	}
	return math.Min(mostDeep, math.Abs(*k.Value-*outer)/reach)
}

// verdict returns what the checks alone come to.
func (t *tally) verdict() string {
	switch {
	case t.n == 0:
		return coach.NotMeasured
	case t.misses > 0:
		return coach.Missed
	case t.near > nearShare*t.weight:
		return coach.Near
	}
	return coach.Met
}

// most returns the highest score that the checks leave.
func (t *tally) most() float64 {
	most := 100.0
	if t.near > 0 {
		most = goodMost
	}
	if t.misses > 0 {
		most = math.Max(0, fairMost-t.cost)
	}
	if t.pastLimit {
		most = math.Min(most, limitMost)
	}
	return most
}

// settled brings a verdict and a score together.
func settled(verdict string, score, most float64) (string, float64) {
	if verdict == coach.NotMeasured {
		return verdict, 0
	}
	score = coach.Round(math.Min(score, most), 1)
	if verdict == coach.Met && score < goodFrom {
		verdict = coach.Near
	}
	if verdict == coach.Near {
		score = math.Min(score, fairMost)
	}
	return verdict, score
}

// Mean returns the weighted mean score of what was measured: the score before anything limits it. ok is false when
// nothing was.
func Mean(checks []coach.Check) (mean float64, ok bool) {
	t := tallied(checks)
	return coach.Round(t.mean, 1), t.n > 0
}

// An Ended says what is known of a leg besides its checks.
type Ended struct {
	External bool // the stream or a choice ended it, not the pilot
	NoCard   bool // no aircraft card was chosen
}

// Leg fills in the verdict, the score and the grade of a leg that has its checks, its outcome and the corrections
// given, with the correction of the check that cost most. What a report says besides is left to [Tell].
func Leg(l *coach.Leg, e Ended) {
	t := tallied(l.Checks)
	verdict, most := t.verdict(), t.most()
	switch {
	case l.Outcome != coach.Finished && e.External:
		verdict = coach.NotMeasured
	case l.Outcome != coach.Finished:
		verdict, most = coach.Missed, math.Min(most, endedMost)
	case l.Said > 0 || e.NoCard:
		most = math.Min(most, goodMost)
	}
	l.Verdict, l.Score = settled(verdict, t.mean, most)
	l.Grade = gradeOf(l.Verdict, l.Score)
	l.Change = phrase.Phrase{}
	if l.Verdict == coach.Near || l.Verdict == coach.Missed {
		l.Change = phrase.Plain(Worst(l.Checks))
	}
}

// Worst returns the correction of the check that cost most; "" when nothing is to be corrected.
func Worst(checks []coach.Check) string {
	most, words := 0.0, ""
	for i := range checks {
		k := &checks[i]
		if cost := k.Weight * (100 - k.Score); k.Words != "" && k.Verdict != coach.NotMeasured && cost > most {
			most, words = cost, k.Words
		}
	}
	return words
}
