package track

import (
	"math"
	"testing"

	"halfturn/stream"
)

// fly steps a tracker through samples, rate per second, from 0 to a time. put sets the channels at a time; what it
// leaves out is level flight to the north at 100 kt.
func fly(t *Tracker, rate, until float64, put func(now float64, s *stream.Sample)) {
	for i := 0; float64(i)/rate <= until; i++ {
		var s stream.Sample
		now := float64(i) / rate
		for c, v := range map[stream.Channel]float64{
			stream.Time: now, stream.Heading: 0, stream.Pitch: 2, stream.Bank: 0, stream.Altitude: 5000,
			stream.Airspeed: 100, stream.TrueAirspeed: 100,
		} {
			s.Put(c, v)
		}
		if put != nil {
			put(now, &s)
		}
		t.Step(&s)
	}
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %v, not %v within %g", what, got, want, within)
	}
}

func TestSampleWithoutAttitude(t *testing.T) {
	for _, lacking := range []stream.Channel{stream.Time, stream.Heading, stream.Pitch, stream.Bank} {
		var tr Tracker
		taken := true
		var s stream.Sample
		for _, c := range []stream.Channel{stream.Time, stream.Heading, stream.Pitch, stream.Bank} {
			if c != lacking {
				s.Put(c, 1)
			}
		}
		if taken = tr.Step(&s); taken || tr.Begun || tr.Past.Len() != 0 {
			t.Errorf("without %s: taken %v, begun %v, %d kept", lacking, taken, tr.Begun, tr.Past.Len())
		}
	}
}

// Heading comes round through north in both directions without a jump.
func TestUnwrapped(t *testing.T) {
	for _, rate := range []float64{12, -12} {
		var tr Tracker
		fly(&tr, 30, 60, func(now float64, s *stream.Sample) { s.Put(stream.Heading, stream.Wrap360(350+rate*now)) })
		near(t, "the turn in a minute", tr.Turned, 60*rate, 1e-6)
		near(t, "the turn half a minute ago, or the oldest kept", tr.Past.TurnedAt(tr.Now-20), 40*rate, 0.5)
		if p := tr.Pose(); !p.Known || p.Heading != tr.Heading {
			t.Errorf("the pose is %+v", p)
		}
		tr.Clear()
		if tr.Begun || tr.Past.Len() != 0 {
			t.Error("something is left after Clear")
		}
	}
}

// The ring keeps at most 40 samples per second, and half a minute at most.
func TestThinned(t *testing.T) {
	for _, c := range []struct{ rate, keeps float64 }{{10, 10}, {30, 30}, {60, 30}, {200, 40}} {
		var tr Tracker
		fly(&tr, c.rate, 5, nil)
		near(t, "kept in five seconds", float64(tr.Past.Len()), 5*c.keeps+1, 1)
		fly(&tr, c.rate, 200, func(now float64, s *stream.Sample) { s.Put(stream.Time, 5+now) })
		if tr.Past.Len() > ringSize {
			t.Errorf("%d samples kept", tr.Past.Len())
		}
		if span := tr.Now - tr.Past.Time(tr.Past.Len()-1); span < 19.9 || span < lookBack {
			t.Errorf("at %g samples per second the past reaches back %g s; must be 20 s at least", c.rate, span)
		}
		for i := 1; i < tr.Past.Len(); i++ {
			if tr.Past.Time(i) >= tr.Past.Time(i-1) {
				t.Fatalf("sample %d back is not older than the one after it", i)
			}
		}
	}
}

