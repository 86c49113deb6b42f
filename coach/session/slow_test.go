package session_test

import (
	"fmt"
	"strings"
	"testing"

	"halfturn/coach/session"
)

// TestTooSlowToGrade: a stream of one sample a second says that it cannot be graded, one of
// five does not.
func TestTooSlowToGrade(t *testing.T) {
	for rate, want := range map[float64]bool{1: true, 5: false} {
		s := session.New(options(t, "wing-over", "turboprop-b", nil))
		now := 1000.0
		for i := range 40 {
			now += 1 / rate
			s.Feed(fmt.Appendf(nil, `{"time":%g,"heading":%g,"pitch":1,"bank":0.5,"airspeed":150,"altitude":5000}`, now, 90+float64(i)/100), now)
		}
		if got := strings.Contains(s.Info(now).Advice, "too few to grade"); got != want {
			t.Errorf("at %g samples a second: advice %q", rate, s.Info(now).Advice)
		}
	}
}
