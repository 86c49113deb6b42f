package trainer

import (
	"math"
	"strconv"
	"strings"

	"halfturn/stream/trainer/option"
)

// flaw is one error of a pilot. change alters a plan, by a medium amount at a strength of 1; only lists the
// maneuvers in which the flaw makes sense, all when empty.
type flaw struct {
	name   string
	only   []string
	change func(p *plan, strength float64)
	after  bool // the highest nose is that of a flight without the flaw
}

var climbing = []string{"wing-over", "lazy-eight", "chandelle-civil", "chandelle-traditional"}

var raised = []string{
	"wing-over", "lazy-eight", "chandelle-civil", "chandelle-traditional", "wing-over-to-45", "wing-over-to-90",
}

var halves = []string{"wing-over", "lazy-eight"}

var chandelles = []string{"chandelle-civil", "chandelle-traditional"}

var civil = []string{"chandelle-civil"}

// heldTurns are level turns whose bank is held.
var heldTurns = []string{"steep-turn", "turn-pattern"}

var levelTurns = append([]string{"level-roll", "roll-out-from-90"}, heldTurns...)

// unbound are the maneuvers whose bank no point on the ground asks for.
var unbound = append(append([]string{}, raised...), levelTurns...)

// headed are those that end on a heading.
var headed = append([]string{"steep-spiral"}, unbound...)

// pairs are those of more than one leg.
var pairs = append([]string{"eights-on-pylons"}, unbound...)

var spirals = []string{"steep-spiral"}

var pylons = []string{"eights-on-pylons"}

// rough are those that are long enough for a rough hand to show as what it is.
var rough = append(append(append([]string{"steep-spiral"}, pylons...), heldTurns...), climbing...)

var rollOuts = []string{"chandelle-civil", "roll-out-from-90"}

var flaws = []flaw{
	{"late-nose", halves, func(p *plan, s float64) { p.nose = late(s) }, true},
	{"overbanked", headed, func(p *plan, s float64) { p.bank = scaled(p.bank, 1+0.38*s, 30, 150) }, false},
	{"shallow", unbound, func(p *plan, s float64) { p.bank = scaled(p.bank, 1-0.38*s, 0, 180) }, false},
	{"early-rollout", headed, func(p *plan, s float64) { p.exit -= 13 * s; p.out -= 13 * s }, false},
	{"late-rollout", headed, func(p *plan, s float64) { p.exit += 14 * s; p.out += 14 * s }, false},
	{"height-lost", halves, func(p *plan, s float64) { p.low, p.give = 260*s, 0.34-0.22*s }, false},
	{"power-changed", nil, func(p *plan, s float64) { p.power = 0.15 * s }, false},
	{"feet-off", nil, func(p *plan, s float64) { p.feet = math.Max(0, 1-s) }, false},
	{"same-direction", pairs, nil, false},
	{"abandoned", climbing, func(p *plan, s float64) { p.abandon = 100 - 30*s }, false},
	{"nose-high", raised, func(p *plan, s float64) { p.raise = 9 * s }, false},
	{"no-climb", climbing, func(p *plan, s float64) { p.rise = 1 / (1 + 2.2*s) }, true},
	{"nose-falls", halves, func(p *plan, s float64) { p.nose = falling(s) }, true},
	{"steep-dive", halves, func(p *plan, s float64) { p.dip = 1 + 0.9*s }, false},
	{"flat-dive", halves, func(p *plan, s float64) { p.dip, p.low = 1/(1+4*s), -140*s }, false},
	{"nose-rising", civil, func(p *plan, s float64) { p.nose = onward(p.nose, 0.5*s) }, true},
	{"nose-sinks", chandelles, func(p *plan, s float64) { p.nose = onward(p.nose, -0.55*s) }, true},
	{"steep-start", civil, func(p *plan, s float64) { p.bank = scaled(p.bank, 1+0.38*s, -180, 360) }, false},
	{"late-start", rollOuts, func(p *plan, s float64) { p.out += 42 * s }, false},
	{"late-bank", []string{"wing-over", "chandelle-traditional"}, func(p *plan, s float64) {
		p.bank = shifted(p.bank, 22*s)
		p.out += 22 * s
	}, false},
	{"bank-falls", heldTurns, func(p *plan, s float64) { p.bank = dropping(p.bank, 14*s) }, false},
	{"sinks", levelTurns, func(p *plan, s float64) { p.low = 200 * s }, false},
	{"power-short", heldTurns, func(p *plan, s float64) { p.power = -0.2 * s }, false},
	{"wind-ignored", spirals, func(p *plan, s float64) { p.blind = true }, false},
	{"fast-glide", spirals, func(p *plan, s float64) { p.fast = 17 * s }, false},
	{"slow-glide", spirals, func(p *plan, s float64) { p.fast = -15 * s }, false},
	{"small-circle", spirals, func(p *plan, s float64) { p.round /= 1 + 0.5*min(s, 1) }, false},
	{"two-turns", spirals, func(p *plan, s float64) { p.exit, p.out = 720, 698 }, false},
	{"height-kept", pylons, func(p *plan, s float64) { p.fixed = true }, false},
	{"too-high", pylons, func(p *plan, s float64) { p.over = 160 * s }, false},
	{"too-low", pylons, func(p *plan, s float64) { p.over = -160 * s }, false},
	{"pylon-close", pylons, func(p *plan, s float64) { p.round /= 1 + 0.55*s }, false},
	{"out-of-wind", pylons, nil, false}, // the flight begins on another heading
	{"drifts", pylons, func(p *plan, s float64) { p.round += 450 * s }, false},
	{"early-roll-in", pylons, func(p *plan, s float64) { p.early = 3 * s }, false},
	{"late-roll-in", pylons, func(p *plan, s float64) { p.early = -3 * s }, false},
	{"rough", rough, func(p *plan, s float64) { p.jerks = s }, false},
	{"climbing-entry", nil, func(p *plan, s float64) { p.climbs = 650 * s }, false},
}

