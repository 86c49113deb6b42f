package replay

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/coach/brief"
	"halfturn/coach/message"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/web"
)

const (
	sampleGap  = 0.095 // s of stream time between two samples kept: ten a second, whatever the rounding of time stamps
	before     = 3.0   // s kept before an entry and after an exit
	after      = 3.0
	mostHoles  = 16   // places named where datagrams were lost
	mostMoment = 6000 // moments kept to cut legs from: ten minutes, longer than any card's limit
	thin       = 4    // a small sheet has a point every this many degrees
)

// feetPerSecond are the ft/s in a kt: 1852 m per hour, 0.3048 m per ft, both exact by definition.
const feetPerSecond = 1852.0 / 3600 / 0.3048

// A collector listens to a session that plays a recording, and cuts out its legs.
type collector struct {
	session  string
	graded   []coach.Series // when it was flown
	place    float64
	moments  []moment // the latest, in order of stream time
	callouts []*coach.Callout
	plan     message.Chart
	series   int // that are over
	pending  []pendingLeg
	list     web.FlownLegs
	legs     [][]byte
	bytes    int
	err      error
}

// A moment is a frame and its place in the recording.
type moment struct {
	place float64
	coach.Frame
}

// A pendingLeg waits for the seconds after its exit.
type pendingLeg struct {
	leg    *coach.Leg
	plan   message.Chart
	series int
}

// Watched asks for frames.
func (c *collector) Watched(string) bool { return true }

// Frame keeps ten frames per second.
func (c *collector) Frame(_ string, f *coach.Frame) {
	if n := len(c.moments); n > 0 {
		switch since := f.Time - c.moments[n-1].Time; {
		case since < 0 || since > 10: // after a jump nothing before it belongs to later legs
			c.flush()
			c.moments, c.callouts = c.moments[:0], c.callouts[:0]
		case since < sampleGap:
			return
		}
	}
	if len(c.moments) == mostMoment {
		half := mostMoment / 2
		c.moments = append(c.moments[:0], c.moments[half:]...)
		first := c.moments[0].Time
		for len(c.callouts) > 0 && c.callouts[0].Time < first {
			c.callouts = c.callouts[1:]
		}
	}
	c.moments = append(c.moments, moment{c.place, *f})
	for len(c.pending) > 0 && f.Time > c.pending[0].leg.End+after {
		c.cut(c.pending[0])
		c.pending = c.pending[1:]
	}
}

// Event keeps the events that belong to legs.
func (c *collector) Event(m message.Message) {
	switch b := m.Body.(type) {
	case *message.Station:
		c.list.Advice = b.Advice
	case *message.Chart:
		c.plan = *b
	case message.Hole:
		if len(c.list.Holes) < mostHoles {
			c.list.Holes = append(c.list.Holes, *b.Hole)
		}
	case message.Callout:
		c.callouts = append(c.callouts, b.Callout)
	case message.Leg:
		c.pending = append(c.pending, pendingLeg{b.Leg, c.plan, c.series + 1})
	case message.Series:
		c.series++
		if b.Maneuver == coach.Unclear {
			for i := range c.pending {
				if c.pending[i].series == c.series {
					c.pending[i].plan = unclear(c.pending[i].plan)
				}
			}
		}
		whole := *b.Series
		if was := c.seriesBefore(b.Series); was != nil {
			whole = *was
		}
		whole.Legs = nil // they are listed apart
		c.list.Series = append(c.list.Series, whole)
	}
}

// unclear is a plan for a leg that no card fits clearly: the checkpoints of the turn, without aims.
func unclear(p message.Chart) message.Chart {
	p.Maneuver, p.Title, p.Legs, p.Of = coach.Unclear, "Unclear", 1, nil
	p.Checkpoints, p.Lanes = slices.Clone(p.Checkpoints), slices.Clone(p.Lanes)
	for i := range p.Checkpoints {
		p.Checkpoints[i].Words, p.Checkpoints[i].Want = "", phrase.Phrase{}
	}
	for i := range p.Lanes {
		p.Lanes[i].Corridor = []message.Corridor{}
	}
	return p
}

