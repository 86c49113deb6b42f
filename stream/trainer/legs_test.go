package trainer

import (
	"fmt"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/airplane"
)

func flyOne(t *testing.T, f Flight) ([]measured, []stream.Sample) {
	t.Helper()
	p, err := New(f)
	if err != nil {
		t.Fatal(err)
	}
	samples := record(t, p)
	return legs(samples), samples
}

func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	if !(got >= low && got <= high) {
		t.Errorf("%s: %.2f; must be %g to %g", what, got, low, high)
	}
}

// The numbers of a leg flown well. Bank at 45, 90 and 135°, highest nose at 45° and through the
// horizon at 90°: common practice, no source; the highest nose at 45° also CNATRA P-1212 p. 33.
// Exit within 60 ft, 5 kt and 4° is inside CNATRAINST 1542.155A (100 ft, 10 kt, 10°).
func TestWingOversFlownWell(t *testing.T) {
	for _, name := range airplane.Names() {
		a, _ := airplane.Named(name)
		for seed := range uint64(4) {
			ms, _ := flyOne(t, Flight{Airplane: name, Seed: seed, WindSpeed: 12, WindFrom: 40})
			if len(ms) != 2 || ms[0].side != 1 || ms[1].side != -1 {
				t.Fatalf("%s: %d legs; must be one to the right and one to the left", name, len(ms))
			}
			for i, m := range ms {
				t.Run(fmt.Sprintf("%s/seed %d/leg %d", name, seed, i+1), func(t *testing.T) {
					within(t, "entry airspeed", m.entry.Value(stream.Airspeed), a.Entry-3, a.Entry+3)
					within(t, "bank at 45", m.bank(45), 40, 50)
					within(t, "bank at 90", m.bank(90), 70, 80)
					within(t, "bank at 135", m.bank(135), 39, 50)
					within(t, "steepest at", m.steepestAt, 80, 100)
					within(t, "highest nose at", m.highestAt, 36, 54)
					within(t, "nose at 90", m.nose(90), -4, 4)
					within(t, "lowest airspeed", m.slowest, a.Apex-5, a.Apex+5)
					within(t, "turn at the exit", m.turn, 176, 184)
					within(t, "height at the exit", m.climb(), -60, 60)
					within(t, "airspeed at the exit", m.gain(), -5, 5)
					within(t, "lateral load", m.slip, 0, 0.035)
					within(t, "throttle moved", m.power, 0, 0.001)
					within(t, "load factor", m.heaviest, 1.2, 3.7)
				})
			}
			gap := ms[1].start - ms[0].exitTime
			within(t, "level flight between the legs", gap, 10, 40)
			within(t, "level flight before", ms[0].start, 11.5, 16.5)
		}
	}
}

// Chandelles: FAA-S-ACS-7 CA.V.C: bank about 30° to 90°, 180° within 10°, just above the stall. The
// traditional one's 60° at 90° is common practice, no source.
func TestChandellesFlownWell(t *testing.T) {
	for _, name := range airplane.Names() {
		a, _ := airplane.Named(name)
		for _, r := range []struct {
			maneuver   string
			bank, half float64 // at 90 and at 45°
		}{{"chandelle-civil", 30, 30}, {"chandelle-traditional", 60, 48}} {
			for _, side := range []string{"right", "left"} {
				t.Run(name+"/"+r.maneuver+"/"+side, func(t *testing.T) {
					ms, _ := flyOne(t, Flight{Maneuver: r.maneuver, Airplane: name, Direction: side, Seed: 7})
					if len(ms) != 1 || (ms[0].side > 0) != (side == "right") {
						t.Fatalf("%d legs, or not to the %s; must be one", len(ms), side)
					}
					m := ms[0]
					entry := a.EntryFor(r.maneuver)
					within(t, "entry airspeed", m.entry.Value(stream.Airspeed), entry-3, entry+3)
					within(t, "bank at 45", m.bank(45), r.half-4, r.half+4)
					within(t, "bank at 90", m.bank(90), r.bank-4, r.bank+4)
					within(t, "turn at the exit", m.turn, 175, 185)
					within(t, "airspeed at the exit over the stall", m.exit.Value(stream.Airspeed)-a.Stall, 1, 11)
					within(t, "height gained", m.climb(), 300, 4000)
					within(t, "nose at 135 against 90", m.nose(135)-m.nose(90), -1.5, 15)
					within(t, "throttle moved", m.power, 0, 0.001)
				})
			}
		}
	}
}

