// Package timebase puts the samples of one sender in order and gives each its stream time. It is pure.
package timebase

import (
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A Status says what the time base did with a sample.
type Status uint8

// The statuses.
const (
	Fresh     Status = iota // accepted: a new moment, its Time channel set
	Jump                    // accepted, but not the continuation of what came before
	Still                   // dropped: the simulator is paused
	Duplicate               // dropped: a moment already seen
	Late                    // dropped: a moment before the latest
)

// String returns the status as a short lower-case word.
func (s Status) String() string {
	return [...]string{"fresh", "jump", "still", "duplicate", "late"}[min(s, Late)]
}

// The rules of the time base, in seconds of receive time unless said otherwise. The
// conditions were measured on recorded streams; the limits are common practice, no source.
const (
	stillAfter   = 0.5   // identical for longer than this: paused, not a slow simulator
	longestGap   = 2.0   // stream time
	lateWithin   = 1.0   // stream time: back by less is a reordered datagram, by more a reset
	lateRun      = 5     // this number of growing late stamps in a row ...
	lateSpan     = 0.5   // ... over this time, longer than a burst, mean that the clock was set back a little
	echoWithin   = 0.005 // a datagram captured twice arrives again within this
	clockLost    = 2.0   // without a stamp for longer than this: the clock is no longer sent
	coarseMoves  = 4     // this number of different attitudes under one stamp ...
	coarseStamps = 3     // ... for this number of stamps in a row: the clock is too coarse
	shortestStep = 5e-4  // stream time between samples that arrived together
	settling     = 5.0   // stream time in which altimeter and airspeed indicator come up from 0
)

type jumpKind uint8

const (
	jumpNone jumpKind = iota
	jumpBack
	jumpGap
	jumpReceipt
	jumpClock
	jumpNoClock
	jumpAttitude
	jumpAltitude
	jumpAirspeed
	jumpPosition
	jumpFormat
	jumpPace
)

// A Base puts the samples of one stream in order and gives each its stream time. The
// zero value is ready. It keeps a fixed amount of state and does not allocate.
//
// Stream time is the simulator's own time where the stream has it, so that it agrees with
// the simulator's logs; it goes back when the simulator's clock is reset, which is a Jump.
// Otherwise it is the receive time since the first sample, pauses taken out, marked Derived.
// A simulator clock in steps so coarse that several different attitudes carry one stamp
// (whole seconds) is not used: receive time takes over where the stamps were.
type Base struct {
	started bool
	clock   bool // stream time is the simulator's
	coarse  bool // stamps are sent but too coarse
	out     float64
	since   float64 // stream time of the start or the last jump

	advanced float64 // receive time of the last accepted sample
	from     float64 // receive time that stands for out: the same, moved over pauses
	last     float64 // receive time of the last datagram

	stamp      float64 // simulator time of the last accepted sample
	moves      int     // different attitudes since under that stamp
	coarseRun  int
	held       bool // a stamp from long ago, refused until a second one follows it
	heldStamp  float64
	heldAt     float64
	lateCount  int
	lateStamp  float64
	lateSince  float64
	seen       picture // the last datagram
	known      picture // the latest known value of each
	placed     float64 // stream time at which the position last changed
	placedAt   float64 // receive time of it
	placeEvery float64 // mean time between changes of position
	highAt     float64 // stream time at which the altitude was last there
	fastAt     float64 // the same of the airspeed

	pace    pacer
	restart bool // what comes next is not the continuation

	kind   jumpKind
	amount float64
}

// Restart makes the next sample a Jump, whatever it says: the sender changed its format, so that
// neither its clock nor its values need go on from where they were.
func (t *Base) Restart() { t.restart = t.started }

// Reason says in plain words why the last Jump was one; nothing before the first.
func (t *Base) Reason() phrase.Phrase {
	switch t.kind {
	case jumpBack:
		return phrase.ClockBack.Of()
	case jumpGap:
		return phrase.Gap.Of(phrase.Number("gap", t.amount, 1, "s"))
	case jumpReceipt:
		return phrase.ReceiptBack.Of()
	case jumpClock:
		return phrase.ClockAppeared.Of()
	case jumpNoClock:
		return phrase.ClockGone.Of()
	case jumpAttitude:
		return phrase.AttitudeJumped.Of()
	case jumpAltitude:
		return phrase.AltitudeJumped.Of()
	case jumpAirspeed:
		return phrase.AirspeedJumped.Of()
	case jumpPosition:
		return phrase.PositionJumped.Of()
	case jumpFormat:
		return phrase.FormatChanged.Of()
	case jumpPace:
		return phrase.PaceChanged.Of()
	}
	return phrase.Phrase{}
}

// BySimulator reports whether stream time is the simulator's own.
func (t *Base) BySimulator() bool { return t.clock }

// Next orders one decoded sample. received is its receive time in seconds of any epoch.
// On Fresh and Jump the sample's Time channel holds the stream time in seconds and a
// Paused channel reads 0: what moves is not paused, whatever the flag says.
func (t *Base) Next(s *stream.Sample, received float64) Status {
	stamp, stamped := s.Get(stream.Time)
	p := pictureOf(s)
	status := t.order(s, &p, stamp, stamped, received)
	if status <= Jump {
		t.accept(s, &p, stamp, received, status == Jump)
	}
	t.seen = p
	t.last = received
	return status
}

// order decides the status and, for accepted samples, the new stream time.
func (t *Base) order(s *stream.Sample, p *picture, stamp float64, stamped bool, received float64) Status {
	switch {
	case !t.started:
		t.clock = stamped
		if stamped {
			t.out = stamp
		}
		t.started, t.since = true, t.out
		return Fresh
	case t.restart:
		t.restart, t.clock, t.coarse = false, stamped, false
		t.out += max(received-t.from, shortestStep)
		if stamped {
			t.out = stamp
		}
		return t.jump(jumpFormat, 0)
	case t.clock && stamped:
		return t.byClock(p, stamp, received)
	case t.clock:
		if received-t.advanced <= clockLost {
			return Duplicate
		}
		t.clock = false
		return t.jump(jumpNoClock, 0)
	case stamped && !t.coarse:
		t.clock = true
		t.out = stamp
		return t.jump(jumpClock, 0)
	case stamped && stamp < t.stamp-longestGap: // a reset shows in coarse stamps too
		t.out += shortestStep
		return t.jump(jumpBack, 0)
	}
	return t.byReceipt(s, p, received)
}

// byClock orders by the simulator's time. Pauses are judged by it standing still: the
// flags of a simulator can disagree with that.
func (t *Base) byClock(p *picture, stamp, received float64) Status {
	step := stamp - t.stamp
	switch {
	case step < 0:
		return t.backward(stamp, received)
	case step == 0:
		t.held = false
		if p.attitudeDiffers(&t.seen) {
			t.moves++
		}
		if received-t.advanced > stillAfter {
			return Still
		}
		return Duplicate
	}
	if t.moves < coarseMoves {
		t.coarseRun = 0
	} else if t.coarseRun++; t.coarseRun >= coarseStamps {
		t.coarse, t.clock = true, false
	}
	t.out = stamp
	if step > longestGap {
		return t.jump(jumpGap, step)
	}
	return t.plausible(p, max(step, 0.05))
}

// backward handles a stamp before the latest: a reordered datagram or a clock set back.
// One stamp from long ago is held until a second follows it, so that a single stray
// datagram ends nothing.
func (t *Base) backward(stamp, received float64) Status {
	if t.stamp-stamp > lateWithin {
		if t.held && stamp >= t.heldStamp && stamp < t.heldStamp+longestGap && received-t.heldAt > echoWithin {
			t.out = stamp
			return t.jump(jumpBack, 0)
		}
		t.held, t.heldStamp, t.heldAt = true, stamp, received
		return Late
	}
	if t.lateCount == 0 || stamp <= t.lateStamp {
		t.lateCount, t.lateSince = 0, received
	}
	t.lateCount++
	t.lateStamp = stamp
	if t.lateCount >= lateRun && received-t.lateSince >= lateSpan {
		t.out = stamp
		return t.jump(jumpBack, 0)
	}
	return Late
}

// byReceipt orders by receive time. Values that all stand still are a pause when the flag
// says so or when they do for long; the time of a pause is taken out of stream time.
func (t *Base) byReceipt(s *stream.Sample, p *picture, received float64) Status {
	if back := t.last - received; back > lateWithin {
		t.out += shortestStep
		return t.jump(jumpReceipt, 0)
	} else if back > 0 {
		return Late
	}
	flagged := s.Value(stream.Paused) != 0
	if p.has == 0 && flagged || p.has != 0 && *p == t.seen {
		// Where position comes once a second, level flight in rounded numbers can stand
		// still in between without being paused.
		if flagged || received-t.advanced > max(stillAfter, 1.5*t.placeEvery) {
			t.from = received
			return Still
		}
		return Duplicate
	}
	step := max(received-t.from, shortestStep)
	t.out += step
	if step > longestGap {
		return t.jump(jumpGap, step)
	}
	if t.plausible(p, max(step, 0.1)) == Jump {
		return Jump
	}
	if t.pace.add(p, step) {
		return t.jump(jumpPace, 0)
	}
	return Fresh
}

func (t *Base) jump(kind jumpKind, amount float64) Status {
	t.kind, t.amount = kind, amount
	return Jump
}

// accept takes the sample as the latest.
func (t *Base) accept(s *stream.Sample, p *picture, stamp, received float64, jumped bool) {
	if t.clock {
		s.Put(stream.Time, t.out)
	} else {
		s.Derive(stream.Time, t.out)
	}
	if s.Has.Has(stream.Paused) && s.Value(stream.Paused) != 0 {
		s.Derive(stream.Paused, 0)
	}
	if jumped {
		t.since = t.out
		t.known = picture{}
		t.coarseRun = 0
		t.pace.cut()
	}
	if p.has.Has(stream.Latitude) && p.has.Has(stream.Longitude) && p.placeDiffers(&t.known) {
		if every := received - t.placedAt; every > 0 && every < longestGap && !jumped {
			if t.placeEvery == 0 {
				t.placeEvery = every
			}
			t.placeEvery += (every - t.placeEvery) / 8
		}
		t.placed, t.placedAt = t.out, received
	}
	if p.has.Has(stream.Altitude) {
		t.highAt = t.out
	}
	if p.has.Has(stream.Airspeed) {
		t.fastAt = t.out
	}
	t.known.update(p)
	t.stamp = stamp
	t.advanced, t.from = received, received
	t.moves, t.held, t.lateCount = 0, false, 0
}

// plausible returns Jump when no aircraft can have moved so in step seconds, the least
// step a clock of frames and a bursty network allow.
func (t *Base) plausible(p *picture, step float64) Status {
	k := &t.known
	both := p.has & k.has
	if both&stream.AttitudeSet == stream.AttitudeSet && p.turned(k) > 20+540*step {
		return t.jump(jumpAttitude, 0)
	}
	// 200 m covers positions printed in steps of 11 m and a simulator that stalled; 700 m/s
	// is Mach 2. Positions may come less often than samples: count from the last change.
	if both&placeSet == placeSet && p.moved(k) > 200+700*max(step, t.out-t.placed) {
		return t.jump(jumpPosition, 0)
	}
	if t.out-t.since < settling {
		return Fresh
	}
	if both.Has(stream.Altitude) && p.change(k, atAltitude) > 150+1000*max(step, t.out-t.highAt) {
		return t.jump(jumpAltitude, 0)
	}
	flying := p.values[atAirspeed] > 20 && k.values[atAirspeed] > 20
	if both.Has(stream.Airspeed) && flying && p.change(k, atAirspeed) > 40+150*max(step, t.out-t.fastAt) {
		return t.jump(jumpAirspeed, 0)
	}
	return Fresh
}
