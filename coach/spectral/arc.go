// Package spectral measures how smooth a movement is by the spectrum of its speed.
package spectral

import "math"

// The settings of the published reference code.
const (
	sparcPad       = 4    // the transform is this many doublings longer than the next power of two
	sparcThreshold = 0.05 // of the largest amplitude: what lies above the last such bin is noise
	sparcCutOff    = 10.0 // Hz, frequencies above are ignored
)

// ArcLength returns the smoothness of a speed profile v of one movement, sampled fs
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
func ArcLength(v []float64, fs float64) float64 {
	var s spectrum
	return s.arcLength(v, fs)
}

func (s *spectrum) arcLength(v []float64, fs float64) float64 {
	if len(v) == 0 || !(fs > 0) {
		return math.NaN()
	}
	amplitude := s.of(v)
	length, most := float64(2*(len(amplitude)-1)), 0.0
	for i, a := range amplitude {
		if float64(i)*fs/length > sparcCutOff {
			amplitude = amplitude[:i]
			break
		}
		most = max(most, a) // NaN stays
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
	length, step := 0.0, 1/float64(last-first)
	for i := first + 1; i <= last; i++ {
		length += math.Sqrt(step*step + (amplitude[i]-amplitude[i-1])*(amplitude[i]-amplitude[i-1])/(most*most))
	}
	return length
}
