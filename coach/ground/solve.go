package ground

import "math"

// normal are the normal equations of a least-squares fit of up to three unknowns.
type normal struct {
	a [3][3]float64
	b [3]float64
}

// add takes a row of the system and its right side.
func (m *normal) add(row [3]float64, y float64) {
	for i := range row {
		for k := range row {
			m.a[i][k] += row[i] * row[k]
		}
		m.b[i] += row[i] * y
	}
}

// solve returns the first n unknowns, by elimination with pivots; ok is false where the rows do not determine them.
func (m normal) solve(n int) (x [3]float64, ok bool) {
	for i := range n {
		best := i
		for k := i + 1; k < n; k++ {
			if math.Abs(m.a[k][i]) > math.Abs(m.a[best][i]) {
				best = k
			}
		}
		m.a[i], m.a[best], m.b[i], m.b[best] = m.a[best], m.a[i], m.b[best], m.b[i]
		if math.Abs(m.a[i][i]) < 1e-9 {
			return x, false
		}
		for k := range n {
			if k == i {
				continue
			}
			f := m.a[k][i] / m.a[i][i]
			for c := range n {
				m.a[k][c] -= f * m.a[i][c]
			}
			m.b[k] -= f * m.b[i]
		}
	}
	for i := range n {
		x[i] = m.b[i] / m.a[i][i]
	}
	return x, true
}
