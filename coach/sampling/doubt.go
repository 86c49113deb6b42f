package sampling

import (
	"fmt"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// coarse is the interval between samples from which on a measure is given its uncertainty, s. What can happen in a
// shorter one is smaller than any band on a card.
const coarse = 0.08

// LeaveBank is the bank over which the exit is still to come, °: less is the roll-out still swinging.
const LeaveBank = 10.0

// fineness is how finely a leg was sampled: in the mean, and where each of its checks looks.
type fineness struct {
	n, time float64         // intervals so far, and their sum in s
	kept    [2]check.Moment // the last two kept
	newer   int             // which of them is the newer
	have    int             // how many of them there are
	carries bool            // a smoothing still carries a coarse interval toward where its view begins
	gaps    bool            // there was a coarse interval
	views   []view          // of the checks that can be uncertain
}

// A view is the part of a turn that a check looks at, and how coarsely the stream shows it.
type view struct {
	check    int          // of the card
	read     check.Reader // the quantity; nil when the kind has no uncertainty, or finds a turn angle
	anchor   check.Reader // where the value is taken: the turn angle, or the bank at the exit; nil for a span
	angle    bool         // the check finds a turn angle
	exit     bool         // the check looks at the exit
	start    bool         // it counts from the value where its span begins
	times    float64      // how many values of the quantity make up the check's
	slack    slack
	smooth   float64 // time constant with which the quantity is smoothed, s; 0 is not
	from, to float64 // ° of turn

	seen seen
}

// A slack is what a value may be past the low and the high edge of a band and still counts as within it: the step it is
// written in, and nothing where the edge is a limit.
type slack struct{ low, high float64 }

func slackOf(spec *check.Spec) (s slack) {
	step := check.Rounding(kinds.Unit(spec))
	if !spec.IsLimit(false) {
		s.low = step
	}
	if !spec.IsLimit(true) {
		s.high = step
	}
	return s
}

// seen is what a view saw where the stream was coarse.
type seen struct {
	end    float64 // ° of turn seen of the view
	gap    float64 // the widest coarse interval, s; 0 without one
	step   float64 // the widest step of the turn in one, °
	edge   float64 // the largest rate of the quantity where the span begins or ends
	last   float64 // that rate in the latest coarse interval
	value  motion  // of the quantity
	places motion  // of the anchor
	before carry
}

// A carry is how far off a smoothed quantity is where its view begins, after a coarse interval before that.
type carry struct {
	off   float64 // as of since; once the view has begun, where it did
	since float64 // stream time at which the interval ended, s
	gap   float64 // the widest one, s
	open  bool    // the view has not begun
}

// carried is how many time constants of a smoothing a coarse interval is carried on: what is left of it then is less
// than a hundredth.
const carried = 5.0

// add takes a coarse interval of a length that ends now, in which the quantity moved at a rate: the smoothing took the
// value at its end for that of all of it.
func (c *carry) add(now, dt, rate, smooth float64) {
	kept := math.Exp(-dt / smooth)
	before := c.off * math.Exp((c.since+dt-now)/smooth)
	*c = carry{before*kept + rate*dt*(1-kept), now, max(c.gap, dt), true}
}

// begin takes the next moment, on the way to where a view begins.
func (c *carry) begin(m *check.Moment, from, smooth float64) {
	since := m.Time() - c.since
	switch {
	case since > carried*smooth:
		*c = carry{}
	case m.Turn >= from:
		c.off, c.open = c.off*math.Exp(-since/smooth), false
	}
}

// A motion is how quickly a quantity changes.
type motion struct{ rate, bend float64 } // the largest first and second derivative

func bankOf(m *check.Moment) (float64, bool) { return m.Sample.Get(stream.Bank) }

// watch prepares for a leg of a card.
func (f *fineness) watch(card *maneuver.Card, facts *check.Facts) {
	views := make([]view, 0, len(card.Checks))
	for i := range card.Checks {
		if v := newView(&card.Checks[i], facts); v.angle || v.read != nil {
			v.check = i
			views = append(views, v)
		}
	}
	f.views = slices.Clone(views)
}

func newView(spec *check.Spec, facts *check.Facts) view {
	v := view{times: 1, slack: slackOf(spec), smooth: spec.Smooth, to: math.Inf(1)}
	if spec.From != nil {
		v.from, v.to = *spec.From, *spec.To
	}
	if c, ok := stream.ChannelNamed(spec.Channel); ok && c.Info().Circular {
		return v
	}
	kind := kinds.Of(spec)
	switch kind.Doubt {
	case check.OneValue:
		v.read = check.Read(spec.Channel, facts)
	case check.Difference, check.FromStart:
		v.read, v.times = check.Read(spec.Channel, facts), 2
		v.start = kind.Doubt == check.FromStart
	case check.Angle:
		v.angle = true
	}
	switch {
	case kind.Looks == check.AtPlace && spec.Turn != nil:
		v.anchor = check.TurnAt
		v.from, v.to = *spec.Turn, *spec.Turn
	case kind.Looks == check.AtPlace:
		v.anchor, v.exit = bankOf, true
	}
	return v
}

// add takes the next moment. Only some of a fine stream are kept: from samples close together the bend of a curve
// cannot be distinguished from noise.
func (f *fineness) add(prev, cur *check.Moment) {
	dt := cur.Time() - prev.Time()
	if dt <= 0 {
		return
	}
	f.n++
	f.time += dt
	if f.carries {
		f.begin(cur)
	}
	if f.have == 0 || dt >= coarse {
		f.keep(prev) // where the gap begins
	}
	if cur.Time()-f.kept[f.newer].Time() >= coarse/2 {
		f.keep(cur)
	}
}

// begin takes the next moment for the views that are still to begin.
func (f *fineness) begin(cur *check.Moment) {
	f.carries = false
	for i := range f.views {
		if v := &f.views[i]; v.seen.before.open {
			v.seen.before.begin(cur, v.from, v.smooth)
			f.carries = f.carries || v.seen.before.open
		}
	}
}

// keep keeps a moment, and looks at it and the two before when one of the intervals is coarse.
func (f *fineness) keep(m *check.Moment) {
	a, b := &f.kept[1-f.newer], &f.kept[f.newer]
	if bank, _ := bankOf(m); f.gaps && bank > LeaveBank {
		f.notYetOut()
	}
	if f.have == 2 {
		if m.Time()-b.Time() < coarse/2 {
			*b = *m
			return
		}
		if max(b.Time()-a.Time(), m.Time()-b.Time()) >= coarse {
			f.gaps = true
			for i := range f.views {
				f.views[i].look(a, b, m)
				f.carries = f.carries || f.views[i].seen.before.open
			}
		}
	}
	*a, f.newer = *m, 1-f.newer
	f.have = min(f.have+1, 2)
}

// notYetOut forgets what was seen of the exit: it is still to come.
func (f *fineness) notYetOut() {
	for i := range f.views {
		if v := &f.views[i]; v.exit {
			v.seen.gap, v.seen.step = 0, 0
		}
	}
}

// look takes three successive moments.
func (v *view) look(a, b, c *check.Moment) {
	v.seen.value.add(v.read, a, b, c)
	v.seen.places.add(v.anchor, a, b, c)
	v.between(a, b)
	v.between(b, c)
}

// between takes one interval.
func (v *view) between(a, b *check.Moment) {
	dt := b.Time() - a.Time()
	v.seen.end = min(v.to, max(v.seen.end, b.Turn))
	if c := &v.seen.before; dt >= coarse && v.smooth > 0 && b.Turn < v.from && b.Time() > c.since {
		c.add(b.Time(), dt, rateOf(v.read, a, b), v.smooth)
	}
	if dt < coarse || max(a.Turn, b.Turn) < v.from || min(a.Turn, b.Turn) > v.to {
		return
	}
	v.seen.gap, v.seen.step = max(v.seen.gap, dt), max(v.seen.step, math.Abs(b.Turn-a.Turn))
	v.seen.last = rateOf(v.read, a, b)
	if a.Turn <= v.from || b.Turn >= v.to {
		v.seen.edge = max(v.seen.edge, v.seen.last)
	}
}

// rateOf is the rate of a quantity from one moment to the next, 0 where it is not known.
func rateOf(read check.Reader, a, b *check.Moment) float64 {
	if read == nil {
		return 0
	}
	x, ok := read(a)
	y, ok2 := read(b)
	if !ok || !ok2 {
		return 0
	}
	return math.Abs(y-x) / (b.Time() - a.Time())
}

// add takes three successive moments.
func (m *motion) add(read check.Reader, a, b, c *check.Moment) {
	if read == nil {
		return
	}
	x, ok := read(a)
	y, ok2 := read(b)
	z, ok3 := read(c)
	if !ok || !ok2 || !ok3 {
		return
	}
	h, k := b.Time()-a.Time(), c.Time()-b.Time()
	before, after := (y-x)/h, (z-y)/k
	m.rate = max(m.rate, math.Abs(before), math.Abs(after))
	m.bend = max(m.bend, 2/(h+k)*math.Abs(after-before))
}

// off is how far a quantity may be from the straight line between two samples: an eighth of the square of the
// interval times its second derivative, and twice that because the samples may not show the largest one. It is never
// more than the largest rate makes in that time.
func (m motion) off(gap float64) float64 { return min(m.bend*gap*gap/4, m.rate*gap) }

// uncertainty is how far a value found at a turn angle, NaN for none, may be off; ok is false when it has none.
func (v *view) uncertainty(at float64) (u float64, ok bool) {
	switch {
	case v.seen.gap == 0:
		return v.seen.before.off, v.seen.before.off > 0
	case v.angle: // half a step, and the degree it is rounded to
		return v.seen.step/2 + 1, true
	case v.read == nil:
		return 0, false
	}
	u = v.seen.value.off(v.seen.gap)
	switch {
	case v.anchor != nil && v.seen.places.rate > 0: // the value is that of another place
		u += v.seen.value.rate * v.seen.places.off(v.seen.gap) / v.seen.places.rate
	case v.anchor == nil && v.atEdge(at): // the extreme may lie just beyond what was seen
		u += max(v.seen.edge, v.seen.last) * v.seen.gap
	}
	u = v.times * min(u, v.seen.value.rate*v.seen.gap)
	if c := &v.seen.before; c.off > 0 {
		u = min(u+c.off, v.times*v.seen.value.rate*max(v.seen.gap, c.gap))
	}
	return u, true
}

// atEdge reports whether the value was found where the span begins or ends, or where the leg ends.
func (v *view) atEdge(at float64) bool {
	return v.start || math.IsNaN(at) || at <= v.from+v.seen.step || math.Abs(at-v.seen.end) <= v.seen.step
}

// interval is the mean time between samples, s.
func (f *fineness) interval() float64 { return f.time / max(f.n, 1) }

// off is the uncertainty of the i-th check of the card for a value found at a turn angle, 0 where there is none, with
// the view that it was seen in.
func (f *fineness) off(i int, at float64) (u float64, v *view) {
	n := slices.IndexFunc(f.views, func(v view) bool { return v.check == i })
	if n < 0 {
		return 0, nil
	}
	v = &f.views[n]
	u, _ = v.uncertainty(at)
	return math.Ceil(u*100) / 100, v
}

// doubt gives the i-th check of the card its uncertainty where the stream was coarse, and says when that reaches
// over the edge of a band.
func (f *fineness) doubt(i int, k *coach.Check) {
	at := math.NaN()
	if k.At != nil {
		at = *k.At
	}
	u, v := f.off(i, at)
	if u == 0 || k.Value == nil {
		return
	}
	k.Uncertainty = &u
	if other := otherVerdict(k, u, v.slack); other != "" {
		gap := max(v.seen.gap, v.seen.before.gap)
		k.Doubt = fmt.Sprintf("at %.0f samples a second it could be %s", 1/gap, other)
	}
}

// otherVerdict returns the verdict that the value would have at one end of its uncertainty, "" when it is the same at
// both.
func otherVerdict(k *coach.Check, u float64, s slack) string {
	within := func(x float64, band [2]*float64) bool {
		return (band[0] == nil || x >= *band[0]-s.low) && (band[1] == nil || x <= *band[1]+s.high)
	}
	for _, x := range []float64{*k.Value - u, *k.Value + u} {
		v := coach.Missed
		if within(x, k.Met) {
			v = coach.Met
		} else if within(x, k.Near) {
			v = coach.Near
		}
		if v != k.Verdict && k.Verdict != coach.NotMeasured {
			return v
		}
	}
	return ""
}
