package coach

import (
	"math"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream"
)

// How a leg ends. The numbers are those of the design, given there as defaults.
const (
	levelBank    = 5.0  // °: wings level
	leaveBank    = 10.0 // °: no longer level after all; less is the roll-out still swinging
	endMargin    = 30.0 // ° short of the full turn from where level wings end it
	levelToEnd   = 1.0  // s of level wings that end a leg
	levelToBreak = 3.0  // s of level wings that break it off
	fallBack     = 15.0 // ° of turning back that break it off
)

// A leg being flown.
type leg struct {
	side     float64 // 1 right, −1 left
	origin   float64 // unwrapped heading of the entry
	start    float64
	facts    check.Facts
	judges   []check.Judge // beside the card's checks; nil for those of a series
	known    []float64     // turn angle at which a check is known before the end; +Inf: at the end, or already considered
	prev     check.Moment
	cur      check.Moment
	has      bool // prev holds a moment
	farthest float64
	next     int // checkpoint to come
	fine     fineness
	holes    holes
	passing  check.Passing
	refine   bool   // the last point waits for the moment after it
	cue      int    // cue to come
	sent     int    // cue to be sent next
	words    string // of that, with the plan's numbers in
	points   []Point
	trace    []Trace
	values   []float64 // what the trace points to, made at once
	phase    int
	axes     axes  // of the trace over the ground
	point    point // of reference

	exit       check.Moment
	exiting    bool
	rolled     bool    // the wings have been out of level
	levelSince float64 // NaN: they are not level again
	external   bool    // ended by the stream, not by the pilot
	said       int     // corrections given
	replaying  bool
	watch      []float64 // since when each watch is out of its corridor, NaN: it is not
}

// beginLeg opens a leg that has committed itself: it finds where it departed and runs
// everything since then through the judges.
func (c *Coach) beginLeg(turned, side float64) {
	start := c.departure(side)
	l := &leg{side: side, start: start, levelSince: math.NaN(), phase: -1}
	l.facts = c.facts(start, side, &l.origin)
	card := c.plan.Card
	l.judges = make([]check.Judge, len(card.Checks))
	l.known = make([]float64, len(card.Checks))
	l.watch = make([]float64, len(card.Watches))
	for i := range card.Checks {
		l.judges[i] = kinds.NewJudge(&card.Checks[i], &l.facts)
		l.known[i] = math.Inf(1)
		if turn, ok := kinds.Of(&card.Checks[i]).Known.On(&card.Checks[i]); ok {
			l.known[i] = turn
		}
	}
	l.fine.watch(card, &l.facts)
	for i := range l.watch {
		l.watch[i] = math.NaN()
	}
	l.trace = make([]Trace, 0, int(card.Turn)+61)
	l.values = make([]float64, 0, 4*cap(l.trace))
	at, heading := placeOf(&c.pastAt(start).sample), l.facts.Entry.Sample.Value(stream.Heading)
	l.axes, l.point = c.ground.axes(at, heading, side), c.legPoint(at, heading, side)
	l.points = make([]Point, 0, len(card.Checkpoints))
	c.leg = l
	c.await(l)
	c.joinSeries(l)
	l.replaying = true
	for i := c.ring.n - 1; i >= 0 && c.leg == l; i-- {
		if e := c.ring.back(i); e.time() >= start {
			c.advance(&e.sample, e.turned)
		}
	}
	l.replaying = false
	if c.leg == l {
		c.enterPhase(l)
		l.skipCues(card)
	}
}

// facts gathers what was known at the entry.
func (c *Coach) facts(start, side float64, origin *float64) check.Facts {
	f := check.Facts{Aircraft: c.plan.Aircraft, Known: c.plan.Known, Side: side, Nose: c.plan.Nose, Setup: map[string]float64{}}
	w, _ := c.ring.over(start-2, start)
	if w.n == 0 {
		w, _ = c.ring.over(start-0.2, start+0.2)
	}
	*origin = w.turned
	f.Entry.Set(&w.sample, 0, side)
	f.Entry.Sample.Put(stream.Time, start)
	v, alt := w.sample.Value(stream.Airspeed), w.sample.Value(stream.Altitude)
	f.Duration = c.plan.duration(v, alt)
	if c.rest.ok {
		return f // no set-up came before
	}
	// The last second and a half is what the leg was begun from; airspeed is watched for longer.
	short, _ := c.ring.over(start-1.5, start)
	for ch := range stream.NumChannels {
		if x, ok := short.sample.Get(ch); ok {
			f.Setup[ch.String()] = x
		}
	}
	if b, ok := f.Setup["bank"]; ok {
		f.Setup["bank"] = b * side
	}
	long, _ := c.ring.over(start-3, start)
	if _, ok := long.sample.Get(stream.Airspeed); ok {
		f.Setup["speed-spread"] = long.high - long.low
	}
	f.Setup["turn-rate"] = long.turnRate
	return f
}

// fly advances the leg by a sample.
func (c *Coach) fly(s *stream.Sample) {
	l := c.leg
	c.advance(s, c.turned)
	if c.leg != l {
		return
	}
	c.enterPhase(l)
	c.say(l)
}

// advance moves the leg on and ends it when it has ended.
func (c *Coach) advance(s *stream.Sample, turned float64) {
	l := c.leg
	l.prev = l.cur
	l.cur.Set(s, (turned-l.origin)*l.side, l.side)
	m := &l.cur
	if !l.has {
		l.prev, l.has = l.cur, true
	}
	l.holes.add(&l.prev, m, l.fine.interval())
	l.fine.add(&l.prev, m)
	for _, j := range l.judges {
		if j != nil {
			j.Step(m)
		}
	}
	c.passCheckpoints(l)
	l.draw()
	l.farthest = math.Max(l.farthest, m.Turn)
	c.seekEnd(l)
}

