package kinds

import (
	"math"

	"halfturn/coach/check"
	"halfturn/stream/phrase"
)

var smoothnessKind = &check.Kind{
	Name:   "smoothness",
	Says:   "spectral arc length of a rate: −1.4 is one smooth movement, less is rougher",
	Needs:  []string{"channel", "from", "to"},
	Allows: []string{},
	Valid:  oneOf("roll-rate", "pitch-rate", "yaw-rate"),
	Where: func(s *check.Spec, in *phrase.Language) string {
		return over(s, in, in.Wordf("smoothness of %s", quantity(s, in))) +
			in.Word(" (−1.4 is one smooth movement, less is rougher)")
	},
	Unit: in(""),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return newSmoothness(s, f)
	},
	Bands:  check.Tolerances,
	Looks:  check.Throughout,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.InNumbers,
	Counts: check.NoCount,
}

// smoothness gives the spectral arc length of a rate: minus the length of the line its spectrum
// draws, nearer 0 is smoother (see [spectral.ArcLength]). Its place is the middle of the roughest
// window.
//
//   - The measure is defined for a speed, which has no sign: the absolute value of the rate is taken.
//   - It is validated for single movements of a few seconds, and a leg lasts half a minute to two.
//     So it is the mean over windows of 8 s that overlap by half: long enough for a whole
//     movement of the stick with its swing, short enough to be the kind of movement it is
//     validated on.
//   - A window cuts the movement off; a cut reads as a start and a stop (a steady rate would be
//     as rough as −2.4). So each window is faded in and out by half a cosine (Hann).
//   - Windows in which nothing moves are left out: there the measure sees only noise.
//   - The rate is resampled to 10 values per second, each the mean over its 100 ms, so that all
//     streams are judged alike. A hand on the stick moves slower than the 5 Hz which that keeps,
//     and what is faster is averaged out; with 20 per second no recorded leg differs by more than
//     0.05.
type smoothness struct {
	span
	found   arcs
	window  []float64 // one for each 100 ms since the start of the window
	n       int       // values so far
	middle  float64   // turn angle at the middle of the window; NaN before it
	filling bool
	t, v    float64 // the moment before
	end     float64 // s, of the value being filled
	area    float64 // under the rate in it so far
}

// arcs are those of the windows so far.
type arcs struct {
	sum, n float64
	worst  float64
	at     float64 // ° of turn; NaN when it has no place
}

const (
	smoothRate   = 10.0 // values per second
	smoothWindow = 80   // values: 8 s
	smoothHalf   = 40   // values from window to window
	smoothLeast  = 20   // values in a leg that can be judged: 2 s
	smoothMost   = 2048 // values judged: 204 s; what comes later is not
	smoothMoves  = 1.0  // °/s, the least peak that is a movement
)

func newSmoothness(spec *check.Spec, f *check.Facts) *smoothness {
	return &smoothness{
		span:   newSpan(spec, f),
		found:  arcs{at: math.NaN()},
		window: make([]float64, 0, smoothWindow),
		middle: math.NaN(),
	}
}

func (s *smoothness) Step(m *check.Moment) {
	v, _, ok := s.read(m)
	if !ok {
		return
	}
	v = math.Abs(v)
	t := m.Time()
	if !s.filling {
		s.filling, s.t, s.v, s.end = true, t, v, t+1/smoothRate
	}
	for t >= s.end && s.n < smoothMost {
		at := s.v + (v-s.v)*(s.end-s.t)/(t-s.t)
		s.area += (s.v + at) / 2 * (s.end - s.t)
		s.take(s.area*smoothRate, m.Turn)
		s.t, s.v, s.area = s.end, at, 0
		s.end += 1 / smoothRate
	}
	s.area += (s.v + v) / 2 * (t - s.t)
	s.t, s.v = t, v
}

// take adds a value, and measures the window when it is full; its second half begins the next.
func (s *smoothness) take(value, turn float64) {
	if s.n%smoothHalf == 0 && s.n > 0 {
		s.middle = turn
	}
	s.window = append(s.window, value)
	s.n++
	if len(s.window) == smoothWindow {
		s.found = s.with(s.found)
		s.window = s.window[:copy(s.window, s.window[smoothHalf:])]
	}
}

// with adds the arc of the window as it is to those before.
func (s *smoothness) with(a arcs) arcs {
	var faded [smoothWindow]float64
	w := faded[:len(s.window)]
	if !fade(w, s.window) {
		return a
	}
	arc := s.facts.Common.ArcLength(w, smoothRate)
	a.sum += arc
	a.n++
	if arc < a.worst && !math.IsNaN(s.middle) {
		a.worst, a.at = arc, s.middle
	}
	return a
}

func (s *smoothness) Measure(*check.Moment) check.Measure {
	if !s.filling {
		return s.nothing()
	}
	if s.n < smoothLeast {
		return check.None(phrase.TooShort.Of())
	}
	found := s.found
	if s.n < smoothWindow { // a leg shorter than a window is judged as it is
		found = s.with(found)
	}
	if found.n == 0 {
		return check.None(phrase.HardlyMoved.Of(phrase.Part("what", phrase.Plain(s.name))))
	}
	return check.Found(found.sum/found.n, found.at)
}

// fade writes a window with half a cosine in and out; false when nothing moves in it.
func fade(out, v []float64) bool {
	most := 0.0
	for i, x := range v {
		most = max(most, x)
		out[i] = x * (0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/float64(len(v))))
	}
	return most >= smoothMoves
}
