package follow_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"halfturn/coach"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// An entryFlight is flight up to a leg and the beginning of the leg. Bank and nose are programs of the time since the
// leg began; before it is negative. The heading comes round as in a coordinated level turn, g·tan(bank)/V
// (FAA-H-8083-25C ch. 5), and speed is paid for height: V²/2 + gh is constant, thrust makes up for drag.
type entryFlight struct {
	bank, nose func(t float64) float64 // ° toward the side, ° above level
	speed      float64                 // kt, at first
	side       float64                 // 1 right, −1 left
	low        float64                 // °: the bank at which the heading stands, right positive
	hand       float64                 // ° of bank that the hand is off, r.m.s., and half of it in the nose
	seed       uint64
	rate       float64 // samples a second; 0 is 60
	lacks      []stream.Channel
	card       string // "" is wing-over
}

// Where a flight begins and ends, s since the leg began.
const (
	flightFrom = -40.0
	flightTo   = 40.0
)

// An entry is where a leg begins.
type entry struct{ time, heading float64 }

// attitudeOnly are the channels without which neither climb nor speed is known.
var attitudeOnly = []stream.Channel{stream.Airspeed, stream.Altitude, stream.VerticalSpeed}

// found flies, and returns the last leg that the coach took it for, with where it truly began: the mean heading of the
// two seconds before. The leg is nil when there was none.
func (f *entryFlight) found(t *testing.T) (*coach.Leg, entry) {
	t.Helper()
	name := f.card
	if name == "" {
		name = "wing-over"
	}
	c := follow.New(judge.Options{Plan: planOf(t, name, "")})
	var h heard
	truth, n := entry{}, 0.0
	f.samples(func(s *stream.Sample) {
		if at := s.Value(stream.Time) + flightFrom; at >= -2 && at < 0 {
			truth.heading += s.Value(stream.Heading)
			n++
		}
		for _, channel := range f.lacks {
			s.Drop(channel)
		}
		c.Step(s)
		h.take(c.Take())
	})
	c.Break(phrase.Plain("seen enough"))
	h.take(c.Take())
	truth.time, truth.heading = -flightFrom, truth.heading/n
	if len(h.legs) == 0 {
		return nil, truth
	}
	return h.legs[len(h.legs)-1], truth
}

// samples flies.
func (f *entryFlight) samples(take func(*stream.Sample)) {
	const (
		gravity = 9.80665       // m/s²
		knot    = 1852.0 / 3600 // m/s
		foot    = 0.3048        // m
		degree  = math.Pi / 180 // rad
		step    = 1.0 / 60      // s
		trim    = 2.0           // ° of nose in level flight
	)
	rate := f.rate
	if rate == 0 {
		rate = 60
	}
	hand := newHand(f.seed)
	v, altitude, heading, due := f.speed*knot, 5000.0, 200.0, 0.0
	var s stream.Sample
	for i := 0; float64(i)*step < flightTo-flightFrom; i++ {
		now := float64(i) * step
		offBank, offNose := hand.move(step)
		bank := f.side*f.bank(now+flightFrom) + f.hand*offBank
		nose := f.nose(now+flightFrom) + f.hand/2*offNose
		heading += gravity * math.Tan(bank*degree) / v / degree * step
		climb := v * math.Sin(nose*degree)
		altitude += climb * step / foot
		v = math.Max(25, v-gravity*math.Sin(nose*degree)*step)
		if now < due {
			continue
		}
		due += 1 / rate
		s.Reset()
		s.Put(stream.Time, now)
		s.Put(stream.Heading, heading)
		s.Put(stream.Pitch, nose+trim)
		s.Put(stream.Bank, bank+f.low)
		s.Put(stream.Airspeed, v/knot)
		s.Put(stream.Altitude, altitude)
		s.Put(stream.VerticalSpeed, climb/foot*60)
		take(&s)
	}
}

// A hand is off by a little, smoothly: two random walks drawn back within some seconds, each through a lag, of 1 r.m.s.
type hand struct {
	random *rand.Rand
	state  [2]float64
	out    [2]float64
}

func newHand(seed uint64) *hand { return &hand{random: rand.New(rand.NewPCG(seed, 17))} }

