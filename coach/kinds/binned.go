package kinds

import (
	"math"

	"halfturn/coach/check"
)

// binned keeps the mean of a quantity for each degree of turn of its span: bounded, and evenly spaced in turn angle at
// any sample rate.
type binned struct {
	span
	sum   []float64
	count []float32
	first int // turn angle of the first bin
}

// mostTurn is where a span may end, °: 60 past five full turns.
const mostTurn = 1860

func newBinned(spec *check.Spec, f *check.Facts) binned {
	b := binned{span: newSpan(spec, f)}
	b.first = int(math.Ceil(b.from - 0.5))
	b.sum = make([]float64, int(math.Min(b.to, mostTurn))-b.first+2)
	b.count = make([]float32, len(b.sum))
	return b
}

// Step adds a moment.
func (b *binned) Step(m *check.Moment) { b.add(m) }

// add adds a moment and returns its bin, −1 when it has none.
func (b *binned) add(m *check.Moment) int {
	if m.Turn > b.to {
		return -1
	}
	v, _, ok := b.read(m)
	if !ok && (m.Turn >= b.from || b.last != m.Time()) { // missing, and not only because the span has not begun
		return -1
	}
	i := int(math.Round(m.Turn)) - b.first
	if i < 0 || i >= len(b.sum) {
		return -1
	}
	b.sum[i] += v
	b.count[i]++
	return i
}

// profile returns the means over the span, gaps filled by straight lines, each averaged with
// its neighbors within two degrees; at[i] is the turn angle of value i.
func (b *binned) profile() (at, v []float64) { return means(b, b.sum) }

// means does the same as profile for other sums kept per bin.
func means[T float32 | float64](b *binned, sum []T) (at, v []float64) {
	lastAt, lastV := math.NaN(), 0.0
	for i, n := range b.count {
		turn := float64(i + b.first)
		if n == 0 || turn > b.to+0.5 {
			continue
		}
		x := float64(sum[i]) / float64(n)
		for t := lastAt + 1; t < turn; t++ {
			at = append(at, t)
			v = append(v, lastV+(x-lastV)*(t-lastAt)/(turn-lastAt))
		}
		at, v = append(at, turn), append(v, x)
		lastAt, lastV = turn, x
	}
	return at, even(v, 2)
}

// timed is a binned that also keeps when each degree was passed.
type timed struct {
	binned
	time []float32 // sums of the times of each degree, counted from the first moment
	zero float64   // s, the time of that moment
}

func newTimed(spec *check.Spec, f *check.Facts) timed {
	t := timed{binned: newBinned(spec, f), zero: math.NaN()}
	t.time = make([]float32, len(t.sum))
	return t
}

// Step adds a moment.
func (t *timed) Step(m *check.Moment) {
	if math.IsNaN(t.zero) {
		t.zero = m.Time()
	}
	if i := t.add(m); i >= 0 {
		t.time[i] += float32(m.Time() - t.zero)
	}
}

// course returns the profile, and the mean time of each of its degrees, s since the first moment.
func (t *timed) course() (at, v, time []float64) {
	at, v = t.profile()
	_, time = means(&t.binned, t.time)
	return at, v, time
}

// even replaces each value by the mean of those within n places.
func even(v []float64, n int) []float64 {
	out := make([]float64, len(v))
	for i := range v {
		w := min(n, i, len(v)-1-i)
		sum := 0.0
		for j := i - w; j <= i+w; j++ {
			sum += v[j]
		}
		out[i] = sum / float64(2*w+1)
	}
	return out
}

// top returns the index of the largest of sign·v.
func top(v []float64, sign float64) int {
	best := 0
	for i := range v {
		if sign*v[i] > sign*v[best] {
			best = i
		}
	}
	return best
}
