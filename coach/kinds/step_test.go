package kinds_test

import (
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// Over a whole leg, not on average: one allocation at a crossing is one too many.
func TestStepAllocates(t *testing.T) {
	for name, j := range everyKind() {
		f := wingOver()
		m := f.moments(j.check)
		facts := f.known()
		facts.Common = &check.Common{} // its work space is made once per station
		// AllocsPerRun warms up with the first.
		judges := []check.Judge{kinds.NewJudge(j.check, facts), kinds.NewJudge(j.check, facts)}
		if n := testing.AllocsPerRun(1, func() {
			for i := range m {
				judges[0].Step(&m[i])
			}
			judges = judges[1:]
		}); n != 0 {
			t.Errorf("%s: %v allocations in %d samples", name, n, len(m))
		}
	}
}

// go test -run ^$ -bench Step -benchmem ./coach/kinds
func BenchmarkStep(b *testing.B) {
	f := wingOver()
	facts := f.known()
	facts.Common = &check.Common{}
	m := f.moments(&check.Spec{Kind: "pace"})
	var judges []check.Judge
	for _, j := range everyKind() {
		judges = append(judges, kinds.NewJudge(j.check, facts))
	}
	b.ReportAllocs()
	for i := range b.N {
		for _, j := range judges {
			j.Step(&m[i%len(m)])
		}
	}
}
