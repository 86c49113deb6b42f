package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

const rhythmSays = "time of the slowest quarter of a span over that of the quickest"

var rhythmKind = &check.Kind{
	Name:   "rhythm",
	Says:   rhythmSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  anything,
	Where:  as(rhythmSays),
	Unit:   in("ratio"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return newRhythm(s, f)
	},
	Bands:  check.FromOne,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// rhythm measures the evenness of the turn in time: the time of the slowest of four quarters of a span
// over that of the quickest, 1 when all take as long. Its place is the middle of the quarter
// farthest from a quarter of the time, its note the share of each. A leg that exits within the
// last quarter ends it there. Time counts from where the bank leaves level.
type rhythm struct {
	get        check.Reader
	in         rollIn
	from, step float64
	at         [5]float64 // s, when each end of a quarter was first passed
	n          int
	prev       check.Moment
	has        bool
}

func newRhythm(spec *check.Spec, f *check.Facts) *rhythm {
	return &rhythm{get: check.Read("bank", f), in: newRollIn(f), from: *spec.From, step: (*spec.To - *spec.From) / 4}
}

func (r *rhythm) Step(m *check.Moment) {
	if v, ok := r.get(m); ok {
		r.in.step(v, m.Time())
	}
	for r.n < len(r.at) {
		edge := r.from + float64(r.n)*r.step
		if m.Turn < edge {
			break
		}
		t := m.Time()
		if r.has && m.Turn > r.prev.Turn && r.prev.Turn < edge {
			t = r.prev.Time() + (edge-r.prev.Turn)/(m.Turn-r.prev.Turn)*(t-r.prev.Time())
		}
		r.at[r.n] = t
		r.n++
	}
	r.prev, r.has = *m, true
}

func (r *rhythm) Measure(exit *check.Moment) check.Measure {
	if exit == nil {
		return check.None(phrase.NoExit.Of())
	}
	ends := r.at
	ends[0] = math.Min(r.in.from(ends[0]), ends[1])
	switch {
	case r.n < 4:
		return check.None(phrase.NoLastQuarter.Of())
	case r.n == 4:
		ends[4] = exit.Time()
	}
	var took [4]float64
	least, most := math.Inf(1), 0.0
	for i := range took {
		took[i] = ends[i+1] - ends[i]
		least, most = math.Min(least, took[i]), math.Max(most, took[i])
	}
	if !(least > 0) {
		return check.None(phrase.NoTime.Of())
	}
	all := ends[4] - ends[0]
	odd, far := 0, 0.0
	for i := range took {
		if d := math.Abs(math.Log(4 * took[i] / all)); d > far {
			odd, far = i, d
		}
	}
	found := check.Found(most/least, r.from+(float64(odd)+0.5)*r.step)
	found.Note = phrase.Quarters.Of(
		phrase.Number("first", 100*took[0]/all, 0, ""),
		phrase.Number("second", 100*took[1]/all, 0, ""),
		phrase.Number("third", 100*took[2]/all, 0, ""),
		phrase.Number("fourth", 100*took[3]/all, 0, ""))
	return found
}
