package maneuver

import (
	"testing"

	"halfturn/coach/valid/validtest"
)

// Whatever the text, a card that loads is one the coach can work with, and the error is one line.
func FuzzLoadCard(f *testing.F) {
	validtest.Seed(f, "../../configs/maneuvers/*.toml", 3)
	validtest.Seed(f, "testdata/bad/*.toml", 20)
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := LoadCard("x.toml", data)
		if err != nil {
			validtest.OneLine(t, err)
			return
		}
		n := len(c.Checkpoints)
		if !(c.Turn > 0) || n == 0 || c.Checkpoints[n-1].Turn != c.Turn || len(c.Profile) < 3 || len(c.Checks) == 0 {
			t.Fatalf("turn %g, %d checkpoints, %d knots, %d checks", c.Turn, n, len(c.Profile), len(c.Checks))
		}
		for i := range c.Checks {
			k := &c.Checks[i]
			if (k.From == nil) != (k.To == nil) || k.MetBand.Low == nil && k.MetBand.High == nil || !k.MetBand.Inside(k.NearBand) {
				t.Fatalf("check %+v", k)
			}
		}
	})
}
