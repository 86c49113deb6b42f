// Package overload watches whether the machine keeps up with what arrives, and gives up the least important things
// first, in this order:
//
//  1. A viewer that is slow is sent the latest frame and not those before it. The hub does so at all times.
//  2. Every viewer is sent fewer frames a second, down to two. This package asks the hub for that.
//  3. Recordings miss datagrams, because the disk is slower than what arrives. The recorders count them.
//  4. Datagrams are lost before they are coached by, in the queue of a station or unread in the system. The listener
//     counts them.
//
// The longest time that a datagram waited for its station is what shows an overload: all work of the server waits for
// the same processors. The steps are counted as metrics, and what is lacking is told in words.
package overload

import (
	"context"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/stream/phrase"
)

const (
	lookEvery = time.Second
	busy      = 100 * time.Millisecond // a wait that can be noticed: frames come three of their times late at 30 Hz
	calm      = 20 * time.Millisecond
	busyFor   = 2 // looks in a row before viewers get less: one alone may be a disk that was slow, or a larger program
	calmFor   = 5 // looks in a row before viewers get more again
	toldFor   = time.Minute
)

// gaps are the least times between two frames of a viewer, step by step; the first is the hub's own.
var gaps = []time.Duration{0, 100 * time.Millisecond, 250 * time.Millisecond, 500 * time.Millisecond}

// A Reading says how the server kept up since the last one.
type Reading struct {
	Wait       time.Duration // the longest that a datagram waited for its station
	Lost       uint64        // datagrams that no station was given
	Unrecorded uint64        // datagrams that were not recorded
}

// Config says what is watched, and who gives way.
type Config struct {
	Read   func() Reading
	SetGap func(least time.Duration) // the least time between two frames of a viewer; 0 is its usual one
	Log    zerolog.Logger
}

// A Watch watches a server. It is a prometheus.Collector.
type Watch struct {
	cfg    Config
	counts *prometheus.CounterVec

	mu         sync.Mutex
	step       int // of gaps
	busy, calm int // looks in a row
	lost       recent
	unrecorded recent
}

// recent is what was lost since losing began, until nothing is lost for a minute.
type recent struct {
	n  uint64
	at time.Time // when it was noticed last
}

func (r *recent) add(n uint64, now time.Time) {
	if now.Sub(r.at) > toldFor {
		r.n = 0
	}
	if n > 0 {
		r.n, r.at = r.n+n, now
	}
}

// The values of the label step.
const (
	stepViewers   = "viewers"
	stepRecording = "recording"
	stepCoaching  = "coaching"
)

// New returns a watch that does nothing until it runs.
func New(cfg Config) *Watch {
	w := &Watch{cfg: cfg, counts: prometheus.NewCounterVec(prometheus.CounterOpts{
		Name: "halfturn_overload_seconds_total",
		Help: "Seconds in which something was given up, by what: frames of viewers, recording, coaching.",
	}, []string{"step"})}
	for _, step := range []string{stepViewers, stepRecording, stepCoaching} {
		w.counts.WithLabelValues(step)
	}
	return w
}

// Describe and Collect make the watch a prometheus.Collector.
func (w *Watch) Describe(ch chan<- *prometheus.Desc) { w.counts.Describe(ch) }

// Collect hands out the counters.
func (w *Watch) Collect(ch chan<- prometheus.Metric) { w.counts.Collect(ch) }

// Run looks once a second until the context ends.
func (w *Watch) Run(ctx context.Context) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case now := <-tick.C:
			w.look(w.cfg.Read(), now)
		}
	}
}

// look takes one reading.
func (w *Watch) look(r Reading, now time.Time) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.lost.add(r.Lost, now)
	w.unrecorded.add(r.Unrecorded, now)
	if w.busy++; r.Wait < busy && r.Lost == 0 {
		w.busy = 0
	}
	if w.calm++; r.Wait > calm || r.Lost > 0 {
		w.calm = 0
	}
	switch {
	case r.Lost > 0 || w.busy >= busyFor:
		w.to(w.step + 1)
	case w.calm >= calmFor:
		w.to(w.step - 1)
	}
	for step, is := range map[string]bool{
		stepViewers: w.step > 0, stepRecording: r.Unrecorded > 0, stepCoaching: r.Lost > 0,
	} {
		if is {
			w.counts.WithLabelValues(step).Inc()
		}
	}
}

// to goes to a step, if there is one.
func (w *Watch) to(step int) {
	w.busy, w.calm = 0, 0
	if step < 0 || step >= len(gaps) {
		return
	}
	was := w.step
	w.step = step
	w.cfg.SetGap(gaps[step])
	switch {
	case was == 0:
		w.cfg.Log.Warn().Msg("this machine does not keep up; viewers are sent fewer pictures a second until it does")
	case step == 0:
		w.cfg.Log.Info().Msg("this machine keeps up again; viewers are sent all pictures")
	}
}

// Lacking says what is given up now, the most important last; nothing when all is well.
func (w *Watch) Lacking() []phrase.Phrase { return w.lacking(time.Now()) }

func (w *Watch) lacking(now time.Time) (list []phrase.Phrase) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.step > 0 {
		list = append(list, phrase.OverloadViewers.Of(phrase.Int("rate", int(time.Second/gaps[w.step]))))
	}
	for _, l := range []struct {
		recent *recent
		says   *phrase.Definition
	}{{&w.unrecorded, phrase.OverloadRecording}, {&w.lost, phrase.OverloadCoaching}} {
		if l.recent.n > 0 && now.Sub(l.recent.at) <= toldFor {
			list = append(list, l.says.Of(phrase.Int("n", int(l.recent.n))))
		}
	}
	return list
}
