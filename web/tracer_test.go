package web

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/web/internal/feed"
)

func TestTracer(t *testing.T) {
	tests := []struct {
		name   string
		frames []*coach.Frame
		want   []float64
	}{
		{"one a degree", []*coach.Frame{feed.At(0, 0, 0), feed.At(0, 0.5, 0), feed.At(0, 1.1, 0), feed.At(0, 1.9, 0), feed.At(0, 2, 0)}, []float64{0, 1.1, 2}},
		{"the next leg begins anew", []*coach.Frame{feed.At(0, 100, 0), feed.At(0, 5, 0), feed.At(0, 6, 0)}, []float64{5, 6}},
		{"a little back is not", []*coach.Frame{feed.At(0, 100, 0), feed.At(0, 98, 0), feed.At(0, 101, 0)}, []float64{100, 101}},
		{"level begins it", []*coach.Frame{feed.Level(0, true), feed.At(0.1, 3.2, 0), feed.At(0.2, 4.1, 0)}, []float64{0, 3.2, 4.1}},
		{"level long ago does not", []*coach.Frame{feed.Level(0, true), feed.At(9, 3.2, 0)}, []float64{3.2}},
		{"level ends it", []*coach.Frame{feed.At(0, 100, 0), feed.Level(0, true)}, []float64{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var tr tracer
			for _, f := range tt.frames {
				tr.add(f)
			}
			got := []float64{}
			for _, p := range tr.points {
				got = append(got, p.Turn)
			}
			if d := cmp.Diff(tt.want, got); d != "" {
				t.Error(d)
			}
		})
	}
}

// Bank is right wing down in level flight and toward the turn in one (frame.go): a left turn begins with as much of it.
func TestTracerEntersToTheLeft(t *testing.T) {
	for direction, want := range map[string]float64{"left": 9, "right": -9} {
		level, turn := feed.Level(0, true), feed.At(0.1, 3.2, 0)
		level.Values["bank"], turn.Direction = -9, direction
		var tr tracer
		tr.add(level)
		tr.add(turn)
		if got := tr.points[0].Bank; got != want {
			t.Errorf("a turn to the %s begins with a bank of %g, want %g", direction, got, want)
		}
	}
}

func TestTracerIsBounded(t *testing.T) {
	var tr tracer
	for turn := range 10_000 {
		tr.add(feed.At(0, float64(turn), 0))
	}
	if len(tr.points) != maxTrace {
		t.Errorf("the trace has %d entries, want at most %d", len(tr.points), maxTrace)
	}
}
