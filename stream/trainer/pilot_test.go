package trainer

import (
	"errors"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/option"
)

func TestErrorsListWhatIsAllowed(t *testing.T) {
	for _, r := range []struct {
		flight Flight
		want   string
	}{
		{Flight{Maneuver: "loop"}, `maneuver is "loop"; must be wing-over, chandelle-civil`},
		{Flight{Direction: "up"}, `direction is "up"; must be both, right or left`},
		{Flight{Flaw: "tired"}, `flaw is "tired"; for a wing-over must be late-nose`},
		{Flight{Maneuver: "steep-turn", Flaw: "nose-high"}, `for a steep-turn must be overbanked`},
		{Flight{Airplane: "kite"}, `aircraft is "kite"; must be radial-trainer`},
		{Flight{Legs: 1000}, "legs is 1000; must be between 1 and 100"},
		{Flight{Legs: -1}, "legs is -1; must be "},
		{Flight{FlawLeg: 3}, "flaw leg is 3; must be between 1 and 2"},
		{Flight{Flaw: "same-direction", FlawLeg: 1}, "needs a leg before it"},
		{Flight{WindSpeed: math.NaN()}, "wind speed is NaN; must be between 0 and 100"},
		{Flight{WindFrom: 400}, "wind direction is 400; must be "},
		{Flight{Latitude: 90}, "latitude is 90; must be "},
		{Flight{Longitude: 190}, "longitude is 190; must be "},
		{Flight{Altitude: 100}, "altitude is 100; must be between 1000 and 25000"},
		{Flight{Heading: math.Inf(1)}, "heading is +Inf; must be "},
	} {
		if _, err := New(r.flight); err == nil || !strings.Contains(err.Error(), r.want) {
			t.Errorf("%+v: error %v; must be one with %q", r.flight, err, r.want)
		}
	}
	if _, err := NewSequence(Flight{}, Flight{Maneuver: "loop"}); err == nil ||
		!strings.HasPrefix(err.Error(), "flight 2: ") {
		t.Errorf("the error must say which flight: %v", err)
	}
	if _, err := NewSequence(); err == nil {
		t.Error("an empty sequence must be refused")
	}
}

func TestSameSeedSameFlight(t *testing.T) {
	fly := func(f Flight) []stream.Sample {
		p, err := New(f)
		if err != nil {
			t.Fatal(err)
		}
		return record(t, p)
	}
	f := Flight{Direction: "left", Seed: 42}
	a, b := fly(f), fly(f)
	if len(a) != len(b) {
		t.Fatalf("%d and %d samples", len(a), len(b))
	}
	for i := range a {
		if a[i] != b[i] {
			t.Fatalf("sample %d differs", i)
		}
	}
	f.Seed = 43
	if c := fly(f); c[len(c)/2] == a[len(c)/2] {
		t.Error("another seed gives the same flight")
	}
	f.Steady = true
	d := fly(f)
	for i := 60; i < 600; i++ {
		if math.Abs(d[i].Value(stream.Bank)) > 0.02 || math.Abs(d[i].Value(stream.VerticalSpeed)) > 1 {
			t.Fatalf("steady flight is not steady at sample %d: bank %g, vertical speed %g", i, d[i].Value(stream.Bank),
				d[i].Value(stream.VerticalSpeed))
		}
	}
}

