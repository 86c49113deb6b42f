package check

import (
	"math"
	"testing"

	"halfturn/stream"
)

// rows makes moments of a pitch over the turn angle.
func rows(turns []float64, pitch func(float64) float64) []Moment {
	list := make([]Moment, len(turns))
	for i, turn := range turns {
		list[i].Turn = turn
		list[i].Sample.Put(stream.Time, turn/8)
		list[i].Sample.Put(stream.Pitch, pitch(turn))
	}
	return list
}

func passedAt(list []Moment, turn float64) (Moment, bool) {
	var p Passing
	p.Await(turn)
	for i := range list {
		p.Step(&list[i])
	}
	return p.At()
}

func TestPassingIsExactOnStraightLines(t *testing.T) {
	m, ok := passedAt(rows([]float64{80, 83, 87, 93, 96}, func(x float64) float64 { return 2*x - 100 }), 90)
	if !ok || math.Abs(m.Sample.Value(stream.Pitch)-80) > 1e-9 || m.Turn != 90 || math.Abs(m.Time()-90.0/8) > 1e-9 {
		t.Errorf("%v at %g°: pitch %g", ok, m.Turn, m.Sample.Value(stream.Pitch))
	}
}

// A wing-over's nose near its highest at five samples a second: the straight line cuts the
// corner, the curve does not overshoot and comes closer.
func TestPassingAcrossABend(t *testing.T) {
	nose := func(x float64) float64 { return 22 * math.Sin(2*x*math.Pi/180) }
	for _, turn := range []float64{38, 41, 52, 60, 88} {
		var at []float64
		for x := turn - 8.7; x < turn+9; x += 1.9 {
			at = append(at, x)
		}
		list := rows(at, nose)
		m, ok := passedAt(list, turn)
		if !ok {
			t.Fatal("not passed")
		}
		i := 0
		for list[i].Turn < turn {
			i++
		}
		var line Moment
		line.Lerp(&list[i-1], &list[i], (turn-list[i-1].Turn)/(list[i].Turn-list[i-1].Turn))
		curved := math.Abs(m.Sample.Value(stream.Pitch) - nose(turn))
		straight := math.Abs(line.Sample.Value(stream.Pitch) - nose(turn))
		if curved > straight*1.0001+1e-9 || curved > 0.02 {
			t.Errorf("at %g°: the curve is off by %.4f°, the straight line by %.4f°", turn, curved, straight)
		}
	}
}

func TestPassingNeverOvershoots(t *testing.T) {
	list := rows([]float64{84, 86, 88, 92, 94}, func(x float64) float64 {
		if x < 90 {
			return 10
		}
		return 20
	})
	m, _ := passedAt(list, 90)
	if v := m.Sample.Value(stream.Pitch); v < 10 || v > 20 {
		t.Errorf("pitch %g lies outside its neighbors", v)
	}
}

func TestPassingAtTheEdges(t *testing.T) {
	line := func(x float64) float64 { return x / 2 }
	if _, ok := passedAt(rows([]float64{10, 20, 30}, line), 45); ok {
		t.Error("passed what was not reached")
	}
	if m, ok := passedAt(rows([]float64{40, 50}, line), 45); !ok || math.Abs(m.Sample.Value(stream.Pitch)-22.5) > 1e-9 {
		t.Error("two moments are enough for a straight line")
	}
	if m, ok := passedAt(rows([]float64{70, 100}, line), 90); !ok || math.Abs(m.Sample.Value(stream.Pitch)-45) > 1e-9 {
		t.Error("a wide step is passed too")
	}
}

// Neither a passing of its own nor those of a leg, which pass on their room.
func TestPassingDoesNotAllocate(t *testing.T) {
	list := rows([]float64{60, 70, 80, 88, 92, 95, 130, 140}, func(x float64) float64 { return x })
	var p Passing
	p.Await(0)          // makes its room
	var legs [101]Facts // AllocsPerRun warms up with the first
	for i := range legs {
		legs[i].Passing(90)
		legs[i].Passing(135)
	}
	next := 0
	if n := testing.AllocsPerRun(len(legs)-1, func() {
		p.Await(90)
		for i := range list {
			p.Step(&list[i])
			for _, of := range legs[next].passings {
				of.Step(&list[i])
			}
		}
		p.At()
		next++
	}); n != 0 {
		t.Errorf("%g allocations", n)
	}
}

// Passings of a leg that are near their turn angles at the same time have a room each.
func TestPassingsDoNotMix(t *testing.T) {
	var f Facts
	list := rows([]float64{60, 70, 80, 88, 92, 95, 101, 140, 150}, func(x float64) float64 { return x * x })
	turns := []float64{85, 90, 100, 145}
	for _, turn := range turns {
		f.Passing(turn)
	}
	for i := range list {
		for _, p := range f.passings {
			p.Step(&list[i])
		}
	}
	for _, turn := range turns {
		got, ok := f.Passing(turn).At()
		alone, _ := passedAt(list, turn)
		if !ok || got != alone {
			t.Errorf("at %g°: %v, %+v; alone %+v", turn, ok, got, alone)
		}
	}
	if n := len(f.room.spare); n != 2 { // the last waits for another moment in the third
		t.Errorf("%d rooms are free at the end; must be 2", n)
	}
}

// Once the moment after it has come, a passing stays as it is whatever follows, and leaves its room.
func TestPassingIsFoundOnce(t *testing.T) {
	list := rows([]float64{60, 80, 88, 92, 95, 80, 95, 92}, func(x float64) float64 { return x * x })
	var f Facts
	p := f.Passing(90)
	var first Moment
	for i := range list {
		p.Step(&list[i])
		p.Step(&list[i]) // as another check does
		m, ok := p.At()
		switch {
		case ok != (i >= 3):
			t.Fatalf("at %g°: passed %v", list[i].Turn, ok)
		case i == 4:
			first = m
		case i > 4 && m != first:
			t.Fatalf("at %g° the passing changes", list[i].Turn)
		}
	}
	if p.around != nil || len(f.room.spare) != 1 {
		t.Error("the moments around a passing are kept after it was found")
	}
	want := Passing{}
	want.Await(90)
	for i := range list[:5] {
		want.Step(&list[i])
	}
	if m, _ := want.At(); m != first {
		t.Error("a moment that is taken twice counts twice")
	}
}