func (h *hand) move(dt float64) (bank, nose float64) {
	const drawn, lag = 1.5, 0.6 // s
	keep, follow := math.Exp(-dt/drawn), 1-math.Exp(-dt/lag)
	for i := range h.state {
		h.state[i] = h.state[i]*keep + math.Sqrt(1-keep*keep)*h.random.NormFloat64()
		h.out[i] += (h.state[i] - h.out[i]) * follow
	}
	even := math.Sqrt(1 + lag/drawn) // what the lag takes from the r.m.s.
	return h.out[0] * even, h.out[1] * even
}

// gentleRoll is a first roll to a bank in some seconds, from there growing slowly for a while, and then the roll-in
// proper.
func gentleRoll(size, in, growth, wait float64) func(float64) float64 {
	return func(t float64) float64 {
		switch {
		case t < 0:
			return 0
		case t < in:
			return size * t / in
		case t < in+wait:
			return size + growth*(t-in)
		}
		return math.Min(40, size+growth*wait+4*(t-in-wait))
	}
}

// rising is a nose that comes up from a time on, by a rate, to 15°.
func rising(from, rate float64) func(float64) float64 {
	return func(t float64) float64 { return math.Min(15, math.Max(0, t-from)*rate) }
}

// off is how far a leg was found from where it began: s late, and ° of turn.
func off(l *coach.Leg, truth entry, side float64) (late, turned float64) {
	return l.Start - truth.time, side * stream.Wrap180(l.Entry.Values["heading"]-truth.heading)
}

// TestGentleRoll: however gently the wings leave level, the leg begins there, within two seconds and a degree of turn.
func TestGentleRoll(t *testing.T) {
	streams := map[string]entryFlight{
		"60 a second": {}, "20 a second": {rate: 20}, "5 a second": {rate: 5}, "attitude only": {lacks: attitudeOnly},
	}
	side := 1.0
	for name, f := range streams {
		for _, speed := range []float64{100, 220} {
			for _, in := range []float64{1, 3, 6} {
				for _, size := range []float64{4, 8, 12, 15} {
					for _, growth := range []float64{0.2, 0.75, 1.5} {
						for _, wait := range []float64{2, 5} {
							side = -side
							f.bank, f.nose, f.speed, f.side = gentleRoll(size, in, growth, wait), rising(in, 0.6),
								speed, side
							what := fmt.Sprintf("%s, %g kt: %g° in %g s, then %g°/s for %g s",
								name, speed, size, in, growth, wait)
							l, truth := f.found(t)
							if l == nil {
								t.Errorf("%s: no leg", what)
								continue
							}
							if late, turned := off(l, truth, side); math.Abs(late) > 2 || math.Abs(turned) > 1 {
								t.Errorf("%s: %.2f s late, %.2f° round", what, late, turned)
							}
						}
					}
				}
			}
		}
	}
}

// TestGentleRollByHand is the same, flown by hand with errors of 1.2° of bank and 0.6° of nose, which are those of the
// recorded flights before a leg. Of first rolls to 8 to 12° in 2 to 5 s that are held for 2 to 5 s, one in fifty may be
// found elsewhere.
func TestGentleRollByHand(t *testing.T) {
	const flights = 300
	wide := 0
	for seed := range uint64(flights) {
		r := rand.New(rand.NewPCG(seed, 3))
		between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
		f := entryFlight{bank: gentleRoll(between(8, 12), between(2, 5), between(0, 1), between(2, 5)),
			nose: rising(between(0, 3), between(0.4, 0.9)), speed: between(90, 220), side: 1 - 2*float64(seed%2),
			hand: 1.2, seed: seed, rate: 20}
		l, truth := f.found(t)
		if l == nil {
			t.Fatalf("flight %d: no leg", seed)
		}
		if late, turned := off(l, truth, f.side); math.Abs(late) > 2 || math.Abs(turned) > 1 {
			t.Logf("flight %d: %.2f s late, %.2f° round", seed, late, turned)
			wide++
		}
	}
	if wide > flights/50 {
		t.Errorf("%d of %d are found elsewhere", wide, flights)
	}
}

