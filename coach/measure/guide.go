package measure

import (
	"math"

	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A Task is what the pilot flies next while an aircraft is measured.
type Task string

// The tasks, in their order.
const (
	TaskLevel Task = "level" // steady level flight, which shows that the stream can be trusted
	TaskSlow  Task = "slow"  // slowing down to the stall warning, or to the stall
	TaskEntry Task = "entry" // steady level flight at the speed that maneuvers are entered at
	TaskDone  Task = "done"
)

// What a task asks for: common practice, no source.
const (
	taskHold    = 6.0  // s of steady flight
	taskSmooth  = 2.0  // s over which a change of airspeed shows
	taskWarning = 1.0  // s that the stall warning sounds
	loadOff     = 0.25 // g from 1 in steady level flight
	entryLeast  = 1.3  // times the stall speed
	slowEnough  = 0.75 // of the speed in level flight: no slower, it was no slow flight
	warningBank = 15.0 // °, up to which the warning counts
)

// A Guide measures an aircraft together with its pilot: one task after the other. It is a pure function of the samples.
type Guide struct {
	task    Task
	now     *Measurer // of the task
	last    stream.Sample
	warned  float64 // stream time since which the stall warning sounds; NaN while it does not
	lately  float64 // the airspeed, smoothed, kt; NaN when not known
	results Results
}

// Results are what was measured; 0 is not known. Speeds are kt.
type Results struct {
	Level   float64 `json:"level"`   // the speed held in level flight
	Stall   float64 `json:"stall"`   // at 1 g
	StallBy StallBy `json:"stallBy"` // what Stall rests on
	Entry   float64 `json:"entry"`   // held at the end
	Steady  Stretch `json:"-"`       // the flight at Entry
}

// StallBy says what a stall speed rests on.
type StallBy string

// What a stall speed may rest on.
const (
	ByStall   StallBy = "stall"   // the nose dropped
	ByWarning StallBy = "warning" // the warning sounded: the stall is no faster
	ByLowest  StallBy = "lowest"  // nothing slower was flown: the stall is no faster
)

// A Progress is where a Guide stands.
type Progress struct {
	Task     Task          `json:"task"`
	Held     float64       `json:"held"`     // s of steady flight so far
	Hold     float64       `json:"hold"`     // s of it that are asked for
	Airspeed *float64      `json:"airspeed"` // kt, now; null when not known
	Lowest   *float64      `json:"lowest"`   // kt at 1 g, the slowest so far; null when not known
	Why      phrase.Phrase `json:"why"`      // what is in the way now; nothing when all is well
	Results
}

// NewGuide begins with the first task.
func NewGuide() *Guide {
	g := &Guide{}
	g.begin(TaskLevel)
	return g
}

func (g *Guide) begin(t Task) { g.task, g.now, g.warned, g.lately = t, New(), math.NaN(), math.NaN() }

// smooth keeps the airspeed of lately, to see whether it changes.
func (g *Guide) smooth(s *stream.Sample) {
	v, ok := s.Get(stream.Airspeed)
	dt := s.Value(stream.Time) - g.last.Value(stream.Time)
	switch {
	case !ok:
		g.lately = math.NaN()
	case math.IsNaN(g.lately) || dt < 0:
		g.lately = v
	default:
		g.lately += (v - g.lately) * (1 - math.Exp(-dt/taskSmooth))
	}
}

// Step takes the next sample of the flight.
func (g *Guide) Step(s *stream.Sample) {
	g.smooth(s)
	g.last = *s
	if g.task == TaskDone {
		return
	}
	g.now.Step(s)
	switch g.task {
	case TaskLevel:
		if g.now.stretch.Duration >= taskHold && g.why().IsZero() {
			g.results.Level = round(g.now.stretch.Airspeed)
			g.begin(TaskSlow)
		}
	case TaskSlow:
		g.slow(s)
	case TaskEntry:
		if g.now.stretch.Duration >= taskHold && g.why().IsZero() {
			g.results.Steady = g.now.stretch
			g.results.Entry = round(g.now.stretch.Airspeed)
			g.begin(TaskDone)
		}
	}
}

// slow watches for the stall, and for its warning.
func (g *Guide) slow(s *stream.Sample) {
	if stall, _, why := g.now.Stall(); why == "" {
		g.stalled(stall, ByStall)
		return
	}
	bank, _ := s.Get(stream.Bank)
	warning, ok := s.Get(stream.StallWarning)
	now := s.Value(stream.Time)
	switch {
	case !ok || warning == 0 || math.Abs(bank) > warningBank || math.IsInf(g.now.lowest, 1):
		g.warned = math.NaN()
	case math.IsNaN(g.warned):
		g.warned = now
	case now-g.warned >= taskWarning:
		g.stalled(g.now.lowest, ByWarning)
	}
}

func (g *Guide) stalled(speed float64, by StallBy) {
	g.results.Stall, g.results.StallBy = round(speed), by
	g.begin(TaskEntry)
}

// Break says that the stream jumped or ended.
func (g *Guide) Break() {
	g.now.Break()
	g.warned = math.NaN()
}

// Next goes on to the next task without waiting for the present one. Of a slow flight that did not stall its lowest
// speed is kept, where it was slow; a level flight gives nothing; the entry cannot be left out.
func (g *Guide) Next() {
	switch g.task {
	case TaskLevel:
		g.begin(TaskSlow)
	case TaskSlow:
		if l := g.now.Lowest(); l < slowEnough*g.results.Level {
			g.stalled(l, ByLowest)
			return
		}
		g.begin(TaskEntry)
	}
}

// Again begins the present task, or the last one, once more.
func (g *Guide) Again() {
	switch g.task {
	case TaskDone:
		g.results.Entry, g.results.Steady = 0, Stretch{}
		g.begin(TaskEntry)
	case TaskEntry:
		g.results.Stall, g.results.StallBy = 0, ""
		g.begin(TaskSlow)
	default:
		g.results.Level = 0
		g.begin(TaskLevel)
	}
}

// Results returns what was measured so far.
func (g *Guide) Results() Results { return g.results }

// Progress tells where it stands.
func (g *Guide) Progress() Progress {
	p := Progress{Task: g.task, Hold: taskHold, Results: g.results, Why: g.why()}
	if v, ok := g.last.Get(stream.Airspeed); ok {
		v = round(v)
		p.Airspeed = &v
	}
	if l := g.now.Lowest(); g.task == TaskSlow && !math.IsInf(l, 1) {
		l = round(l)
		p.Lowest = &l
	}
	if g.task != TaskSlow && g.task != TaskDone {
		p.Held = math.Min(math.Floor(g.now.stretch.Duration*10)/10, taskHold)
	}
	return p
}

// why says what is in the way of the present task.
func (g *Guide) why() phrase.Phrase {
	s := &g.last
	if g.task == TaskDone || s.Has == 0 {
		return phrase.Phrase{}
	}
	for _, c := range g.needs() {
		if !s.Has.Has(c) {
			return phrase.MeasureLacks.Of(phrase.Part("channel", phrase.Plain(c.Info().Title)))
		}
	}
	if on, ok := s.Get(stream.OnGround); ok && on != 0 {
		return phrase.MeasureOnGround.Of()
	}
	speed := s.Value(stream.Airspeed)
	if g.task == TaskSlow {
		if level := g.results.Level; level > 0 && speed > 0.9*level {
			return phrase.MeasureFast.Of(phrase.Number("speed", speed, 0, "kt"))
		}
		if l := g.now.Lowest(); math.IsNaN(g.warned) && !math.IsInf(l, 1) {
			return phrase.MeasureNoStall.Of(phrase.Number("speed", l, 0, "kt"))
		}
		return phrase.Phrase{}
	}
	if why := unsteady(s); !why.IsZero() {
		return why
	}
	if n, ok := s.Get(stream.NormalLoad); ok && g.task == TaskLevel && math.Abs(n-1) > loadOff {
		return phrase.MeasureLoad.Of(phrase.Number("load", n, 1, "g"), phrase.Number("one", 1, 0, "g"))
	}
	if least := g.results.Stall * entryLeast; g.task == TaskEntry && speed < least {
		return phrase.MeasureTooSlow.Of(phrase.Number("speed", speed, 0, "kt"),
			phrase.Number("stall", g.results.Stall, 0, "kt"), phrase.Number("least", math.Ceil(least), 0, "kt"))
	}
	if math.Abs(speed-g.lately) > steadySpread {
		return phrase.MeasureSpeed.Of(phrase.Number("limit", steadySpread, 0, "kt"))
	}
	return phrase.Phrase{}
}

// needs are the channels that the present task cannot do without.
func (g *Guide) needs() []stream.Channel {
	if g.task == TaskSlow {
		return []stream.Channel{stream.Airspeed, stream.NormalLoad}
	}
	return []stream.Channel{stream.Airspeed, stream.Bank, stream.VerticalSpeed}
}

// unsteady says why flight is not level.
func unsteady(s *stream.Sample) phrase.Phrase {
	if bank := s.Value(stream.Bank); math.Abs(bank) > steadyBank {
		return phrase.MeasureBank.Of(phrase.Number("bank", math.Abs(bank), 0, "°"),
			phrase.Number("limit", steadyBank, 0, "°"))
	}
	if climb := s.Value(stream.VerticalSpeed); math.Abs(climb) > steadyClimb {
		return phrase.MeasureClimb.Of(phrase.Number("climb", climb, 0, "ft/min"),
			phrase.Number("limit", steadyClimb, 0, "ft/min"))
	}
	return phrase.Phrase{}
}

func round(v float64) float64 { return math.Round(v*10) / 10 }
