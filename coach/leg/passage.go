package leg

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
)

// A passage notes the checkpoints of a leg as they are passed.
type passage struct {
	checkpoints []maneuver.Checkpoint
	next        int // checkpoint to come
	passed      []check.Moment
	passing     check.Passing
	refine      bool // the last point waits for the moment after it
}

func (p *passage) begin(checkpoints []maneuver.Checkpoint) {
	p.checkpoints = checkpoints
	p.await()
}

// step takes the next moment. A checkpoint is noted as it is passed, and once more when the moment after it has bent
// the curve between the two.
func (p *passage) step(cur *check.Moment) {
	p.passing.Step(cur)
	if !p.passing.Passed() {
		return
	}
	m, _ := p.passing.At()
	if p.refine {
		p.passed[len(p.passed)-1] = m
	} else {
		if p.passed == nil {
			p.passed = make([]check.Moment, 0, len(p.checkpoints))
		}
		p.passed = append(p.passed, m)
		p.next++
	}
	p.refine = !p.refine
	if !p.refine {
		p.await()
		p.passing.Step(cur)
	}
}

// points returns the checkpoints that were passed.
func (p *passage) points(c *Course) []coach.Point {
	list := make([]coach.Point, len(p.passed))
	for i := range p.passed {
		list[i] = c.pointOf(&p.passed[i])
	}
	return list
}

// await looks for the next checkpoint. The last is the exit, which has no turn angle.
func (p *passage) await() {
	at := math.Inf(1)
	if p.next < len(p.checkpoints)-1 {
		at = p.checkpoints[p.next].Turn
	}
	p.passing.Await(at)
}