// flush cuts the legs that wait; nothing more belongs to them.
func (c *collector) flush() {
	for _, p := range c.pending {
		c.cut(p)
	}
	c.pending = nil
}

// cut makes the pictures of a leg.
func (c *collector) cut(p pendingLeg) {
	if c.err != nil {
		return
	}
	n := len(c.legs) + 1
	changed := false
	if was := c.gradedFirst(p.leg); was != nil {
		changed = otherwise(was, p.leg)
		p.leg = was
	}
	full := web.FlownLeg{
		Version:  1,
		Session:  c.session,
		Number:   n,
		Series:   p.series,
		Plan:     p.plan,
		Leg:      *p.leg,
		Changed:  changed,
		Callouts: []*coach.Callout{},
	}
	if of := p.plan.Of; of != nil && !of.Card.Several() { // that of a card of several turns is the longest one's
		full.Path = brief.Path(of)
	}
	from, to := p.leg.Start-before, p.leg.End+after
	for _, k := range c.callouts {
		if k.Time >= from && k.Time <= to {
			full.Callouts = append(full.Callouts, k)
		}
	}
	var span []moment
	for _, m := range c.moments {
		if m.Time >= from && m.Time <= to {
			span = append(span, m)
		}
	}
	full.Samples, full.Track = samples(p.leg, span)
	data, err := zip(full)
	if err != nil {
		c.err = err
		return
	}
	c.legs = append(c.legs, data)
	c.bytes += len(data)
	sheet := web.FlownSheet{
		Number: n,
		Series: p.series,
		Plan:   c.planAt(p.plan),
		Leg:    *p.leg,
		Place:  round2(placeOf(span, p.leg.Start)),
	}
	sheet.Trace = thinned(p.leg.Trace)
	c.bytes += len(sheet.Trace) * 64
	c.list.Legs = append(c.list.Legs, sheet)
}

// planAt returns the index of a plan in the list, and adds a new one.
func (c *collector) planAt(p message.Chart) int {
	for i := range c.list.Plans {
		if o := &c.list.Plans[i]; o.Maneuver == p.Maneuver && o.Standard == p.Standard && o.Aircraft == p.Aircraft {
			return i
		}
	}
	c.list.Plans = append(c.list.Plans, p)
	return len(c.list.Plans) - 1
}

func zip(v any) ([]byte, error) {
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if err := json.NewEncoder(w).Encode(v); err != nil {
		return nil, err
	}
	err := w.Close() // before the bytes are read
	return b.Bytes(), err
}

// placeOf is the place of a stream time in the recording.
func placeOf(span []moment, time float64) float64 {
	for i := range span {
		if span[i].Time >= time {
			return span[i].place
		}
	}
	return 0
}

func thinned(all []coach.Trace) []coach.Trace {
	out := make([]coach.Trace, 0, len(all)/thin+2)
	for i := range all {
		if i%thin == 0 || i == len(all)-1 {
			out = append(out, all[i])
		}
	}
	return out
}

// samples are the rows of a leg's pictures, and its way over the ground.
func samples(leg *coach.Leg, span []moment) (map[string][]*float64, web.Track) {
	rows := map[string][]*float64{}
	side := 1.0
	if leg.Direction == "left" {
		side = -1
	}
	put := func(i int, row string, v float64) {
		if rows[row] == nil {
			rows[row] = make([]*float64, len(span))
		}
		v = math.Round(v*1000) / 1000
		rows[row][i] = &v
	}
	heading, known := leg.Entry.Values["heading"]
	height, climbs := leg.Entry.Values["altitude"]
	turned, last := 0.0, heading
	for i := range span {
		m := &span[i]
		put(i, "time", m.Time)
		put(i, "place", m.place)
		flip := side
		if m.Direction == "left" {
			flip = -side // the frame counts it toward the side of the turn
		}
		for name, v := range m.Values {
			if name == "bank" || name == "ball" {
				v *= flip
			}
			put(i, name, v)
		}
		if h, ok := m.Values["heading"]; ok && known {
			turned += side * stream.Wrap180(h-last)
			last = h
			put(i, "turn", turned)
		}
		if alt, ok := m.Values["altitude"]; ok && climbs {
			put(i, "climb", alt-height)
		}
		for row, v := range map[string]*float64{"stall": m.Stall, "deck": m.Deck} {
			if v != nil {
				put(i, row, *v)
			}
		}
	}
	return rows, track(leg, span, rows, put)
}

