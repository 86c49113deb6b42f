package judge

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/stream"
)

// A passage notes the checkpoints of a leg as they are passed.
type passage struct {
	checkpoints []maneuver.Checkpoint
	next        int // checkpoint to come
	points      []coach.Point
	passing     check.Passing
	refine      bool // the last point waits for the moment after it
}

func (p *passage) begin(checkpoints []maneuver.Checkpoint) {
	p.checkpoints, p.points = checkpoints, make([]coach.Point, 0, len(checkpoints))
	p.await()
}

// step takes the next moment. A checkpoint is noted as it is passed, and once more when the moment after it has bent
// the curve between the two.
func (p *passage) step(cur *check.Moment) {
	p.passing.Step(cur)
	m, ok := p.passing.At()
	if !ok {
		return
	}
	if p.refine {
		p.points[len(p.points)-1] = pointOf(&m)
	} else {
		p.points = append(p.points, pointOf(&m))
		p.next++
	}
	p.refine = !p.refine
	if !p.refine {
		p.await()
		p.passing.Step(cur)
	}
}

// await looks for the next checkpoint. The last is the exit, which has no turn angle.
func (p *passage) await() {
	at := math.Inf(1)
	if p.next < len(p.checkpoints)-1 {
		at = p.checkpoints[p.next].Turn
	}
	p.passing.Await(at)
}

// pointOf makes a point of the record of a moment.
func pointOf(m *check.Moment) coach.Point {
	p := coach.Point{
		Turn:   coach.Round(m.Turn, 3),
		Time:   coach.Round(m.Time(), 4),
		Values: map[string]float64{},
	}
	for c := range stream.NumChannels {
		v, ok := m.Sample.Get(c)
		if !ok || c == stream.Time {
			continue
		}
		digits := 3
		if c == stream.Latitude || c == stream.Longitude {
			digits = 7
		}
		p.Values[c.String()] = coach.Round(v, digits)
	}
	return p
}
