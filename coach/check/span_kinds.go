package check

import "math"

// change gives exit minus entry.
type change struct {
	get   get
	name  string
	entry *Moment
}

func (*change) Step(*Moment) {}

func (c *change) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	now, ok := c.get(exit)
	then, had := c.get(c.entry)
	if !ok || !had {
		return none("the stream has no %s", c.name)
	}
	return value(now-then, exit.Turn)
}

// departure gives the largest distance from the entry value, with its sign; in a span that
// starts later, from the value at its start.
type departure struct {
	span
	entry *Moment
	base  float64
	based bool
	found Measure
}

func (d *departure) Step(m *Moment) {
	v, _, ok := d.read(m)
	if !ok {
		return
	}
	if !d.based {
		d.base, d.based = v, true
		if then, had := d.get(d.entry); had && d.from == 0 {
			d.base = then
		}
	}
	if !d.found.OK || math.Abs(v-d.base) > math.Abs(d.found.Value) {
		d.found = value(v-d.base, m.Turn)
	}
}

func (d *departure) Measure(*Moment) Measure {
	if !d.found.OK {
		return d.nothing()
	}
	return d.found
}

// mean gives the mean over time in a span.
type mean struct {
	span
	sum, time float64
}

func (a *mean) Step(m *Moment) {
	if v, dt, ok := a.read(m); ok {
		a.sum += v * dt
		a.time += dt
	}
}

func (a *mean) Measure(*Moment) Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return value(a.sum/a.time, math.NaN())
}

// rms gives the root mean square over time in a span.
type rms struct {
	span
	sum, time float64
}

func (a *rms) Step(m *Moment) {
	if v, dt, ok := a.read(m); ok {
		a.sum += v * v * dt
		a.time += dt
	}
}

func (a *rms) Measure(*Moment) Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return value(math.Sqrt(a.sum/a.time), math.NaN())
}

// share gives the share of time (0 to 1) in which the quantity stays within a distance of 0;
// its place is the turn angle of the worst moment.
type share struct {
	span
	within, good, time float64
	worst, at          float64
}

func (a *share) Step(m *Moment) {
	v, dt, ok := a.read(m)
	if !ok {
		return
	}
	a.time += dt
	if math.Abs(v) <= a.within {
		a.good += dt
	}
	if math.Abs(v) > a.worst {
		a.worst, a.at = math.Abs(v), m.Turn
	}
}

func (a *share) Measure(*Moment) Measure {
	if a.time == 0 {
		return a.nothing()
	}
	return value(a.good/a.time, a.at)
}

// reversal gives the largest fall below what was reached before, of a quantity that should
// only rise.
type reversal struct{ binned }

func (r *reversal) Measure(*Moment) Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	high, worst, where := v[0], 0.0, at[0]
	for i := range v {
		high = math.Max(high, v[i])
		if high-v[i] > worst {
			worst, where = high-v[i], at[i]
		}
	}
	return value(worst, where)
}

// rise gives how far a quantity climbs above its value at the start of the span.
type rise struct{ binned }

func (r *rise) Measure(*Moment) Measure {
	at, v := r.profile()
	if len(v) < 3 {
		return r.nothing()
	}
	i := top(v, 1)
	return value(v[i]-v[0], at[i])
}

// pace gives the time of the leg over the time of the reference path: 1 is its rhythm, less
// is rushed.
type pace struct{ facts *Facts }

func (*pace) Step(*Moment) {}

func (p *pace) Measure(exit *Moment) Measure {
	if exit == nil {
		return none("there was no exit")
	}
	if math.IsNaN(p.facts.Duration) || p.facts.Duration <= 0 {
		return none("there is no reference path: it needs an aircraft card")
	}
	return value((exit.Time()-p.facts.Entry.Time())/p.facts.Duration, math.NaN())
}
