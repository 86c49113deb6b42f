package aero

import (
	"math"
	"math/rand/v2"
	"testing"
)

// turnRate is the rate (°/s) of a level coordinated turn from true airspeed (kt) and bank (°): g tan(bank)/V. The
// handbook writes it 1,091 tan(bank)/V.
// Source: Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight.
func turnRate(tas, bank float64) float64 {
	return Gravity * math.Tan(bank*rad) / (tas * FeetPerSecond) / rad
}

// A level coordinated turn is a triangle of forces (Pilot's Handbook of Aeronautical Knowledge, aerodynamics of
// flight): lift over weight is n, its part upward 1, its part inward V·rate/g. What is said of it has to agree, to
// either side.
func TestLevelTurnIsOneTriangle(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 500 {
		kt, bank := 40+300*r.Float64(), 2+83*r.Float64()
		v := kt * FeetPerSecond
		n, rate, radius := LoadFactor(bank), turnRate(kt, bank)*rad, TurnRadius(kt, bank)
		relative(t, "upward", n*math.Cos(bank*rad), 1, 1e-9)
		relative(t, "inward", n*math.Sin(bank*rad), v*rate/Gravity, 1e-9)
		relative(t, "Pythagoras", n*n, 1+math.Pow(v*rate/Gravity, 2), 1e-9)
		relative(t, "speed is rate times radius", rate*radius, v, 1e-9)
		relative(t, "radius by the inward acceleration", v*v/radius, Gravity*math.Tan(bank*rad), 1e-9)
		if LoadFactor(-bank) != n || turnRate(kt, -bank) != -turnRate(kt, bank) || TurnRadius(kt, -bank) != -radius {
			t.Fatalf("%g kt, %g°: to the left it is not the mirror", kt, bank)
		}
		relative(t, "stall in a level turn", StallSpeed(kt, n)*math.Sqrt(math.Cos(bank*rad)), kt, 1e-9)
	}
}

// flights are what the laws are checked on.
func flights(t *testing.T) map[string]*flight {
	t.Helper()
	eight := Entry{Airspeed: 100, Altitude: 3000, Power: 1.02}
	all := map[string]*flight{
		"fast":       {Airplane{Stall: 84}, Entry{Airspeed: 220, Altitude: 8000}, wingOver(75), 22, nil},
		"jet":        {Airplane{Stall: 78, Engine: Jet}, Entry{Airspeed: 220, Altitude: 10000}, wingOver(80), 20, nil},
		"slow":       {Airplane{Stall: 52}, Entry{Airspeed: 118, Altitude: 4500}, wingOver(70), 12, nil},
		"lazy eight": {Airplane{Stall: 49}, eight, lazyEight(), 7, nil},
	}
	for name, f := range all {
		var err error
		if f.path, err = Fly(f.program, f.plane, f.entry, f.nose); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	return all
}

type flight struct {
	plane   Airplane
	entry   Entry
	program Program
	nose    float64
	path    *Path
}

// Between any two points of a path the laws of a point mass hold: the heading turns at g·n·sin(bank)/(V·cos γ), height
// changes by V·sin γ, and the energy height by V·(thrust − drag)/weight (Airplane Flying Handbook, energy management).
// They are checked by the points alone, not by what made them.
func TestPathKeepsTheLaws(t *testing.T) {
	for name, f := range flights(t) {
		level := 0.0 // thrust over weight at the entry
		v0 := f.path.Points[0].TrueAirspeed
		drag := func(q *Point) float64 {
			eas := q.TrueAirspeed * math.Sqrt(Sigma(f.entry.Altitude+q.Height))
			return Drag(eas/(MinDragOverStall*f.plane.Stall), q.LoadFactor, DefaultLiftToDrag)
		}
		first := f.path.Points[0]
		first.LoadFactor = 1
		level = drag(&first)
		if f.entry.Power != 0 {
			level *= f.entry.Power
		}
		power := map[Engine]float64{Propeller: 0.25, Jet: 0}[f.plane.Engine]
		turned, round, climbed, gained, time := 0.0, 0.0, 0.0, 0.0, 0.0
		for i := 11; i < len(f.path.Points)-10; i++ { // the bank leaves zero too steeply for whole degrees
			p, q := &f.path.Points[i-1], &f.path.Points[i]
			dt := q.Time - p.Time
			each := func(law func(*Point) float64) float64 { return dt * (law(p) + law(q)) / 2 }
			turned += each(func(x *Point) float64 {
				return Gravity * x.LoadFactor * math.Sin(x.Bank*rad) /
					(x.TrueAirspeed * FeetPerSecond * math.Cos(x.Climb*rad)) / rad
			})
			round += each(func(x *Point) float64 {
				return x.TrueAirspeed * FeetPerSecond * math.Cos(x.Climb*rad) / x.Radius / rad
			})
			climbed += each(func(x *Point) float64 { return x.TrueAirspeed * FeetPerSecond * math.Sin(x.Climb*rad) })
			gained += each(func(x *Point) float64 {
				thrust := level * math.Pow(v0/x.TrueAirspeed, power)
				return x.TrueAirspeed * FeetPerSecond * (thrust - drag(x))
			})
			time += dt
		}
		a, b := f.path.Points[10], f.path.Points[len(f.path.Points)-11]
		energy := EnergyHeight(b.Height, b.TrueAirspeed) - EnergyHeight(a.Height, a.TrueAirspeed)
		for _, law := range []struct {
			what              string
			got, want, within float64
		}{
			{"turn, °", turned, b.Turn - a.Turn, 0.2},
			{"turn by the radius, °", round, b.Turn - a.Turn, 0.2},
			{"height, ft", climbed, b.Height - a.Height, 2},
			{"energy height, ft", gained, energy, 2},
			{"time, s", time, b.Time - a.Time, 1e-9},
		} {
			if !(math.Abs(law.got-law.want) <= law.within) {
				t.Errorf("%s: %s: %.2f by the law, %.2f by the path", name, law.what, law.got, law.want)
			}
		}
	}
}

// Dynamics in units of speed: the same shape at k times the true airspeed takes k times the time and k² times the
// height where the drag is the same; without drag that is exact but for the density of the air.
func TestPathScalesWithSpeed(t *testing.T) {
	slow := lossless(t, wingOver(75), Entry{Airspeed: 100}, 20)
	fast := lossless(t, wingOver(75), Entry{Airspeed: 200}, 20)
	k := fast.Points[0].TrueAirspeed / slow.Points[0].TrueAirspeed
	for _, turn := range []float64{45, 90, 135, 180} {
		a, b := slow.At(turn), fast.At(turn)
		relative(t, "time", b.Time, k*a.Time, 2e-3)
		relative(t, "load factor", b.LoadFactor, a.LoadFactor, 1e-2)
		if math.Abs(b.Height-k*k*a.Height) > 0.003*k*k*slow.At(90).Height {
			t.Errorf("at %g°: %.0f ft at %.1f times the speed that made %.0f ft", turn, b.Height, k, a.Height)
		}
	}
}
