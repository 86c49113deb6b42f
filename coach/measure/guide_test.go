package measure_test

import (
	"testing"

	"halfturn/coach/measure"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// guided feeds a guide as flight feeds a measurer.
type guided struct {
	g    *measure.Guide
	time float64
}

// fly flies for some seconds, 50 samples each.
func (f *guided) fly(seconds float64, values map[stream.Channel]float64, change func(t float64, s *stream.Sample)) {
	for i := range int(seconds * 50) {
		var s stream.Sample
		for c, v := range values {
			s.Put(c, v)
		}
		s.Put(stream.Time, f.time)
		if change != nil {
			change(float64(i)/50, &s)
		}
		f.g.Step(&s)
		f.time += 0.02
	}
}

// slowing loses 2 kt a second from a speed.
func slowing(from float64) func(float64, *stream.Sample) {
	return func(t float64, s *stream.Sample) { s.Put(stream.Airspeed, from-2*t) }
}

// The three tasks follow each other: level flight, the warning, the entry speed.
func TestGuide(t *testing.T) {
	f := &guided{g: measure.NewGuide(), time: 10}
	at := func(want measure.Task) {
		t.Helper()
		if p := f.g.Progress(); p.Task != want {
			t.Fatalf("%s; must be %s: %+v", p.Task, want, p)
		}
	}
	at(measure.TaskLevel)
	f.fly(5, level(110), nil)
	if p := f.g.Progress(); p.Held < 4.5 || p.Hold != 6 || *p.Airspeed != 110 || !p.Why.IsZero() {
		t.Errorf("%+v", p)
	}
	f.fly(2, level(110), nil)
	at(measure.TaskSlow)
	f.fly(24, level(110), func(tm float64, s *stream.Sample) {
		slowing(110)(tm, s)
		s.Put(stream.StallWarning, 0)
	})
	at(measure.TaskSlow)
	if p := f.g.Progress(); !p.Why.Is(phrase.MeasureNoStall) || p.Lowest == nil || *p.Lowest > 64 {
		t.Errorf("%+v", p)
	}
	f.fly(1.2, level(60), func(_ float64, s *stream.Sample) { s.Put(stream.StallWarning, 1) })
	at(measure.TaskEntry)
	f.fly(7, level(100), nil)
	at(measure.TaskDone)
	r := f.g.Results()
	if r.Level != 110 || r.Stall < 60 || r.Stall > 62 || r.StallBy != measure.ByWarning || r.Entry != 100 {
		t.Errorf("%+v", r)
	}
	f.g.Again()
	at(measure.TaskEntry)
	f.fly(7, level(96), nil)
	if r := f.g.Results(); r.Entry != 96 || r.Stall == 0 {
		t.Errorf("once more: %+v", r)
	}
}

// A stall, when the nose drops by itself, needs no warning. A warning in a steep bank or for a moment is none.
func TestGuideStall(t *testing.T) {
	f := &guided{g: measure.NewGuide()}
	f.g.Next() // without level flight
	warns := func(bank float64) func(float64, *stream.Sample) {
		return func(_ float64, s *stream.Sample) {
			s.Put(stream.StallWarning, 1)
			s.Put(stream.Bank, bank)
		}
	}
	f.fly(3, level(80), warns(40))
	f.fly(0.5, level(70), warns(0))
	f.g.Break()
	f.fly(0.6, level(70), warns(0))
	if p := f.g.Progress(); p.Task != measure.TaskSlow {
		t.Fatalf("%+v", p)
	}
	f.fly(8, level(70), func(tm float64, s *stream.Sample) { s.Put(stream.Airspeed, 70-tm) })
	f.fly(1, level(60), func(_ float64, s *stream.Sample) { s.Put(stream.PitchRate, -15) })
	if r := f.g.Results(); r.StallBy != measure.ByStall || r.Stall < 58 || r.Stall > 64 {
		t.Errorf("%+v", r)
	}
}

// A slow flight that is ended by hand counts as far as it was slow; one that was not is left out.
func TestGuideNext(t *testing.T) {
	for slowest, want := range map[float64]measure.StallBy{70: measure.ByLowest, 100: ""} {
		f := &guided{g: measure.NewGuide()}
		f.fly(7, level(110), nil)
		f.fly(3, level(slowest), nil)
		f.g.Next()
		p := f.g.Progress()
		if p.Task != measure.TaskEntry || p.StallBy != want || (p.Stall > 0) != (want != "") {
			t.Errorf("slowed down to %g kt: %+v", slowest, p)
		}
		f.g.Next() // the entry cannot be left out
		f.g.Again()
		if p := f.g.Progress(); p.Task != measure.TaskSlow || p.Stall != 0 {
			t.Errorf("once more: %+v", p)
		}
	}
}

// What is in the way is said.
func TestGuideWhy(t *testing.T) {
	put := func(c stream.Channel, v float64) func(float64, *stream.Sample) {
		return func(_ float64, s *stream.Sample) { s.Put(c, v) }
	}
	drop := func(c stream.Channel) func(float64, *stream.Sample) {
		return func(_ float64, s *stream.Sample) { s.Drop(c) }
	}
	for name, c := range map[string]struct {
		change func(float64, *stream.Sample)
		want   *phrase.Definition
	}{
		"no airspeed":       {drop(stream.Airspeed), phrase.MeasureLacks},
		"no bank":           {drop(stream.Bank), phrase.MeasureLacks},
		"on the ground":     {put(stream.OnGround, 1), phrase.MeasureOnGround},
		"banked":            {put(stream.Bank, -20), phrase.MeasureBank},
		"climbing":          {put(stream.VerticalSpeed, 500), phrase.MeasureClimb},
		"accelerating":      {slowing(110), phrase.MeasureSpeed},
		"load factor wrong": {put(stream.NormalLoad, 0), phrase.MeasureLoad},
	} {
		f := &guided{g: measure.NewGuide()}
		f.fly(8.02, level(100), c.change)
		if p := f.g.Progress(); p.Task != measure.TaskLevel || !p.Why.Is(c.want) {
			t.Errorf("%s: %s, %q", name, p.Task, p.Why)
		}
	}
	f := &guided{g: measure.NewGuide()}
	f.fly(7, level(100), nil)
	f.fly(1, level(99), nil)
	if p := f.g.Progress(); !p.Why.Is(phrase.MeasureFast) {
		t.Errorf("not slowed down: %q", p.Why)
	}
	f.fly(1, level(70), drop(stream.NormalLoad))
	if p := f.g.Progress(); !p.Why.Is(phrase.MeasureLacks) {
		t.Errorf("without a load factor: %q", p.Why)
	}
	f.fly(2, level(60), nil)
	f.g.Next()
	f.fly(7, level(70), nil)
	if p := f.g.Progress(); !p.Why.Is(phrase.MeasureTooSlow) || p.Task != measure.TaskEntry {
		t.Errorf("an entry near the stall: %s, %q", p.Task, p.Why)
	}
}