// track is the way over the ground: from positions, or by dead reckoning.
func track(leg *coach.Leg, span []moment, rows map[string][]*float64, put func(int, string, float64)) web.Track {
	t := web.Track{Entry: leg.Entry.Values["heading"]}
	for i := range span {
		m := &span[i]
		if m.Line != nil {
			t.Line = &m.Line.Heading
		}
		if m.Ground != nil && m.Ground.Wind != nil && m.Time <= leg.End {
			t.Wind = m.Ground.Wind
		}
	}
	if positions(leg, span, put) {
		t.From = "position"
		return t
	}
	if rows["turn"] == nil || rows["airspeed"] == nil {
		t.Reason = phrase.NoTrack.Of()
		return t
	}
	if !reckoned(leg, span, rows, put) {
		t.Reason = phrase.NothingOfLeg.Of()
		return t
	}
	t.From = "heading"
	return t
}

// positions puts the positions of the leg's trace at the samples' times; false when it has none.
func positions(leg *coach.Leg, span []moment, put func(int, string, float64)) bool {
	var known []coach.Trace
	for _, k := range leg.Trace {
		if k.Along != nil && k.Across != nil && (len(known) == 0 || k.Time > known[len(known)-1].Time) {
			known = append(known, k)
		}
	}
	if len(known) < 2 {
		return false
	}
	j := 1
	for i := range span {
		for j < len(known)-1 && known[j].Time < span[i].Time {
			j++
		}
		a, b := known[j-1], known[j]
		f := (span[i].Time - a.Time) / (b.Time - a.Time)
		if f < -0.5 || f > 1.5 {
			continue // before the entry or after the exit
		}
		put(i, "along", *a.Along+f*(*b.Along-*a.Along))
		put(i, "across", *a.Across+f*(*b.Across-*a.Across))
	}
	return true
}

// reckoned integrates heading and speed in still air.
func reckoned(leg *coach.Leg, span []moment, rows map[string][]*float64, put func(int, string, float64)) bool {
	along, across := make([]float64, len(span)), make([]float64, len(span))
	begin := -1
	for i := range span {
		if begin < 0 && span[i].Time >= leg.Start {
			begin = i
		}
		if i == 0 {
			continue
		}
		turn, speed := rows["turn"][i], rows["airspeed"][i]
		along[i], across[i] = along[i-1], across[i-1]
		if turn == nil || speed == nil {
			continue
		}
		v := level(*speed, span[i].Values) * (span[i].Time - span[i-1].Time)
		along[i] += v * math.Cos(*turn*math.Pi/180)
		across[i] += v * math.Sin(*turn*math.Pi/180)
	}
	if begin < 0 {
		return false
	}
	for i := range span {
		put(i, "along", along[i]-along[begin])
		put(i, "across", across[i]-across[begin])
	}
	return true
}

// level is the part of an airspeed in kt that lies in the horizontal, ft/s.
func level(airspeed float64, values map[string]float64) float64 {
	v := airspeed
	if alt, ok := values["altitude"]; ok {
		v = aero.TrueAirspeed(airspeed, alt)
	}
	v *= feetPerSecond
	climb := values["vertical-speed"] / 60
	return math.Sqrt(math.Max(0, v*v-climb*climb))
}

func round2(x float64) float64 { return math.Round(x*100) / 100 }
