// Package capacity says how many stations this machine can take. It has the machine work on a flight of the built-in
// aircraft, which takes some milliseconds, and counts processors, memory and files.
package capacity

import (
	"sync"
	"time"

	"halfturn/cmd/halfturn/descriptors"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// What a station costs. The figures were measured on a server that recorded 600 stations, and are rounded up.
const (
	rate         = 60      // samples a second: what simulators send at most, as a rule
	beside       = 10      // what receiving, recording and waking cost, in times of coaching on the same sample
	share        = 0.5     // of processors and memory; the rest is for viewers, for grading and for the system
	stationBytes = 1 << 20 // of memory
	most         = 10_000  // that the setting allows
)

// A Machine is what bounds the number of stations.
type Machine struct {
	Sample     time.Duration // that coaching on one sample takes
	Processors int
	Memory     int64 // bytes that are free; 0 where the system does not say
	Files      int   // that the process may have open; 0 is no limit
}

// Measure looks at this machine; o says what stations fly. The error says what the options lack.
func Measure(o session.Options) (Machine, error) {
	flight, err := flown()
	if err != nil {
		return Machine{}, err
	}
	best := time.Hour
	for range passes {
		s, began := session.New(o), time.Now()
		for i, b := range flight {
			s.Feed(b, float64(i)/sampled)
		}
		best = min(best, time.Since(began)/time.Duration(len(flight)))
	}
	return Machine{
		Sample:     max(best, 1),
		Processors: processors,
		Memory:     available(),
		Files:      descriptors.Limit(),
	}, nil
}

// The flight that is measured: the first leg of a wing-over and the level flight before it. The fastest of some passes
// counts, as other programs may take the processor.
const (
	passes  = 2
	sampled = 20 // Hz
	seconds = 30
	format  = "rows"
)

// flown returns the datagrams of a flight, always the same.
var flown = sync.OnceValues(func() ([][]byte, error) {
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Steady: true})
	if err != nil {
		return nil, err
	}
	e, err := encode.New(format)
	if err != nil {
		return nil, err
	}
	var list [][]byte
	var s stream.Sample
	for range seconds * sampled {
		pilot.Step(1.0/sampled, &s)
		list = append(list, e.Append(nil, &s))
	}
	return list, nil
})

// Stations is how many stations the machine can take at the same time, at least one.
func (m Machine) Stations() int {
	second := float64(m.Sample) * (1 + beside) * rate / float64(time.Second) // of one processor
	n := min(most, share*float64(m.Processors)/second)
	if m.Memory > 0 {
		n = min(n, share*float64(m.Memory)/stationBytes)
	}
	if m.Files > 0 {
		n = min(n, float64(m.Files)*3/4/descriptors.StationFiles) // the rest is for connections
	}
	return int(max(1, n))
}
