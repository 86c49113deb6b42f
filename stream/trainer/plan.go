package trainer

import (
	"math"

	"halfturn/stream/trainer/airplane"
)

// plan is how one leg is to be flown: bank and nose against the turn angle, as a person flies it
// by looking outside. Angles are °; bank is toward the turn, nose above level trim.
type plan struct {
	turn    float64                  // of the maneuver
	exit    float64                  // turn angle at which the wings are to be level
	out     float64                  // turn angle where the roll-out's last, steady part begins
	bank    func(th float64) float64 // up to out
	nose    func(th float64) float64 // share of top, or of dive where negative
	top     float64                  // highest nose, °
	dive    float64                  // lowest nose, ° below
	level   bool                     // altitude is held throughout
	back    bool                     // returns to the entry altitude
	low     float64                  // ft the pull-out is misjudged by, downward
	start   float64                  // kt, entry airspeed
	apex    float64                  // kt, lowest airspeed aimed at
	give    float64                  // share of the height gained still to be lost where the pull-out begins
	power   float64                  // throttle change on the way
	feet    float64                  // 1 on the pedals, 0 on the floor
	abandon float64                  // turn angle where it is given up, 0 never
	raise   float64                  // ° of nose added to what the apex needs
	rise    float64                  // share of the highest nose that is flown, 0 is all of it
	dip     float64                  // share of the lowest nose that is flown, 0 is all of it
	jerks   float64                  // how rough the hands are, 0 smooth
	climbs  float64                  // ft/min before the entry
	follows bool                     // the next leg starts where this one ends
	known   bool                     // nothing to rehearse
	brisk   bool                     // rolled in as fast as out
	share   float64                  // of the power of level flight at the entry airspeed
	even    bool                     // the power is one that neither gains nor loses over the leg
	round   float64                  // ft from the point on the ground that it is flown about, 0 for none
	pylon   bool                     // that point is kept on the wing
	glide   bool                     // without power, airspeed held
	blind   bool                     // the wind is not corrected for
	early   float64                  // s by which the roll-in comes before it should
	over    float64                  // ft above the pivotal altitude
	fixed   bool                     // the height is kept where it is to follow the pivotal altitude
	fast    float64                  // kt of airspeed too much in it
}

func smoothstep(x float64) float64 {
	x = math.Max(0, math.Min(1, x))
	return x * x * (3 - 2*x)
}

// bankAt is the bank asked for at a turn angle, roll-out included. A roll-out at a steady rate
// gives bank nearly in proportion to the root of what is left to turn.
func (p *plan) bankAt(th float64) float64 {
	if th < p.out {
		return p.bank(math.Max(0, th))
	}
	left := math.Max(0, p.exit-th) / (p.exit - p.out)
	return p.bank(p.out) * math.Sqrt(left)
}

// noseAt is the nose angle asked for at a turn angle, ° above level trim.
func (p *plan) noseAt(th float64) float64 {
	s := p.nose(math.Max(0, th))
	if s < 0 {
		return s * p.dive
	}
	return s * p.top
}

// arch is a bank that grows from first to half at 45°, to most at 90° and back to half at 135°.
func arch(first, half, most float64) func(float64) float64 {
	return func(th float64) float64 {
		if th < 45 {
			return first + (half-first)*th/45
		}
		return half + (most-half)*(1-math.Pow(math.Abs(th-90)/45, 1.5))
	}
}

// wave is the nose of a wing-over: up early, highest at 45°, through the horizon at 90°, lowest
// at 135°.
func wave(th float64) float64 {
	if th < 45 {
		return math.Sin(math.Pow(th/45, 0.8) * 90 * rad)
	}
	return math.Sin(2 * th * rad)
}

func wingOver(a *airplane.Airplane) plan {
	return plan{turn: 180, exit: 180, out: 135, bank: arch(15, 45, 75), nose: wave, back: true, apex: a.Apex,
		give: 0.34, feet: 1, share: 1}
}

func lazyEight(a *airplane.Airplane) plan {
	p := wingOver(a)
	p.bank, p.follows = arch(8, 15, 30), true
	// legs follow each other without a pause: the next begins with the height one gains (FAA-H-8083-3C ch. 10, lazy
	// eight, from memory)
	p.even = true
	return p
}

// overStall is how far above the stall a chandelle ends, kt; just above is what the standards
// ask, how much is common practice, no source.
const overStall = 6

