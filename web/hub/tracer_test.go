package hub

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/stream"
	"halfturn/web/internal/feed"
)

func TestTracer(t *testing.T) {
	tests := []struct {
		name   string
		frames []*coach.Frame
		want   []float64
	}{
		{
			"one a degree",
			[]*coach.Frame{
				feed.At(0, 0, 0),
				feed.At(0, 0.5, 0),
				feed.At(0, 1.1, 0),
				feed.At(0, 1.9, 0),
				feed.At(0, 2, 0),
			},
			[]float64{0, 1.1, 2},
		},
		{
			"the next leg begins again",
			[]*coach.Frame{feed.At(0, 100, 0), feed.At(0, 5, 0), feed.At(0, 6, 0)},
			[]float64{5, 6},
		},
		{
			"a little back is not",
			[]*coach.Frame{feed.At(0, 100, 0), feed.At(0, 98, 0), feed.At(0, 101, 0)},
			[]float64{100, 101},
		},
		{
			"level without a heading tells nothing",
			[]*coach.Frame{feed.Level(0, true), feed.At(0.1, 3.2, 0), feed.At(0.2, 4.1, 0)},
			[]float64{3.2, 4.1},
		},
		{"level long ago does not", []*coach.Frame{feed.Level(0, true), feed.At(9, 3.2, 0)}, []float64{3.2}},
		{
			"it is kept until the verdict",
			[]*coach.Frame{feed.At(0, 100, 0), feed.At(1, 101, 0), feed.Recovering(2, 1)},
			[]float64{100, 101},
		},
		{
			"and ends with it",
			[]*coach.Frame{feed.At(0, 100, 0), feed.Recovering(1, 1), feed.Level(2, true)},
			[]float64{},
		},
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

// TestTracerSinceEntry: bank is right wing down in level flight and toward the turn in one (frame.go); the turn was
// there
// before it was known as one, by the headings.
func TestTracerSinceEntry(t *testing.T) {
	for direction, side := range map[string]float64{"left": -1, "right": 1} {
		var tr tracer
		for i := range 60 { // level for 5 s, then 0.1° of turn and 2° of bank more each time
			n := max(0, float64(i-40))
			f := feed.Level(float64(i)/8, true)
			f.Values = map[string]float64{
				"bank":     side * 2 * n,
				"heading":  stream.Wrap360(10 + side*0.1*n),
				"altitude": 5000 + n,
			}
			tr.add(f)
		}
		first := feed.At(7.5, 2, 0)
		first.Direction, first.Values, first.Climb = direction, map[string]float64{
			"bank":     40,
			"heading":  stream.Wrap360(10 + side*2),
			"altitude": 5020,
		}, new(
			float64,
		)
		*first.Climb = 20
		tr.add(first)
		if n := len(tr.points); n < 15 || n > 25 {
			t.Fatalf("%s: %d points", direction, n)
		}
		for i, p := range tr.points {
			if want := 20 * p.Turn; p.Bank < want-1e-6 || p.Bank > want+1e-6 || *p.Height < 10*p.Turn-1e-6 ||
				*p.Height > 10*p.Turn+1e-6 {
				t.Errorf("%s: point %d at %.2f° has bank %.2f and height %.1f", direction, i, p.Turn, p.Bank, *p.Height)
			}
		}
	}
}

func TestTracerIsBounded(t *testing.T) {
	var tr tracer
	f := feed.At(0, 0, 0)
	for range 2 * maxTrace {
		tr.add(f)
		f.Turn++
	}
	if len(tr.points) != maxTrace {
		t.Errorf("the trace has %d entries; must be %d", len(tr.points), maxTrace)
	}
}

// A page that is opened in the middle of a leg draws the stall and the deck from what the trace keeps: the coach may
// reuse its frame, and what is not known stays unknown.
func TestTracerKeepsTheMargins(t *testing.T) {
	var tr tracer
	f := feed.At(0, 10, 0)
	stall, deck := *f.Stall, *f.Deck
	tr.add(f)
	*f.Stall, *f.Deck = 1, 1
	bare := feed.At(1, 12, 0)
	bare.Stall, bare.Deck = nil, nil
	tr.add(bare)
	if p := tr.points[0]; *p.Stall != stall || *p.Deck != deck {
		t.Errorf("kept %v and %v; must be %v and %v", *p.Stall, *p.Deck, stall, deck)
	}
	if p := tr.points[1]; p.Stall != nil || p.Deck != nil {
		t.Errorf("kept %v and %v of a frame without", p.Stall, p.Deck)
	}
}