// Lazy eight and steep turn: FAA-S-ACS-7 CA.V.D and CA.V.A: 100 ft, 10 kt, 10°; about 30° of bank in the
// one, 50° held within 5° in the other.
func TestLazyEightAndSteepTurn(t *testing.T) {
	for _, name := range airplane.Names() {
		ms, _ := flyOne(t, Flight{Maneuver: "lazy-eight", Airplane: name, Seed: 5})
		if len(ms) != 2 {
			t.Fatalf("%s: %d legs", name, len(ms))
		}
		for _, m := range ms {
			within(t, "lazy eight: bank at 90", m.bank(90), 25, 35)
			within(t, "lazy eight: height", m.climb(), -50, 50)
			// closer than the standard: the power is set for it, and a leg begins with what the last one left
			within(t, "lazy eight: airspeed", m.gain(), -7, 7)
			within(t, "lazy eight: throttle moved", m.power, 0, 0.001)
			within(t, "lazy eight: turn", m.turn, 170, 190)
		}
		within(t, "lazy eight: no pause", ms[1].start-ms[0].exitTime, -3, 5)
		ms, _ = flyOne(t, Flight{Maneuver: "steep-turn", Airplane: name, Seed: 5})
		for _, m := range ms {
			within(t, "steep turn: bank", m.bank(180), 45, 55)
			within(t, "steep turn: turn", m.turn, 350, 370)
			within(t, "steep turn: height", m.climb(), -100, 100)
			within(t, "steep turn: airspeed", m.gain(), -10, 10)
		}
		ms, _ = flyOne(t, Flight{Maneuver: "turn-pattern", Airplane: name, Seed: 5})
		if len(ms) != 4 { // the two at 15° are too shallow to be seen as legs here
			t.Fatalf("%s: %d legs of the turn pattern", name, len(ms))
		}
		// CNATRA P-330 par. 611: the banks and turns; 1542.155A p. VIII-2: 100 ft, 10 kt, 10°.
		for i, want := range [4]struct{ bank, turn float64 }{{30, 90}, {30, 90}, {45, 180}, {45, 180}} {
			m := ms[i]
			within(t, "turn pattern: side", m.side*float64(1-2*(i%2)), 1, 1)
			within(t, "turn pattern: bank", m.bank(int(want.turn)/2), want.bank-5, want.bank+5)
			within(t, "turn pattern: turn", m.turn, want.turn-10, want.turn+10)
			within(t, "turn pattern: height", m.climb(), -100, 100)
			within(t, "turn pattern: airspeed", m.gain(), -10, 10)
		}
	}
}

// Each flaw must show in its number and leave the band of a leg flown well (see above).
var shows = []struct {
	flaw      string
	value     func(m *measured, a *airplane.Airplane) float64
	low, high float64 // where the flawed value must lie
}{
	{"late-nose", func(m *measured, _ *airplane.Airplane) float64 { return m.highestAt }, 59, 75},
	{"overbanked", func(m *measured, _ *airplane.Airplane) float64 { return m.steepest }, 92, 115},
	{"shallow", func(m *measured, _ *airplane.Airplane) float64 { return m.steepest }, 35, 56},
	{"early-rollout", func(m *measured, _ *airplane.Airplane) float64 { return m.turn }, 155, 171},
	{"late-rollout", func(m *measured, _ *airplane.Airplane) float64 { return m.turn }, 189, 205},
	{"height-lost", func(m *measured, _ *airplane.Airplane) float64 { return m.climb() }, -400, -170},
	{"power-changed", func(m *measured, _ *airplane.Airplane) float64 { return m.power }, 0.1, 0.3},
	{"feet-off", func(m *measured, _ *airplane.Airplane) float64 { return m.slip }, 0.05, 0.3},
	{"abandoned", func(m *measured, _ *airplane.Airplane) float64 { return m.turn }, 60, 140},
	{"nose-high", func(m *measured, a *airplane.Airplane) float64 { return m.slowest - a.Apex }, -60, -7},
}