// The demonstration: a wing-over each way, then a civil chandelle, without a jump and with every
// channel in its range.
func TestSequenceFliesOn(t *testing.T) {
	p, err := NewSequence(Flight{Seed: 1, Latitude: 45, Longitude: 179.99, Heading: 90},
		Flight{Maneuver: "chandelle-civil", Direction: "left"})
	if err != nil {
		t.Fatal(err)
	}
	samples := record(t, p)
	ms := legs(samples)
	if len(ms) != 3 || ms[0].side != 1 || ms[1].side != -1 || ms[2].side != -1 {
		t.Fatalf("%d legs, or to other sides; must be right, left and left", len(ms))
	}
	for i := range ms[1:] {
		within(t, "seconds between legs", ms[i+1].start-ms[i].exitTime, 10, 40)
	}
	const want = stream.AttitudeSet | 1<<stream.Time | 1<<stream.Airspeed | 1<<stream.TrueAirspeed |
		1<<stream.GroundSpeed | 1<<stream.Track | 1<<stream.VerticalSpeed | 1<<stream.Altitude | 1<<stream.Height |
		1<<stream.Latitude | 1<<stream.Longitude | 1<<stream.AngleOfAttack | 1<<stream.Sideslip | 1<<stream.Ball |
		1<<stream.NormalLoad | 1<<stream.LateralLoad | 1<<stream.AxialLoad |
		1<<stream.RollRate | 1<<stream.PitchRate | 1<<stream.YawRate | 1<<stream.Throttle | 1<<stream.RPM |
		1<<stream.Elevator | 1<<stream.Aileron | 1<<stream.Rudder |
		1<<stream.StallWarning | 1<<stream.OnGround | 1<<stream.Paused
	for i := range samples {
		s := &samples[i]
		if s.Has&want != want || s.Has != samples[0].Has || s.Bad != 0 || s.Derived != 0 {
			t.Fatalf("sample %d has %v, bad %v", i, s.Has.Names(), s.Bad.Names())
		}
		if s.Has.Has(stream.Torque) || s.Has.Has(stream.N1) {
			t.Fatal("a piston engine has neither torque nor N1")
		}
		if i == 0 {
			continue
		}
		for c, most := range map[stream.Channel]float64{stream.Altitude: 4, stream.Airspeed: 0.5, stream.Latitude: 2e-5,
			stream.Time: 0.017} {
			if d := math.Abs(s.Value(c) - samples[i-1].Value(c)); d > most {
				t.Fatalf("sample %d: %v jumps by %g", i, c, d)
			}
		}
		for c, most := range map[stream.Channel]float64{stream.Heading: 1.2, stream.Longitude: 3e-5, stream.Bank: 0.7} {
			if d := math.Abs(stream.Wrap180(s.Value(c) - samples[i-1].Value(c))); d > most {
				t.Fatalf("sample %d: %v jumps by %g", i, c, d)
			}
		}
	}
}

// The step's length must not decide what is flown.
func TestAnyRateFliesTheSameLeg(t *testing.T) {
	for _, rate := range []float64{5, 20, 60, 144} {
		p, err := New(Flight{Direction: "right", Steady: true, Airplane: "turboprop-trainer"})
		if err != nil {
			t.Fatal(err)
		}
		var samples []stream.Sample
		for more := true; more; {
			var s stream.Sample
			more = p.Step(1/rate, &s)
			samples = append(samples, s)
		}
		ms := legs(samples)
		if len(ms) != 1 {
			t.Fatalf("%v Hz: %d legs", rate, len(ms))
		}
		within(t, "steepest bank", ms[0].steepest, 72, 78)
		within(t, "height", ms[0].climb(), -40, 40)
	}
}

func TestStepAtTheEnd(t *testing.T) {
	p, err := New(Flight{Direction: "right", Legs: 1})
	if err != nil {
		t.Fatal(err)
	}
	record(t, p)
	var a, b stream.Sample
	if p.Step(1, &a) || p.Step(0, &b) || a != b || a.Has == 0 {
		t.Error("after the end the airplane must stand still and still say where it is")
	}
}

func TestStepDoesNotAllocate(t *testing.T) {
	p, err := New(Flight{})
	if err != nil {
		t.Fatal(err)
	}
	var s stream.Sample
	if n := testing.AllocsPerRun(600, func() { p.Step(1.0/60, &s) }); n != 0 {
		t.Errorf("%v allocations a step", n)
	}
}

func BenchmarkStep(b *testing.B) {
	p, err := New(Flight{Legs: int(LegRange.High)})
	if err != nil {
		b.Fatal(err)
	}
	var s stream.Sample
	for b.Loop() {
		p.Step(1.0/60, &s)
	}
}

// A number that is none, or out of its range, is refused by the name of its option.
func TestNumbersOutOfRange(t *testing.T) {
	for _, f := range []Flight{{Strength: "nan"}, {Strength: "inf"}, {Strength: "2"}, {WindSpeed: 100.1},
		{WindFrom: 361}} {
		var wrong *option.Error
		if _, err := New(f); !errors.As(err, &wrong) || !strings.Contains(err.Error(), "must be ") {
			t.Errorf("%+v: %v", f, err)
		}
	}
}
