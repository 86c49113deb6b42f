package leg_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/track"
	"halfturn/configs"
	"halfturn/stream"
)

// A recovery is what is flown after a half turn at 4°/s to the right, with 30° of bank to 90° and 6° at 180°, where the
// wings come level at 55 kt. Time counts from there.
type recovery struct {
	altitude, airspeed, bank func(time float64) float64
	seconds                  float64 // to the end of the stream
}

// fly flies the half turn and the recovery, and returns the leg, its end, and when that came after the exit, s. The end
// is the zero value when the stream ended first.
func (r recovery) fly(t *testing.T) (l *leg.Leg, e leg.End, out float64) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("chandelle-civil")
	if err != nil {
		t.Fatal(err)
	}
	const hertz = 20
	var tr track.Tracker
	l = leg.New(plan.New(card, nil), &tr.Past, leg.Start{Time: 0, Side: 1}, nil)
	for i := 0; ; i++ {
		now := float64(i) / hertz
		turned, bank, out := min(4*now, 180), min(6*now, 30), now-45
		if turned > 90 {
			bank = 30 - (turned-90)*24/90
		}
		var s stream.Sample
		s.Put(stream.Time, now)
		s.Put(stream.Heading, stream.Wrap360(turned))
		s.Put(stream.Pitch, 10)
		s.Put(stream.Bank, bank)
		s.Put(stream.Altitude, 5000+turned)
		s.Put(stream.Airspeed, 100-turned/4)
		if out >= 0 {
			s.Put(stream.Altitude, 5180+r.altitude(out))
			s.Put(stream.Airspeed, 55+r.airspeed(out))
			s.Put(stream.Bank, r.bank(out))
		}
		tr.Step(&s)
		if e = l.Step(&s, tr.Turned); e.Outcome != "" {
			return l, e, now - e.Exit.Time()
		}
		if out > r.seconds {
			return l, leg.End{}, out
		}
	}
}

func value(t *testing.T, done *coach.Leg, id string) float64 {
	t.Helper()
	for _, k := range done.Checks {
		if k.ID == id {
			if k.Value == nil {
				t.Fatalf("%s was not measured: %s", id, k.Reason)
			}
			return *k.Value
		}
	}
	t.Fatalf("there is no check %s", id)
	return 0
}

// A chandelle lasts until the recovery after its exit has been seen: FAA-S-ACS-7 CA.V.C.S7 and S8. What is judged at
// the exit or before it does not change by what comes after.
func TestRecovery(t *testing.T) {
	flat := func(float64) float64 { return 0 }
	for _, c := range []struct {
		name       string
		flown      recovery
		lost, kept float64 // ft; s
		last       float64 // s after the exit at which the leg ends
	}{
		{"held", recovery{flat, flat, flat, 60}, 0, 10, 10},
		{"sinks 80 ft", recovery{func(t float64) float64 { return -16 * min(t, 5) }, flat, flat, 60}, -80, 10, 10},
		{"sinks after it was over", recovery{func(t float64) float64 { return -100 * max(0, t-12) }, flat, flat, 60},
			0, 10, 10},
		// 2 kt a second: 5 kt after 2.5 s.
		{"dives for speed", recovery{flat, func(t float64) float64 { return 2 * t }, flat, 60}, 0, 2.5, 10},
		// 10°/s of bank from 3 s on: 15° at 4.5 s.
		{"turns again", recovery{flat, flat, func(t float64) float64 { return 10 * max(0, t-3) }, 60}, 0, 4.5, 4.5},
	} {
		l, e, out := c.flown.fly(t)
		if e.Outcome != coach.Finished || math.Abs(out-c.last) > 0.2 {
			t.Errorf("%s: %s, %.1f s after the exit; must be over after %g s", c.name, e.Outcome, out, c.last)
			continue
		}
		done := l.Grade(1, 0, e)
		if v := value(t, done, "recovery-height"); math.Abs(v-c.lost) > 1 {
			t.Errorf("%s: %g ft; must be %g ft", c.name, v, c.lost)
		}
		if v := value(t, done, "speed-kept"); math.Abs(v-c.kept) > 0.2 {
			t.Errorf("%s: the speed is kept for %g s; must be %g s", c.name, v, c.kept)
		}
		for id, want := range map[string]float64{"exit-heading": 180, "bank-held": 30} {
			if v := value(t, done, id); math.Abs(v-want) > 1 {
				t.Errorf("%s: %s is %g; must be %g whatever comes after", c.name, id, v, want)
			}
		}
		if last := done.Trace[len(done.Trace)-1].Turn; last > 181 {
			t.Errorf("%s: the trace goes on to %g°", c.name, last)
		}
	}
}

// A stream that ends in the recovery leaves a leg that was flown to its end.
func TestRecoveryCut(t *testing.T) {
	flat := func(float64) float64 { return 0 }
	l, e, _ := recovery{flat, flat, flat, 2}.fly(t)
	if e.Outcome != "" {
		t.Fatalf("%s before the recovery is over", e.Outcome)
	}
	flown, ok := l.Recovering()
	if !ok || flown.Outcome != coach.Finished || flown.Exit == nil {
		t.Fatalf("it is %+v, %v", flown, ok)
	}
	if v := value(t, l.Grade(1, 0, flown), "recovery-height"); v != 0 {
		t.Errorf("%g ft lost in what was seen", v)
	}
}
