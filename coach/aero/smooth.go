package aero

import (
	"math"

	"gonum.org/v1/gonum/interp"
)

// smooth fits a monotone curve through points: the slopes of the cubic spline, held within
// three times the smaller neighboring secant so that it never leaves the range of two neighbors
// (Fritsch and Carlson, SIAM J. Numer. Anal. 17, 1980). At an end where the values turn back
// toward what lies beyond it the curve arrives flat, else with the slope of the last secant.
func smooth(f *interp.PiecewiseCubic, x, y []float64, before, after float64) {
	n := len(x)
	m := make([]float64, n)
	if n == 1 { // the middle is one point: roll-in and roll-out meet in it
		f.FitWithDerivatives([]float64{x[0], x[0] + 1}, []float64{y[0], y[0]}, []float64{0, 0})
		return
	}
	secant := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	if (y[0]-before)*secant(0) > 0 {
		m[0] = secant(0)
	}
	if (after-y[n-1])*secant(n-2) > 0 {
		m[n-1] = secant(n - 2)
	}
	splineSlopes(x, m, secant)
	for i := range n {
		limit := math.Inf(1)
		for _, j := range []int{i - 1, i} {
			if j >= 0 && j < n-1 {
				if secant(j)*m[i] <= 0 {
					limit = 0
				}
				limit = math.Min(limit, 3*math.Abs(secant(j)))
			}
		}
		m[i] = math.Max(-limit, math.Min(limit, m[i]))
	}
	f.FitWithDerivatives(x, y, m)
}

// splineSlopes fills the inner slopes of the cubic spline with the given end slopes (the
// tridiagonal system that makes the second derivative continuous).
func splineSlopes(x, m []float64, secant func(int) float64) {
	n := len(x)
	up, rhs := make([]float64, n), make([]float64, n)
	rhs[0] = m[0]
	for i := 1; i < n-1; i++ {
		h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
		d := 2*(h0+h1) - h1*up[i-1]
		up[i] = h0 / d
		rhs[i] = (3*(h1*secant(i-1)+h0*secant(i)) - h1*rhs[i-1]) / d
	}
	for i := n - 2; i > 0; i-- {
		m[i] = rhs[i] - up[i]*m[i+1]
	}
}
