package track

import "math"

// How the beginning of a leg is found. All are common practice, no source; proved on recorded flights and on swept
// entries.
const (
	leftLevel = 3.0  // ° off level: more than a hand that holds level
	leaving   = 5.0  // s from level to that, at most
	atLevel   = 0.5  // ° off level: still level
	standOver = 0.75 // s over which a value is seen not to move
	standRate = 0.3  // °/s: less is not moving

	// The slope about the moment a value is seen to have left level leads back to when it was level.
	alongBefore = 0.5 // s before that moment
	alongAfter  = 1.0 // s after it
	alongLeast  = 1.2 // °/s, the least slope assumed

	lookBack = 12.0 // s between the nose leaving level and the bank leaving it, at most

	turnBefore = 10.0 // ° of bank that came off again, and half of it, mark a turn before

	slowTurn = 1.0  // ° turned before the bank has visibly left level
	slowRate = 0.35 // °/s of turn that count as turning
	slowStep = 0.5  // s over which that rate is taken
	slowLag  = 0.7  // s from the first bank to that rate

	stoodFor  = 1.0  // s for which a bank is held before the nose leaves level
	stoodRate = 3.0  // °/s at most in that time
	pulled    = 1.2  // °/s of a nose that is then pulled up
	brisk     = 5.0  // °/s of a roll that is an act of its own
	briskLag  = 0.15 // s that such a roll may take to stop
	brought   = 0.8  // share of the held bank that it brings
)

// lagToEnd is how long before a leg ends it may run into the next, s.
const lagToEnd = 1.0

// A departure looks back for where a leg began.
type departure struct {
	*Ring
	from *Reference
	side float64 // 1 right, −1 left
	left float64 // ° of bank left over from a turn before
}

// Departure returns the stream time at which a leg to a side (1 right, −1 left) left the reference: bank leaving
// level toward the turn, or before that, where the maneuver climbs first, the nose. Where the heading had already
// begun to move by then, the roll-in was too slow to be seen so: the leg began where the heading began to move.
func (r *Ring) Departure(from *Reference, side float64, climbs bool) float64 {
	d := departure{Ring: r, from: from, side: side}
	d.left = d.leftFromTurn()
	nose, up := d.leftLevel(d.rise)
	bank, rolled := d.leftLevel(d.tilt)
	earliest := math.Inf(-1)
	if from.Joined {
		bank, earliest = d.throughLevel(), from.Until-lagToEnd
	}
	switch {
	case climbs && nose < bank && nose > max(bank-lookBack, earliest):
		return nose
	case from.Joined:
		return bank
	case climbs && d.slope(nose, up, d.rise) > pulled && d.heldBefore(nose, rolled):
		return nose
	case bank > from.Until && side*(d.TurnedAt(bank)-from.Turned) > slowTurn:
		return d.turningSince(bank, from.Until-steadyOver)
	}
	return bank
}

// rise is the nose above level, °.
func (d *departure) rise(p *attitude) float64 { return p.pitch - d.from.Pitch }

// tilt is the bank toward the turn off the one that holds the heading, °.
func (d *departure) tilt(p *attitude) float64 { return d.side*(p.bank-d.from.Bank) - d.left }

// leftFromTurn returns the bank left over from a turn before whose wings never came level again; 0 when they did.
func (d *departure) leftFromTurn() float64 {
	least := math.Inf(1)
	for i := range d.n {
		v := d.tilt(d.attitudeBack(i))
		if v < leftLevel {
			break
		}
		least = min(least, v)
		if v > max(least+turnBefore, 2*least) {
			return least
		}
	}
	return 0
}

// throughLevel returns when the bank passed through level, where one leg runs into the next.
func (d *departure) throughLevel() float64 {
	i := 0
	for i < d.n-1 && d.tilt(d.attitudeBack(i)) > -leftLevel {
		i++
	}
	for i > 0 && d.tilt(d.attitudeBack(i)) < 0 {
		i--
	}
	return d.attitudeBack(i).time
}

// leftLevel returns when a value left level for good: from where it was last within 3° of it back to where it did not
// move or was level, or back along its slope, whichever is earlier. seen is when it was last within 3°.
func (d *departure) leftLevel(value func(*attitude) float64) (left, seen float64) {
	i := 0
	for i < d.n-1 && value(d.attitudeBack(i)) >= leftLevel {
		i++
	}
	seen = d.attitudeBack(i).time
	along := seen - leftLevel/max(d.slope(seen-alongBefore, seen+alongAfter, value), alongLeast)
	for before := i; i < d.n-1; i++ {
		now := d.attitudeBack(i)
		before = d.older(before, now.time-standOver)
		v := value(now)
		if v <= atLevel || seen-now.time > leaving || v-value(d.attitudeBack(before)) < standRate*standOver {
			break
		}
	}
	return min(d.attitudeBack(i).time, along), seen
}

// heldBefore reports whether the wings were rolled out of level briskly and held there, and only then the nose left
// level: the leg began out of a bank that is no part of it. A gentle first roll is part of it, however long it lasts.
func (d *departure) heldBefore(nose, rolled float64) bool {
	n, sum := 0.0, 0.0
	for i := range d.n {
		p := d.attitudeBack(i)
		if p.time < nose-stoodFor {
			break
		}
		if p.time <= nose {
			n, sum = n+1, sum+d.tilt(p)
		}
	}
	held := sum / n
	if !(held > leftLevel && held < steadyTilt) || nose-stoodFor <= rolled {
		return false
	}
	reached := rolled + (brought*held-leftLevel)/brisk + briskLag
	return d.tilt(d.attitudeBack(d.older(0, reached))) > brought*held &&
		math.Abs(d.slope(nose-stoodFor, nose, d.tilt)) < stoodRate
}

// turningSince walks back from a time to where the heading began to move toward the side, but not beyond oldest.
func (d *departure) turningSince(t, oldest float64) float64 {
	oldest = max(oldest, d.attitudeBack(d.n-1).time)
	for t-slowStep > oldest && d.side*(d.TurnedAt(t)-d.TurnedAt(t-slowStep)) > slowRate*slowStep {
		t -= slowStep / 2
	}
	return max(oldest, t-slowLag)
}

// slope returns the fitted slope of a value between two times, per second; 0 when there are too few samples.
func (d *departure) slope(from, to float64, value func(*attitude) float64) float64 {
	var n, st, stt, sv, stv float64
	for i := range d.n {
		p := d.attitudeBack(i)
		if p.time < from {
			break
		}
		if p.time > to {
			continue
		}
		t, v := p.time-from, value(p)
		n, st, stt, sv, stv = n+1, st+t, stt+t*t, sv+v, stv+t*v
	}
	spread := n*stt - st*st
	if spread < 1e-9 {
		return 0
	}
	return (n*stv - st*sv) / spread
}
