package check

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// How the spectral arc length is taken, as in the published reference code.
const (
	sparcPad       = 4    // the transform is this many doublings longer than the next power of two
	sparcThreshold = 0.05 // of the largest amplitude: what lies above the last such bin is noise
	sparcCutOff    = 10.0 // Hz, nothing above is looked at
)

// SpectralArcLength returns the smoothness of a speed profile v of one movement, sampled fs
// times a second: minus the length of the line that the amplitude spectrum draws, with both
// axes scaled to 1,
//
//	−Σ √((Δf / (f₂−f₁))² + (ΔM)²),  M = |V(f)| / max |V(f)|
//
// over the bins from the first to the last that reaches a twentieth of the largest, none above
// 10 Hz. It has no unit and does not depend on size or duration; nearer 0 is smoother: about
// −1.4 for one smooth movement, less for each stop or swing within it. NaN when v is empty, all
// zero or not finite, or fs is not positive.
//
// Source: S. Balasubramanian, A. Melendez-Calderon, A. Roby-Brami, E. Burdet, "On the analysis of
// movement smoothness", J. NeuroEng. Rehabil. 12:112 (2015), with the settings of the authors' code.
func SpectralArcLength(v []float64, fs float64) float64 {
	if len(v) == 0 || !(fs > 0) {
		return math.NaN()
	}
	n := 1
	for n < len(v) {
		n *= 2
	}
	n <<= sparcPad
	padded := make([]float64, n)
	copy(padded, v)
	amplitude := make([]float64, 0, n/2+1)
	most := 0.0
	for i, c := range fourier.NewFFT(n).Coefficients(nil, padded) {
		if float64(i)*fs/float64(n) > sparcCutOff {
			break
		}
		a := math.Hypot(real(c), imag(c))
		amplitude = append(amplitude, a)
		most = math.Max(most, a) // NaN stays
	}
	if !(most > 0) || math.IsInf(most, 0) {
		return math.NaN()
	}
	return -arc(amplitude, most)
}

// arc returns the length of the line between the first and the last bin over the threshold.
func arc(amplitude []float64, most float64) float64 {
	first, last := 0, len(amplitude)-1
	for amplitude[first] < sparcThreshold*most {
		first++
	}
	for amplitude[last] < sparcThreshold*most {
		last--
	}
	length := 0.0
	for i := first + 1; i <= last; i++ {
		length += math.Hypot(1/float64(last-first), (amplitude[i]-amplitude[i-1])/most)
	}
	return length
}