// Everything changes at a constant rate, so that the rates are those numbers, and the means are those half way.
func TestRates(t *testing.T) {
	var tr Tracker
	fly(&tr, 20, 10, func(now float64, s *stream.Sample) {
		s.Put(stream.Heading, 3*now)
		s.Put(stream.Bank, 2*now)
		s.Put(stream.Pitch, 1-0.5*now)
		s.Put(stream.Altitude, 5000+10*now)
		s.Put(stream.Airspeed, 100-2*now)
		s.Put(stream.TrueAirspeed, 110)
		s.Put(stream.NormalLoad, 1+0.1*now)
	})
	for range 2 { // worked out, then remembered
		w, full := tr.Past.Rates(tr.Now - 2)
		if !full {
			t.Fatal("ten seconds do not reach back two")
		}
		near(t, "bank", w.Bank, 18, 1e-9)
		near(t, "pitch", w.Pitch, 1-4.5, 1e-9)
		near(t, "turned", w.Turned, 27, 1e-9)
		near(t, "bank rate", w.BankRate, 2, 1e-9)
		near(t, "nose rate", w.NoseRate, -0.5, 1e-9)
		near(t, "turn rate", w.TurnRate, 3, 1e-9)
		near(t, "climb", w.Climb, 600, 1e-6)
		near(t, "speed rate", w.SpeedRate, -2, 1e-9)
		near(t, "load rate", w.LoadRate, 0.1, 1e-9)
		near(t, "speed", w.Speed, 110, 0)
		// tan(bank) = ωV/g: 3°/s at 110 kt, 0.05236 · 56.59 m/s / 9.80665 = tan 16.81°.
		near(t, "bank of a level turn", w.turningBank(), 16.81, 0.01)
		// sin(path) = 10 ft/s over 110 kt (185.66 ft/s): 3.088°.
		near(t, "flight path", w.pathAngle(), 3.088, 0.001)
	}
	if _, full := tr.Past.Rates(-1); full {
		t.Error("the past reaches back to before it began")
	}
	before, _ := tr.Past.Rates(9)
	fly(&tr, 20, 0, func(_ float64, s *stream.Sample) { s.Put(stream.Time, 10.05); s.Put(stream.Bank, 60) })
	if after, _ := tr.Past.Rates(9); after == before {
		t.Error("a new sample leaves the rates as they were")
	}
}

// A mean heading is that of the turn, also through north; a channel that was once missing has none.
func TestMeans(t *testing.T) {
	var tr Tracker
	fly(&tr, 20, 10, func(now float64, s *stream.Sample) {
		s.Put(stream.Heading, stream.Wrap360(355+now)) // 4° at 9 s
		s.Put(stream.Airspeed, 100+5*math.Sin(now*math.Pi))
		s.Put(stream.Ball, 0.5)
		if now == 9 {
			s.Drop(stream.Ball)
		}
		s.Derive(stream.VerticalSpeed, 100)
	})
	w, full := tr.Past.Over(8, 10)
	if !full || w.N != 41 {
		t.Fatalf("%d samples, full %v", w.N, full)
	}
	near(t, "heading", w.Sample.Value(stream.Heading), 4, 1e-9)
	near(t, "turn rate", w.TurnRate, 1, 1e-9)
	near(t, "lowest speed", w.LowSpeed, 95, 1e-9)
	near(t, "highest speed", w.HighSpeed, 105, 1e-9)
	if w.Sample.Has.Has(stream.Ball) {
		t.Error("a channel that was missing has a mean")
	}
	near(t, "a derived channel", w.Sample.Value(stream.VerticalSpeed), 100, 1e-9)
	some, _ := tr.Past.Means(8, 10, 1<<stream.Airspeed)
	if some.Sample.Has != 1<<stream.Airspeed|1<<stream.Bank {
		t.Errorf("asked for airspeed, the means have %v", some.Sample.Has.Names())
	}
	near(t, "airspeed", some.Sample.Value(stream.Airspeed), w.Sample.Value(stream.Airspeed), 0)
	if none, _ := tr.Past.Over(20, 30); none.N != 0 {
		t.Errorf("%d samples of the future", none.N)
	}
}