func chandelleCivil(a *airplane.Airplane) plan {
	return plan{turn: 180, exit: 180, out: 90, apex: a.Stall + overStall, feet: 1, share: 1,
		bank: func(float64) float64 { return 30 },
		nose: func(th float64) float64 { return smoothstep(th / 90) }}
}

func chandelleTraditional(a *airplane.Airplane) plan {
	return plan{turn: 180, exit: 180, out: 90, apex: a.Stall + overStall, feet: 1, share: 1,
		bank: func(th float64) float64 {
			if th < 45 {
				return 14 + 34*th/45
			}
			return 48 + 12*math.Sin((th-45)*2*rad)
		},
		nose: func(th float64) float64 {
			x := math.Min(1, th/180)
			return 1.15*x - 0.15*x*x*x*x
		}}
}

// levelTurn is a level turn at a bank through an angle. The roll-out leads by half the bank, since the airplane rolls
// out no faster.
func levelTurn(bank, turn float64) func(*airplane.Airplane) plan {
	return func(*airplane.Airplane) plan {
		return plan{turn: turn, exit: turn, out: turn - bank/2, level: true, feet: 1, share: 1, known: true,
			bank: func(float64) float64 { return bank }, nose: func(float64) float64 { return 0 }}
	}
}

// levelRoll rolls briskly into a level turn at 45° of bank, and as briskly out of it.
func levelRoll(*airplane.Airplane) plan {
	return plan{turn: 90, exit: 90, out: 72, level: true, feet: 1, share: 1, known: true, brisk: true,
		bank: func(th float64) float64 { return 45 * math.Sqrt(math.Min(1, (th+1.5)/19)) }, nose: flat}
}

// rollOutFrom90 is a level turn whose bank comes off from 90° on.
func rollOutFrom90(*airplane.Airplane) plan {
	return plan{turn: 180, exit: 180, out: 90, level: true, feet: 1, share: 1, known: true,
		bank: func(float64) float64 { return 30 }, nose: flat}
}

// wingOverTo45 goes back to level from the highest nose.
func wingOverTo45(a *airplane.Airplane) plan {
	return plan{turn: 75, exit: 75, out: 45, apex: a.Apex, feet: 1, share: 1,
		bank: func(th float64) float64 { return 15 + 30*math.Min(1, th/45) },
		nose: func(th float64) float64 {
			if th < 45 {
				return wave(th)
			}
			return smoothstep((75 - th) / 30)
		}}
}

// wingOverTo90 levels the wings on top.
func wingOverTo90(a *airplane.Airplane) plan {
	return plan{turn: 140, exit: 140, out: 90, apex: a.Apex, feet: 1, share: 1, bank: arch(15, 45, 75),
		nose: func(th float64) float64 {
			if th < 90 {
				return wave(th)
			}
			return -0.4 * math.Sin(math.Min(1, (th-90)/30)*90*rad)
		}}
}

func flat(float64) float64 { return 0 }

// maneuvers are those the pilot can fly, by the legs that follow each other; a flight of more legs begins again with
// the first.
var maneuvers = []struct {
	name string
	legs []func(*airplane.Airplane) plan
}{
	{"wing-over", one(wingOver)},
	{"chandelle-civil", one(chandelleCivil)},
	{"chandelle-traditional", one(chandelleTraditional)},
	{"lazy-eight", one(lazyEight)},
	{"steep-turn", one(levelTurn(50, 360))},
	{"steep-spiral", one(steepSpiral)},
	{"eights-on-pylons", one(eightOnPylons)},
	{"wing-over-to-45", one(wingOverTo45)},
	{"wing-over-to-90", one(wingOverTo90)},
	{"level-roll", one(levelRoll)},
	{"roll-out-from-90", one(rollOutFrom90)},
	{"turn-pattern", []func(*airplane.Airplane) plan{ // CNATRA P-330 par. 611
		levelTurn(15, 30), levelTurn(15, 30), levelTurn(30, 90), levelTurn(30, 90), levelTurn(45, 180),
		levelTurn(45, 180),
	}},
}

func one(leg func(*airplane.Airplane) plan) []func(*airplane.Airplane) plan {
	return []func(*airplane.Airplane) plan{leg}
}

// legsOf returns the legs of a maneuver that follow each other.
func legsOf(name string) []func(*airplane.Airplane) plan {
	for i := range maneuvers {
		if maneuvers[i].name == name {
			return maneuvers[i].legs
		}
	}
	return nil
}