// TestEntries: what comes before a leg does not move where it is found.
func TestEntries(t *testing.T) {
	rollIn := func(t float64) float64 { return math.Min(40, math.Max(0, 5*t)) }
	turnBefore := func(bank, end, left float64) func(float64) float64 { // rolled out until a time, with some bank left
		return func(t float64) float64 {
			return math.Max(rollIn(t)+left, math.Min(bank, math.Max(left, (end-t)*10)))
		}
	}
	level := func(float64) float64 { return 0 }
	givenUp := func(left float64) func(float64) float64 { // a leg before, rolled level after 30°, with some bank left
		return func(t float64) float64 {
			if t < -20 {
				return math.Min(25, math.Max(0, 8*(t+30)))
			}
			return math.Max(rollIn(t)+left, 25-10*(t+20))
		}
	}
	climbBefore := func(t float64) float64 {
		return math.Max(rising(0, 2)(t),
			math.Min(8, math.Min(2*(t+30), -2*(t+18))))
	}
	for name, f := range map[string]entryFlight{
		"a wing held 3° low":             {bank: rollIn, nose: rising(0, 2), low: 3},
		"the other wing held 3° low":     {bank: rollIn, nose: rising(0, 2), low: -3},
		"after a clearing turn":          {bank: turnBefore(30, -3, 0), nose: rising(0, 2)},
		"after a clearing turn in a jet": {bank: turnBefore(30, -3, 0), nose: rising(0, 2), speed: 250},
		"some bank left from a turn":     {bank: turnBefore(30, -4, 2.5), nose: rising(0, 2), speed: 220},
		"more left from a turn":          {bank: turnBefore(30, -5, 4), nose: rising(0, 2)},
		"after a leg given up":           {bank: givenUp(0), nose: climbBefore},
		"with some bank left from it":    {bank: givenUp(4), nose: climbBefore},
		"a pull with the wings level":    {bank: func(t float64) float64 { return rollIn(t - 4) }, nose: rising(0, 3)},
		"out of a shallow dive": {
			bank: rollIn,
			nose: func(t float64) float64 { return math.Min(15, math.Max(-7, 2.5*t)) },
		},
		"slowly, as a lazy eight": {
			card: "lazy-eight", bank: func(t float64) float64 { return math.Min(25, math.Max(0, 0.9*t)) },
			nose: rising(0, 0.6),
		},
		"a steep turn": {
			card: "steep-turn", bank: func(t float64) float64 { return math.Min(50, math.Max(0, 8*t)) },
			nose: level,
		},
		"a steep turn, gently at first": {
			card: "steep-turn", bank: func(t float64) float64 {
				return math.Max(gentleRoll(8, 3, 0.5, 4)(t),
					math.Min(50, 6*(t-7)))
			},
			nose: level,
		},
		"a steep turn with some bank left": {
			card: "steep-turn", bank: func(t float64) float64 {
				return math.Max(math.Min(50, 8*t),
					math.Max(4, math.Min(30, (-5-t)*10)))
			},
			nose: level,
		},
		"some bank left from a short turn": {bank: func(t float64) float64 {
			return math.Max(rollIn(t)+3.5, math.Min(math.Min(25, 5*(t+12)), (-4-t)*10)) * math.Min(1, math.Max(0, t+12))
		}, nose: rising(0, 2), speed: 220},
		"a bank for long before": {
			bank:  func(t float64) float64 { return math.Max(rollIn(t), 7) },
			nose:  rising(0, 2),
			speed: 220,
		},
	} {
		for _, lacks := range [][]stream.Channel{nil, attitudeOnly} {
			for _, side := range []float64{1, -1} {
				if lacks != nil && name == "out of a shallow dive" {
					continue // by attitude alone a dive is level flight
				}
				f.side, f.lacks = side, lacks
				if f.speed == 0 {
					f.speed = 120
				}
				l, truth := f.found(t)
				if l == nil {
					t.Errorf("%s: no leg", name)
					continue
				}
				if late, turned := off(l, truth, side); math.Abs(late) > 2 || math.Abs(turned) > 1 {
					t.Errorf("%s, without %v, side %g: %.2f s late, %.2f° round", name, lacks, side, late, turned)
				}
			}
		}
	}
}

// TestSlightTurnEnds: a climb with a slight bank that is taken for a leg is given up when the wings stay level, not
// held on to until the card's limit.
func TestSlightTurnEnds(t *testing.T) {
	f := entryFlight{speed: 100, side: 1, nose: rising(0, 1), bank: func(t float64) float64 {
		return math.Max(0, math.Min(math.Min(4.5, t), 17-t))
	}}
	l, _ := f.found(t)
	if l == nil || l.Outcome != coach.BrokenOff || l.End-l.Start > 30 {
		t.Errorf("it is %+v", l)
	}
}