// Level flight is the reference; a gentle roll-in, a climb with falling speed and a turn leave it as it was.
func TestLevel(t *testing.T) {
	const leaves = 10.0 // s
	for name, put := range map[string]func(now float64, s *stream.Sample){
		"a roll of 2°/s": func(now float64, s *stream.Sample) { s.Put(stream.Bank, 2*now) },
		"a nose of 2°/s": func(now float64, s *stream.Sample) { s.Put(stream.Pitch, 2+2*now) },
		"a turn of 3°/s": func(now float64, s *stream.Sample) { s.Put(stream.Heading, 3*now) },
		"a bank of 30°":  func(_ float64, s *stream.Sample) { s.Put(stream.Bank, 30) },
		"a zoom of 30 ft/s": func(now float64, s *stream.Sample) {
			s.Put(stream.Altitude, 5000+30*now)
			s.Put(stream.Airspeed, 100-3*now)
		},
	} {
		var tr Tracker
		var l Level
		step := func(now float64, s *stream.Sample) {
			if now > leaves {
				put(now-leaves, s)
			}
		}
		for i := range 150 {
			var s stream.Sample
			now := float64(i) / 10
			for c, v := range map[stream.Channel]float64{
				stream.Time: now, stream.Heading: 0, stream.Pitch: 2, stream.Bank: 0, stream.Altitude: 5000,
				stream.Airspeed: 100,
			} {
				s.Put(c, v)
			}
			step(now, &s)
			tr.Step(&s)
			l.Renew(&tr)
			if ref := l.Reference(); now > 2.2 && now <= leaves && (!ref.OK || ref.Until != now) {
				t.Fatalf("%s: level flight at %g s is no reference: %+v", name, now, ref)
			}
		}
		ref := l.Reference()
		if ref.Until > leaves+2 || ref.Joined {
			t.Errorf("%s is taken for level flight until %g s", name, ref.Until)
		}
		near(t, name+": bank", ref.Bank, 0, 1)
		near(t, name+": pitch", ref.Pitch, 2, 1)
		l.EndLeg(true, 180, 3, 50)
		if ref := l.Reference(); !ref.OK || !ref.Joined || ref.Turned != 180 || ref.Pitch != 3 || ref.Until != 50 ||
			l.Flight().OK {
			t.Errorf("after a leg the reference is %+v", ref)
		}
		l.EndLeg(false, 180, 3, 50)
		if l.Reference().OK {
			t.Error("a leg that was broken off leaves a reference")
		}
	}
}

// A roll-in that begins at a known time to either side is found to the blink of an eye; a nose that leaves level before
// it counts where the maneuver climbs.
func TestDeparture(t *testing.T) {
	for _, c := range []struct {
		name         string
		roll, nose   float64 // °/s
		bankAt, upAt float64 // s
		climbs       bool
		want         float64
	}{
		{name: "a brisk roll", roll: 10, bankAt: 12, upAt: 90, want: 12},
		{name: "a slow roll", roll: 2.5, bankAt: 12, upAt: 90, want: 12},
		{name: "the nose first", roll: 10, nose: 3, bankAt: 14, upAt: 12, climbs: true, want: 12},
		{name: "the nose first, where it does not count", roll: 10, nose: 3, bankAt: 14, upAt: 12, want: 14},
		{name: "the bank first", roll: 10, nose: 3, bankAt: 12, upAt: 12.5, climbs: true, want: 12},
	} {
		for _, side := range []float64{1, -1} {
			var tr Tracker
			fly(&tr, 30, c.bankAt+3, func(now float64, s *stream.Sample) {
				s.Put(stream.Bank, side*math.Min(30, c.roll*math.Max(0, now-c.bankAt)))
				s.Put(stream.Pitch, 2+c.nose*math.Max(0, now-c.upAt))
			})
			ref := Reference{OK: true, Pitch: 2, Until: c.bankAt - 0.5}
			near(t, c.name, tr.Past.Departure(&ref, side, c.climbs), c.want, 0.15)
		}
	}
}