func TestFlawsShow(t *testing.T) {
	for _, name := range airplane.Names() {
		a, _ := airplane.Named(name)
		for _, side := range []string{"right", "left"} {
			for _, r := range shows {
				t.Run(name+"/"+side+"/"+r.flaw, func(t *testing.T) {
					ms, samples := flyOne(t, Flight{Airplane: name, Direction: side, Legs: 2, Flaw: r.flaw, Seed: 11})
					if len(ms) != 2 {
						t.Fatalf("%d legs; must be 2", len(ms))
					}
					within(t, r.flaw, r.value(&ms[0], &a), r.low, r.high)
					if r.value(&ms[1], &a) >= r.low && r.value(&ms[1], &a) <= r.high {
						t.Errorf("the second leg shows the flaw too: %.2f", r.value(&ms[1], &a))
					}
					for i := range samples {
						if math.Abs(samples[i].Value(stream.NormalLoad)) > 4.5 {
							t.Fatalf("load factor %.1f g", samples[i].Value(stream.NormalLoad))
						}
					}
				})
			}
		}
	}
}

func TestSameDirection(t *testing.T) {
	for _, name := range airplane.Names() {
		ms, _ := flyOne(t, Flight{Airplane: name, Flaw: "same-direction", Seed: 2})
		if len(ms) != 2 || ms[0].side != 1 || ms[1].side != 1 {
			t.Errorf("%s: %+v legs; must be two to the right", name, len(ms))
		}
	}
}

// In chandelles too each flaw shows, against the band of one flown well.
func TestFlawsOfChandelles(t *testing.T) {
	for _, r := range []struct {
		flaw      string
		value     func(m *measured) float64
		low, high [2]float64 // civil, traditional
	}{
		{"overbanked", func(m *measured) float64 { return m.steepest }, [2]float64{38, 70}, [2]float64{48, 95}},
		{"shallow", func(m *measured) float64 { return m.steepest }, [2]float64{15, 30}, [2]float64{24, 45}},
		{"early-rollout", func(m *measured) float64 { return m.turn }, [2]float64{155, 155}, [2]float64{171, 171}},
		{"late-rollout", func(m *measured) float64 { return m.turn }, [2]float64{189, 189}, [2]float64{205, 205}},
		{"power-changed", func(m *measured) float64 { return m.power }, [2]float64{0.1, 0.1}, [2]float64{0.2, 0.2}},
		{"feet-off", func(m *measured) float64 { return m.slip }, [2]float64{0.06, 0.06}, [2]float64{0.3, 0.3}},
		{"abandoned", func(m *measured) float64 { return m.turn }, [2]float64{60, 60}, [2]float64{140, 140}},
	} {
		for i, maneuver := range []string{"chandelle-civil", "chandelle-traditional"} {
			ms, _ := flyOne(t, Flight{Maneuver: maneuver, Airplane: "light-single", Direction: "right", Flaw: r.flaw,
				Seed: 1})
			if len(ms) != 1 {
				t.Errorf("%s, %s: %d legs", maneuver, r.flaw, len(ms))
				continue
			}
			within(t, maneuver+", "+r.flaw, r.value(&ms[0]), r.low[i], r.high[i])
		}
	}
}

// A chandelle with the nose too high stops short in airspeed: slower, or held off the stall sooner.
func TestNoseHighChandelle(t *testing.T) {
	for _, maneuver := range []string{"chandelle-civil", "chandelle-traditional"} {
		good, _ := flyOne(t, Flight{Maneuver: maneuver, Airplane: "light-single", Direction: "right", Seed: 1})
		high, _ := flyOne(t, Flight{Maneuver: maneuver, Airplane: "light-single", Direction: "right", Seed: 1,
			Flaw: "nose-high"})
		within(t, maneuver+": highest nose over that of a good one", high[0].highest-good[0].highest, 3, 12)
		within(t, maneuver+": airspeed under that of a good one", good[0].slowest-high[0].slowest, 1, 15)
	}
}
