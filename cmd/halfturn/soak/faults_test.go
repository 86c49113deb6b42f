package soak

import (
	"context"
	"math/rand/v2"
	"slices"
	"time"

	"halfturn/cmd/halfturn/demo"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A faulty is a station to which things happen.
type faulty struct {
	*soak
	gate   *gate
	number int
	random *rand.Rand

	sender *sender
	flight trainer.Flight
	format string
	held   []byte     // a datagram that will come late
	moved  [3]float64 // by which a jump moved the airplane: latitude, longitude, heading
}

// A fault happens to a datagram that is due; it sends what is to be sent. It returns false when the flight is over.
type fault func(f *faulty, b []byte) bool

// faults are all that happens to stations, by name.
var faults = map[string]fault{
	"stops in a leg":  (*faulty).stop,
	"restarts":        (*faulty).restart,
	"sends garbage":   (*faulty).garble,
	"is badly linked": (*faulty).mislay,
	"jumps":           (*faulty).jump,
	"pauses":          (*faulty).pause,
	"runs faster":     (*faulty).hurry,
}

// faultNames lists them in an order that does not change.
var faultNames = slices.Sorted(func(yield func(string) bool) {
	for name := range faults {
		if !yield(name) {
			return
		}
	}
})

// pick returns one of a list.
func pick[E any](random *rand.Rand, list []E) E { return list[random.IntN(len(list))] }

// once reports, on average once in a time of flight in seconds, that something is to happen.
func (f *faulty) once(seconds float64) bool { return f.random.Float64() < 1/(seconds*f.rate) }

// fly flies one flight after the other, each with a fault, until the round is over.
func (f *faulty) fly(ctx context.Context) {
	f.sender = &sender{soak: f.soak, gate: f.gate}
	defer func() { f.sender.close() }()
	for ctx.Err() == nil && !f.Failed() {
		maneuver := pick(f.random, trainer.Maneuvers())
		f.flight = trainer.Flight{
			Maneuver:  maneuver,
			Direction: pick(f.random, trainer.Directions()),
			Flaw:      pick(f.random, append(trainer.FlawsOf(maneuver), "")),
			Airplane:  demo.Airplane,
			Seed:      f.random.Uint64(),
		}
		f.format = pick(f.random, encode.Formats())
		if !f.sender.connect(faultyHost(f.number)) || !f.sender.take(f.flight, f.format) {
			return
		}
		f.moved, f.held, f.sender.spoken = [3]float64{}, nil, 0
		name := pick(f.random, faultNames)
		f.counts.happened(name)
		f.sender.clock(ctx, func() bool { return f.step(faults[name]) })
	}
}

// step flies a step with a fault.
func (f *faulty) step(happens fault) bool {
	f.displace()
	list, more := f.sender.encoded(1 / f.rate)
	for _, b := range list {
		if !happens(f, b) {
			return false
		}
	}
	return more
}

// displace has the next sample come from where a jump took the airplane.
func (f *faulty) displace() {
	if f.moved == [3]float64{} {
		return
	}
	// The pilot does not notice: it flies on where it was.
	f.sender.encoder = &displaced{Encoder: f.sender.encoder, by: f.moved}
	f.moved = [3]float64{}
}

// A displaced encoder writes of an airplane elsewhere.
type displaced struct {
	encode.Encoder
	by [3]float64
}

// Append writes a sample.
func (d *displaced) Append(dst []byte, s *stream.Sample) []byte {
	moved := *s
	for i, c := range []stream.Channel{stream.Latitude, stream.Longitude, stream.Heading} {
		if v, ok := moved.Get(c); ok {
			moved.Put(c, v+d.by[i])
		}
	}
	if v, ok := moved.Get(stream.Heading); ok {
		moved.Put(stream.Heading, stream.Wrap360(v))
	}
	return d.Encoder.Append(dst, &moved)
}

// stop stops sending for good at some moment, often within a leg; the socket stays open until the next flight.
func (f *faulty) stop(b []byte) bool {
	f.sender.write(b)
	return !f.once(30)
}

// restart starts the simulator again: another port, and the flight from its beginning.
func (f *faulty) restart(b []byte) bool {
	f.sender.write(b)
	if !f.once(30) {
		return true
	}
	f.sender.spoken = 0
	return f.sender.connect(faultyHost(f.number)) && f.sender.take(f.flight, f.format)
}

// garble sends noise, and datagrams that are cut off or changed.
func (f *faulty) garble(b []byte) bool {
	switch f.random.IntN(10) {
	case 0:
		noise := make([]byte, f.random.IntN(1400))
		for i := range noise {
			noise[i] = byte(f.random.Uint32())
		}
		f.sender.write(noise)
	case 1:
		f.sender.write(b[:f.random.IntN(len(b)+1)])
	case 2:
		changed := slices.Clone(b)
		for range min(len(changed), 1+f.random.IntN(8)) {
			changed[f.random.IntN(len(changed))] = byte(f.random.Uint32())
		}
		f.sender.write(changed)
	default:
		f.sender.write(b)
	}
	return true
}

// mislay loses a tenth of the datagrams, doubles a tenth, and has a tenth come later than the next one.
func (f *faulty) mislay(b []byte) bool {
	late := f.held
	f.held = nil
	switch f.random.IntN(10) {
	case 0:
	case 1:
		f.sender.write(b)
		f.sender.write(b)
	case 2:
		f.held = slices.Clone(b)
	default:
		f.sender.write(b)
	}
	if late != nil {
		f.sender.write(late)
	}
	return true
}

// jump puts the airplane elsewhere.
func (f *faulty) jump(b []byte) bool {
	f.sender.write(b)
	if f.once(20) {
		f.moved = [3]float64{f.random.Float64(), f.random.Float64(), 360 * f.random.Float64()}
	}
	return true
}

// pause stops the simulator for a while that may be longer than a session may be interrupted.
func (f *faulty) pause(b []byte) bool {
	f.sender.write(b)
	if f.once(20) {
		wait(f.Context(), time.Duration(float64(f.idle)*1.5*f.random.Float64()))
	}
	return true
}

// hurry has the simulator run at up to eight times its speed for a while.
func (f *faulty) hurry(b []byte) bool {
	f.sender.write(b)
	if f.once(1) {
		for range f.random.IntN(8) {
			f.sender.pilot.Step(1/f.rate, &f.sender.sample)
		}
	}
	return true
}

// wait waits, and returns false when the context ended first.
func wait(ctx context.Context, d time.Duration) bool { return demo.Pause(ctx, d) }
