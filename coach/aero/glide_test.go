package aero

import (
	"math"
	"testing"
)

// The pivotal altitude of FAA-H-8083-3C p. 7-15, GS²/11.3 in ft above the pylon by the ground speed in kt; its constant
// is V²/g rounded, 11.2943.
func TestPivotalAltitude(t *testing.T) {
	for speed, want := range map[float64]float64{70: 433.6, 80: 566.4, 90: 716.8, 100: 885.0, 110: 1070.8,
		120: 1274.3} {
		if got := PivotalAltitude(speed); math.Abs(got/want-1) > 0.0008 {
			t.Errorf("at %g kt %.1f ft, want %.1f", speed, got, want)
		}
	}
}

// The bank that keeps a radius: tan(bank) = GS²/(11.2943 R) straight up and down the wind, worked out for 1,500 ft.
func TestBankToHold(t *testing.T) {
	for _, c := range []struct{ tas, behind, want float64 }{{90, 15, 33.05}, {90, 0, 25.55}, {90, -15, 18.37}} {
		if got, drift := BankToHold(1500, c.tas, c.behind, 0); math.Abs(got-c.want) > 0.02 || drift != 0 {
			t.Errorf("with %g kt behind %.2f° and %.1f° of drift, want %.2f°", c.behind, got, drift, c.want)
		}
	}
	// Across the wind the nose is turned into it: sin(drift) = wind/TAS. It moves at TAS·cos(drift).
	bank, drift := BankToHold(1500, 90, 0, 15)
	ground := 90 * math.Cos(drift*rad) * FeetPerSecond
	want := math.Atan(ground*ground/1500*math.Cos(drift*rad)/Gravity) / rad
	if math.Abs(math.Sin(drift*rad)-15.0/90) > 1e-9 || math.Abs(bank-want) > 1e-9 {
		t.Errorf("across the wind %.2f° of bank, %.2f° of drift", bank, drift)
	}
}

// A glide at the speed of least drag: E·D/W is 1 with the wings level and (1 + n²)/2 in a turn, so that at 45° of bank
// the path goes down by 1.5/E, a little less for the load of the descent. Three turns of radius R lose three
// circumferences times the tangent of that.
func TestGlide(t *testing.T) {
	const ratio, speed = 10.0, 72.0
	p := Program{Turn: 1080, Knots: []Knot{{}, {Turn: 10, Bank: 45}, {Turn: 1070, Bank: 45}, {Turn: 1080}}}
	a := Airplane{Stall: 49, Entry: speed, LiftToDrag: ratio, MinDrag: speed}
	path, err := Glide(p, a, Entry{Airspeed: speed, Altitude: 5000})
	if err != nil {
		t.Fatal(err)
	}
	at := path.At(540)
	down := -math.Sin(at.Climb * rad)
	n := math.Cos(at.Climb*rad) / math.Cos(45*rad)
	if want := (1 + n*n) / 2 / ratio; math.Abs(down-want) > 0.001 || at.Airspeed != speed {
		t.Errorf("it goes down by %.4f at %.1f kt, want %.4f", down, at.Airspeed, want)
	}
	if math.Abs(at.LoadFactor-n) > 1e-9 {
		t.Errorf("load factor %.3f, want cos γ/cos φ = %.3f", at.LoadFactor, n)
	}
	lost, round := -path.At(1080).Height, 2*math.Pi*at.Radius*3
	if want := round * math.Tan(-at.Climb*rad); math.Abs(lost/want-1) > 0.03 {
		t.Errorf("three turns lose %.0f ft, want %.0f", lost, want)
	}
	steep := Program{Turn: 360, Knots: []Knot{{}, {Turn: 180, Bank: 80}, {Turn: 360}}}
	if _, err := Glide(steep, a, Entry{Airspeed: speed}); err == nil {
		t.Error("a glide at 80° of bank")
	}
}