// 180° of heading, or two of 90° in opposite directions, within three minutes (CNATRA P-330 par. 1005).
func TestClearing(t *testing.T) {
	type turn struct{ by, seconds float64 }
	for _, c := range []struct {
		name  string
		turns []turn
		want  float64
	}{
		{"none", []turn{{0, 60}}, 0},
		{"180° right", []turn{{180, 60}}, 180},
		{"180° left", []turn{{-180, 60}}, 180},
		{"90° and back", []turn{{90, 30}, {-90, 30}}, 180},
		{"90° twice the same way", []turn{{90, 30}, {90, 30}}, 180},
		{"90° alone", []turn{{90, 30}}, 90},
		{"90° and 45° back", []turn{{90, 30}, {-45, 15}}, 90},
		{"180° long ago", []turn{{180, 60}, {0, 200}}, 0},
		{"90° long ago", []turn{{90, 30}, {0, 170}, {-90, 30}}, 90},
		{"wandering", []turn{{4, 2}, {-4, 2}, {4, 2}, {-4, 2}}, 0},
	} {
		var k Clearing
		now, heading := 0.0, 0.0
		for _, x := range c.turns {
			for range int(x.seconds * 10) {
				now, heading = now+0.1, heading+x.by/x.seconds/10
				k.Add(now, heading, 30)
			}
		}
		near(t, c.name, k.Turned(now), c.want, 2*clearingStep+1)
		k.Clear()
		near(t, "after Clear", k.Turned(now), 0, 0)
	}
	var k Clearing
	k.Add(0, 0, 30)
	k.Skip()
	k.Add(60, 180, 30)
	near(t, "the turning of a leg", k.Turned(60), 0, 0)
}

func TestStepAllocatesNothing(t *testing.T) {
	var tr Tracker
	var l Level
	var s stream.Sample
	for c := range stream.NumChannels {
		s.Put(c, 1)
	}
	i := 0
	if n := testing.AllocsPerRun(1000, func() {
		i++
		s.Put(stream.Time, float64(i)/60)
		tr.Step(&s)
		l.Renew(&tr)
		tr.Past.Means(tr.Now-3, tr.Now, 1<<stream.Airspeed)
	}); n != 0 {
		t.Errorf("%v allocations per sample", n)
	}
}

// What was flown to clear the area, by hand: CNATRA P-330 par. 1005 asks for at least 45° of bank, and for the last
// clearing turn toward the maneuver.
func TestClearedBefore(t *testing.T) {
	type turn struct{ by, seconds, bank float64 }
	for _, c := range []struct {
		name               string
		turns              []turn
		known              bool
		turned, bank, last float64
	}{
		{"none, and followed for a minute", []turn{{0, 60, 0}}, false, 0, 0, 0},
		{"none in three minutes", []turn{{0, 200, 0}}, true, 0, 0, 0},
		{"right, then left", []turn{{90, 10, 50}, {-90, 10, 45}}, true, 180, 45, -90},
		{"left shallow, then right", []turn{{-90, 20, 25}, {0, 20, 0}, {90, 10, 50}}, true, 180, 25, 90},
		{"a little back at the end", []turn{{-90, 10, 45}, {90, 10, 50}, {-10, 5, 10}}, true, 180, 45, 90},
		{"half of it, in three minutes", []turn{{0, 190, 0}, {90, 10, 45}}, true, 90, 45, 90},
	} {
		var k Clearing
		now, heading := 0.0, 0.0
		for _, x := range c.turns {
			for range int(x.seconds * 10) {
				now, heading = now+0.1, heading+x.by/x.seconds/10
				k.Add(now, heading, x.bank)
			}
		}
		got := k.Before(now)
		if got.Known != c.known || got.Bank != c.bank {
			t.Errorf("%s: %+v", c.name, got)
		}
		near(t, c.name+", turned", got.Turned, c.turned, 2*clearingStep+1)
		near(t, c.name+", the last", got.Last, c.last, 2*clearingStep+1)
	}
	var k Clearing
	for i := range 100 { // the roll-in of the leg itself does not count
		k.Add(float64(i)/10, max(0, float64(i)-50)*2, 50)
	}
	near(t, "before the roll-in", k.Before(5).Turned, 0, 0)
}
