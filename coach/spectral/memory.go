package spectral

import "slices"

// What a Memory holds: more windows than one judge looks at before another looks at the same.
const (
	remembered = 4
	longest    = 80 // values
)

// A Memory remembers the arc lengths of the last windows. Several judges of one flight look at the same windows, and a
// transform costs far more than a comparison. It is bounded, and not safe for concurrent use. A nil Memory works, and
// remembers nothing.
type Memory struct {
	line    spectrum
	windows []window // made when the first is asked for
	next    int
}

// A window is a speed profile with its arc length.
type window struct {
	v      [longest]float64
	n      int
	fs     float64
	length float64
}

// ArcLength is ArcLength, remembered.
func (m *Memory) ArcLength(v []float64, fs float64) float64 {
	if m == nil {
		return ArcLength(v, fs)
	}
	if len(v) > longest {
		return m.line.arcLength(v, fs)
	}
	for i := range m.windows {
		if w := &m.windows[i]; w.n == len(v) && w.fs == fs && slices.Equal(w.v[:w.n], v) {
			return w.length
		}
	}
	if m.windows == nil {
		m.windows = make([]window, remembered)
	}
	w := &m.windows[m.next]
	m.next = (m.next + 1) % remembered
	w.n, w.fs, w.length = copy(w.v[:], v), fs, m.line.arcLength(v, fs)
	return w.length
}
