package judge_test

import (
	"math"
	"slices"
	"testing"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A part of a hand-made flight: the bank moves evenly to a value (° , positive right) and the altitude to another (ft),
// over some seconds. The heading follows from the bank by the law of the level turn.
type part struct{ seconds, bank, altitude float64 }

// Where a hand-made flight is flown.
const (
	rate     = 50.0  // samples per second
	airspeed = 102.0 // kt, the entry speed of the light single
	height   = 5000. // ft
)

// fly gives a judge the samples of some parts, from where the flight was left, and returns what it reported.
func (f *handFlown) fly(parts ...part) {
	for _, p := range parts {
		n := p.seconds * rate
		bank, altitude := (p.bank-f.bank)/n, (p.altitude-f.altitude)/n
		for range int(n) {
			f.bank, f.altitude = f.bank+bank, f.altitude+altitude
			f.now += 1 / rate
			f.heading += turnRate(f.bank) / rate
			f.sample(altitude * rate * 60)
		}
	}
}

// handFlown is a station that is flown by hand-made parts, followed by one judge.
type handFlown struct {
	shared        judge.Shared
	judge         *judge.Judge
	now, heading  float64
	bank          float64
	altitude      float64
	legs          []*coach.Leg
	series        []*coach.Series
	said          []*coach.Callout
	gates         []*coach.Setup
	framed, muted bool // a frame is taken at each sample; nobody hears what is said in a leg
}

func (f *handFlown) sample(climb float64) {
	var s stream.Sample
	for c, v := range map[stream.Channel]float64{
		stream.Time: f.now, stream.Heading: stream.Wrap360(f.heading), stream.Pitch: 3, stream.Bank: f.bank,
		stream.Airspeed: airspeed, stream.Altitude: f.altitude, stream.VerticalSpeed: climb,
		stream.NormalLoad: aero.LoadFactor(f.bank), stream.Ball: 0,
	} {
		s.Put(c, v)
	}
	f.shared.Step(&s)
	f.judge.Step(&s)
	f.take()
	if f.framed {
		f.judge.Frame()
	}
}

func (f *handFlown) take() {
	for _, e := range f.judge.Take() {
		switch e := e.(type) {
		case *coach.Leg:
			f.legs = append(f.legs, e)
		case *coach.Series:
			f.series = append(f.series, e)
		case *coach.Callout:
			f.said = append(f.said, e)
		case *coach.Setup:
			f.gates = append(f.gates, e)
		}
	}
}

// stop breaks off what is under way, as a stream that jumps or ends does.
func (f *handFlown) stop(why phrase.Phrase) {
	f.judge.Break(why)
	f.shared.Clear()
	f.take()
}

// heard counts the callouts of a kind.
func (f *handFlown) heard(kind string) (n int) {
	for _, k := range f.said {
		if k.Kind == kind {
			n++
		}
	}
	return n
}

// id returns the callouts with an id.
func (f *handFlown) id(id string) (list []*coach.Callout) {
	for _, k := range f.said {
		if k.ID == id {
			list = append(list, k)
		}
	}
	return list
}

// planOf returns the plan of a card for the light single.
func planOf(t testing.TB, card string) *plan.Plan {
	t.Helper()
	list := plans(t, "light-single")
	i := slices.IndexFunc(list, func(p *plan.Plan) bool { return p.Card.Name == card })
	if i < 0 {
		t.Fatalf("there is no card %q", card)
	}
	return list[i]
}

// begun is a hand-made flight that has been level for ten seconds.
func begun(t testing.TB, p *plan.Plan, set ...func(*handFlown)) *handFlown {
	f := &handFlown{altitude: height, now: 100, heading: 40}
	f.judge = judge.New(&f.shared, judge.Options{Plan: p, Deck: 3000})
	for _, s := range set {
		s(f)
	}
	f.judge.Mute(f.muted)
	f.fly(part{10, 0, height})
	return f
}

// steep is the bank of the made-up steep turns, °; it is reached and left in rolling seconds.
const (
	steep   = 50.0
	rolling = 4.0
)

// turnRate is that of a level coordinated turn at the airspeed, °/s: g·tan(bank)/V.
// Source: Pilot's Handbook of Aeronautical Knowledge, aerodynamics of flight.
func turnRate(bank float64) float64 {
	const rad = math.Pi / 180
	return aero.Gravity * math.Tan(bank*rad) / (airspeed * aero.FeetPerSecond) / rad
}

// turned returns the angle of a level turn whose bank moves evenly, °: the integral of g·tan(bank)/V.
func turned(from, to, seconds float64) (sum float64) {
	const steps = 1000
	for i := range steps {
		sum += turnRate(from+(to-from)*(float64(i)+0.5)/steps) * seconds / steps
	}
	return sum
}

// around is the part that holds the bank until a roll-out begun then ends at a turn angle (°), to a side (1 right,
// −1 left).
func around(turn, side float64) part {
	held := turn - 2*turned(0, steep, rolling)
	return part{held / turnRate(steep), steep * side, height}
}

// steepTurn is once around to a side.
func steepTurn(side float64) []part {
	return []part{{rolling, steep * side, height}, around(360, side), {rolling, 0, height}}
}