// Strengths lists the words for how strong a flaw is, from mild: Flight.Strength.
func Strengths() []string {
	names := make([]string, len(strengths))
	for i := range strengths {
		names[i] = strengths[i].name
	}
	return names
}

// strengths scale what a flaw changes. Mild is just outside the tolerances.
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
		return 0, option.Wrong("is %q; must be %s, or a number between %v and %v", "strength", strength,
			strings.Join(Strengths(), ", "), r.Low, r.High)
	}
	return x, nil
}

// late is the nose of a pilot who keeps pulling until 67° at a strength of 1: it rises
// steadily, then has to fall faster.
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

// falling is the nose of a pilot who holds it up until 70° and then lets it fall: it goes from nearly highest to nearly
// lowest over the 20° in the middle, at a strength of 1.
func falling(strength float64) func(float64) float64 {
	return func(th float64) float64 {
		if th < 45 || th > 135 {
			return wave(th)
		}
		x := math.Min(1, math.Max(-1, (90-th)/(45/(1+2*strength))))
		return math.Sin(x * 90 * rad)
	}
}

// onward changes a nose that is to be held from 90° on by a share of the highest.
func onward(nose func(float64) float64, by float64) func(float64) float64 {
	return func(th float64) float64 { return nose(th) + by*smoothstep((th-90)/70) }
}

// shifted is a bank that comes later by an angle, in the same shape.
func shifted(bank func(float64) float64, by float64) func(float64) float64 {
	return func(th float64) float64 { return bank(math.Max(0, th-by*smoothstep(th/90))) }
}

// dropping is a bank that comes off by an angle in the middle of a full turn.
func dropping(bank func(float64) float64, by float64) func(float64) float64 {
	return func(th float64) float64 {
		return bank(th) - by*smoothstep((th-120)/40)*smoothstep((260-th)/40)
	}
}
