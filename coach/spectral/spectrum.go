package spectral

import (
	"math"

	"gonum.org/v1/gonum/dsp/fourier"
)

// A spectrum works out the amplitudes of a profile padded with zeros to sparcPad times its length. Instead of one
// transform over mostly zeros it makes several short ones: with N = padding·n,
//
//	V(padding·j + r) = Σₖ (vₖ·e^(−2πi·k·r/N))·e^(−2πi·k·j/n)
//
// is, for each r, the transform of n values. As v is real, V(N−k) is the conjugate of V(k), so that half of the r are
// enough. It keeps its work space for the next profile of the same length, a fifth of that of the long transform.
type spectrum struct {
	fft       *fourier.CmplxFFT
	step      []complex128 // the factor from one r to the next: e^(−2πi·k/N)
	turned    []complex128 // v times the factor of r
	bins      []complex128 // their transform
	amplitude []float64    // from 0 to half the sampling rate
}

const padding = 1 << sparcPad

// of returns the amplitudes of v, from 0 to half the sampling rate. They are valid until the next call.
func (s *spectrum) of(v []float64) []float64 {
	s.fit(len(v))
	n := len(s.turned)
	clear(s.turned)
	for k, x := range v {
		s.turned[k] = complex(x, 0)
	}
	for r := range padding/2 + 1 {
		for j, c := range s.fft.Coefficients(s.bins, s.turned) {
			bin := padding*j + r
			bin = min(bin, padding*n-bin)
			s.amplitude[bin] = math.Sqrt(real(c)*real(c) + imag(c)*imag(c))
		}
		for k := range v {
			s.turned[k] *= s.step[k]
		}
	}
	return s.amplitude
}

// fit makes room for a profile of a length.
func (s *spectrum) fit(length int) {
	n := 1
	for n < length {
		n *= 2
	}
	if len(s.turned) == n {
		return
	}
	s.fft = fourier.NewCmplxFFT(n)
	s.step = make([]complex128, n)
	for k := range n {
		sin, cos := math.Sincos(-2 * math.Pi * float64(k) / float64(padding*n))
		s.step[k] = complex(cos, sin)
	}
	s.turned, s.bins = make([]complex128, n), make([]complex128, n)
	s.amplitude = make([]float64, padding*n/2+1)
}
