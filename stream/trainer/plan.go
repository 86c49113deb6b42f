package trainer

import (
	"fmt"
	"math"
	"strconv"
	"strings"
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
	follows bool                     // the next leg starts where this one ends
	known   bool                     // nothing to rehearse
	share   float64                  // of the power of level flight at the entry airspeed
	even    bool                     // the power is one that neither gains nor loses over the leg
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

func wingOver(a *Airplane) plan {
	return plan{turn: 180, exit: 180, out: 135, bank: arch(15, 45, 75), nose: wave, back: true, apex: a.Apex,
		give: 0.34, feet: 1, share: 1}
}

func lazyEight(a *Airplane) plan {
	p := wingOver(a)
	p.bank, p.follows = arch(8, 15, 30), true
	// legs follow each other without a pause: what one gains the next begins with (FAA-H-8083-3C ch. 10, lazy eight,
	// from memory)
	p.even = true
	return p
}

// overStall is how far above the stall a chandelle ends, kt; just above is what the standards
// ask, how much is common practice, no source.
const overStall = 6

func chandelleCivil(a *Airplane) plan {
	return plan{turn: 180, exit: 180, out: 90, apex: a.Stall + overStall, feet: 1, share: 1,
		bank: func(float64) float64 { return 30 },
		nose: func(th float64) float64 { return smoothstep(th / 90) }}
}

func chandelleTraditional(a *Airplane) plan {
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

func steepTurn(*Airplane) plan {
	return plan{turn: 360, exit: 360, out: 335, level: true, feet: 1, share: 1, known: true,
		bank: func(float64) float64 { return 50 }, nose: func(float64) float64 { return 0 }}
}

var maneuvers = []struct {
	name string
	plan func(*Airplane) plan
}{
	{"wing-over", wingOver},
	{"chandelle-civil", chandelleCivil},
	{"chandelle-traditional", chandelleTraditional},
	{"lazy-eight", lazyEight},
	{"steep-turn", steepTurn},
}

// flaw is one thing flown wrong. Change bends a plan, by a strength of 1 as is usual; which
// maneuvers it makes sense in is in only, all when empty.
type flaw struct {
	name   string
	only   []string
	change func(p *plan, strength float64)
	after  bool // the highest nose stays what it is without the flaw
}

var climbing = []string{"wing-over", "lazy-eight", "chandelle-civil", "chandelle-traditional"}

var halves = []string{"wing-over", "lazy-eight"}

var flaws = []flaw{
	{"late-nose", halves, func(p *plan, s float64) { p.nose = late(s) }, true},
	{"overbanked", nil, func(p *plan, s float64) { p.bank = scaled(p.bank, 1+0.38*s, 30, 150) }, false},
	{"shallow", nil, func(p *plan, s float64) { p.bank = scaled(p.bank, 1-0.38*s, 0, 180) }, false},
	{"early-rollout", nil, func(p *plan, s float64) { p.exit -= 13 * s; p.out -= 13 * s }, false},
	{"late-rollout", nil, func(p *plan, s float64) { p.exit += 14 * s; p.out += 14 * s }, false},
	{"height-lost", halves, func(p *plan, s float64) { p.low, p.give = 260*s, 0.34-0.22*s }, false},
	{"power-changed", nil, func(p *plan, s float64) { p.power = 0.15 * s }, false},
	{"feet-off", nil, func(p *plan, s float64) { p.feet = math.Max(0, 1-s) }, false},
	{"same-direction", nil, nil, false},
	{"abandoned", climbing, func(p *plan, s float64) { p.abandon = 100 - 30*s }, false},
	{"nose-high", climbing, func(p *plan, s float64) { p.raise = 9 * s }, false},
}

// Strengths lists the words for how strong a flaw is, from mild: Flight.Strength.
func Strengths() []string {
	names := make([]string, len(strengths))
	for i := range strengths {
		names[i] = strengths[i].name
	}
	return names
}

// strengths scale what a flaw changes. Mild is just outside what is wanted.
var strengths = []struct {
	name  string
	scale float64
}{{"mild", 0.75}, {"medium", 1}, {"clear", 1.3}}

// scale reads a strength: one of the words, or a number of which 1 is medium.
func scale(strength string) (float64, error) {
	if strength == "" {
		return 1, nil
	}
	for _, s := range strengths {
		if s.name == strength {
			return s.scale, nil
		}
	}
	x, err := strconv.ParseFloat(strength, 64)
	if err != nil || !StrengthRange.Contains(x) {
		r := StrengthRange
		const must = "is %q; must be %s, or a number between %g and %g"
		return 0, &OptionError{"strength", fmt.Sprintf(must, strength, strings.Join(Strengths(), ", "), r.Low, r.High)}
	}
	return x, nil
}

// late is the nose of a pilot who goes on pulling, until 67° at a strength of 1: it rises
// steadily, then has to come down the faster.
func late(strength float64) func(float64) float64 {
	top, level := 45+22*strength, 90+14*strength
	return func(th float64) float64 {
		switch {
		case th < top:
			return th / top
		case th < level:
			return math.Cos((th - top) / (level - top) * 90 * rad)
		case th < 140:
			return -math.Sin((th - level) / (140 - level) * 90 * rad)
		}
		return -math.Cos((th - 140) / 40 * 90 * rad)
	}
}

// scaled multiplies a bank by up to f, fully in the middle of a span of turn angles.
func scaled(bank func(float64) float64, f, from, to float64) func(float64) float64 {
	return func(th float64) float64 {
		w := smoothstep((th-from)/25) * smoothstep((to-th)/25)
		if f < 1 {
			w = 1
		}
		return bank(th) * (1 + (f-1)*w)
	}
}