// passCheckpoints notes the checkpoint just passed, and once more when the moment after it has
// bent the curve between the two.
func (c *Coach) passCheckpoints(l *leg) {
	l.passing.Step(&l.cur)
	m, ok := l.passing.At()
	if !ok {
		return
	}
	if l.refine {
		l.points[len(l.points)-1] = pointOf(&m)
	} else {
		l.points = append(l.points, pointOf(&m))
		l.next++
	}
	l.refine = !l.refine
	if !l.refine {
		c.await(l)
	}
}

// await looks for the next checkpoint; the last is the exit and no matter of a turn angle.
func (c *Coach) await(l *leg) {
	at := math.Inf(1)
	if cards := c.plan.Card.Checkpoints; l.next < len(cards)-1 {
		at = cards[l.next].Turn
	}
	l.passing.Await(at)
	if l.has {
		l.passing.Step(&l.cur)
	}
}

// draw adds to the trace: one entry a degree.
func (l *leg) draw() {
	if n := len(l.trace); n > 0 && l.cur.Turn < l.trace[n-1].Turn+1 || len(l.trace) == cap(l.trace) {
		return
	}
	s := &l.cur.Sample
	t := Trace{Turn: round(l.cur.Turn, 2), Time: round(l.cur.Time(), 3), Bank: round(s.Value(stream.Bank), 2), Pitch: round(s.Value(stream.Pitch), 2)}
	if v, ok := s.Get(stream.Airspeed); ok {
		t.Airspeed = l.keep(round(v, 2))
	}
	if v, ok := s.Get(stream.Altitude); ok {
		t.Height = l.keep(round(v-l.facts.Entry.Sample.Value(stream.Altitude), 1))
	}
	if along, across, ok := l.axes.locate(s); ok {
		t.Along, t.Across = l.keep(round(along, 0)), l.keep(round(across, 0))
	}
	l.trace = append(l.trace, t)
}

func (l *leg) keep(x float64) *float64 {
	l.values = append(l.values, x)
	return &l.values[len(l.values)-1]
}

// seekEnd looks for the end of the leg: the exit, or what breaks it off.
func (c *Coach) seekEnd(l *leg) {
	m, card := &l.cur, c.plan.Card
	bank, now := m.Sample.Value(stream.Bank), m.Time()
	switch {
	case m.Turn < l.farthest-fallBack:
		c.endLeg(BrokenOff, "turned back", nil)
		return
	case now-l.start > card.Limit:
		c.endLeg(BrokenOff, "took longer than the card allows", nil)
		return
	}
	if l.exiting {
		switch {
		case bank > leaveBank:
			l.exiting = false
		case bank < -levelBank || now-l.exit.Time() >= levelToEnd:
			c.endLeg(Finished, "", &l.exit)
			return
		}
	} else if m.Turn >= card.Turn-endMargin && bank <= levelBank {
		l.exiting = true
		l.exit = *m
		if was := l.prev.Sample.Value(stream.Bank); was > levelBank && l.prev.Turn >= card.Turn-endMargin {
			l.exit.Lerp(&l.prev, m, (was-levelBank)/(was-bank))
		}
	}
	if math.Abs(bank) > levelBank {
		l.rolled, l.levelSince = true, math.NaN()
	} else if math.IsNaN(l.levelSince) && (l.rolled || !l.replaying) { // the roll-in looked back for may begin gently
		l.levelSince = now
	} else if now-l.levelSince >= levelToBreak && m.Turn < card.Turn-endMargin && m.Turn > card.Commit.Turned {
		c.endLeg(BrokenOff, "rolled level short of the turn", nil)
	}
}

// endLeg closes the leg, grades it and tells of it.
func (c *Coach) endLeg(outcome, reason string, exit *check.Moment) {
	l := c.leg
	c.leg = nil
	c.ended = l.cur.Time()
	done := c.gradeLeg(l, outcome, reason, exit)
	c.rest = rest{}
	if outcome == Finished {
		// Legs may follow each other without a pause; the reference then is this exit.
		at := l.origin + l.side*exit.Turn
		c.rest = rest{ok: true, turned: at, pitch: l.facts.Entry.Sample.Value(stream.Pitch)}
	}
	c.level = reference{}
	c.clearing.skip()
	c.emit(done)
	c.emit(&Phase{Time: round(c.ended, 3), Phase: "after", Turn: round(l.cur.Turn, 1), Direction: done.Direction})
	c.sayResult(l, done)
	c.addToSeries(done)
}

func (c *Coach) enterPhase(l *leg) {
	phases := c.plan.Card.Phases
	at := 0
	for at < len(phases)-1 && l.cur.Turn >= phases[at].To {
		at++
	}
	if at > l.phase {
		l.phase = at
		c.emit(&Phase{Time: round(c.now, 3), Phase: phases[at].Name, Turn: round(l.cur.Turn, 1), Direction: direction(l.side)})
	}
}

func direction(side float64) string {
	if side < 0 {
		return "left"
	}
	return "right"
}

// pointOf makes a moment a point of the record.
func pointOf(m *check.Moment) Point {
	p := Point{Turn: round(m.Turn, 3), Time: round(m.Time(), 4), Values: map[string]float64{}}
	for c := range stream.NumChannels {
		v, ok := m.Sample.Get(c)
		if !ok || c == stream.Time {
			continue
		}
		digits := 3
		if c == stream.Latitude || c == stream.Longitude {
			digits = 7
		}
		p.Values[c.String()] = round(v, digits)
	}
	return p
}

func round(x float64, digits int) float64 {
	f := math.Pow10(digits)
	return math.Round(x*f) / f
}

func ptr(x float64) *float64 { return &x }
