package session_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/session"
)

// level is a sample of level flight as a line of JSON: time and heading are filled in.
const level = `{"time":%g,"heading":%g,"pitch":1,"bank":0.5,"airspeed":150,"altitude":5000}`

// TestTooSlowToGrade: a stream of one sample per second says that it cannot be graded, one of
// five does not.
func TestTooSlowToGrade(t *testing.T) {
	for rate, want := range map[float64]bool{1: true, 5: false} {
		s := session.New(options(t, "wing-over", "turboprop-b", nil))
		now := 1000.0
		for i := range 40 {
			now += 1 / rate
			s.Feed(fmt.Appendf(nil, level, now, 90+float64(i)/100), now)
		}
		if got := strings.Contains(s.Info(now).Advice.String(), "too few to grade"); got != want {
			t.Errorf("at %g samples a second: advice %q", rate, s.Info(now).Advice)
		}
	}
}

// frames counts the frames of a station.
type frames struct {
	events
	n int
}

func (f *frames) Frame(string, *coach.Frame) { f.n++ }

// TestEveryFrameOfThirty: a stream of 30 samples a second whose stamps are rounded to four
// decimals is shown whole.
func TestEveryFrameOfThirty(t *testing.T) {
	var out frames
	s := session.New(options(t, "wing-over", "turboprop-b", &out))
	for i := range 90 {
		now := math.Floor(1000+float64(i)/0.003) / 1e4
		s.Feed(fmt.Appendf(nil, level, now, 90+float64(i)/100), 1000+now)
	}
	if out.n < 88 {
		t.Errorf("%d frames of 90 samples", out.n)
	}
}
