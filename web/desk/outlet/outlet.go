// Package outlet stands between the sessions of a station and whoever listens: it counts what is flown now, and holds
// back what was published before.
package outlet

import (
	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/message"
	"halfturn/coach/session"
)

// An Outlet passes on the output of one session. It is muted while a session is fed again what was published before,
// and counts only what is flown now.
type Outlet struct {
	session.Output
	Counts *Counts
	Past   bool // the messages are about flights before this run of the server
	Muted  bool // the messages were published already

	cues cues // of the leg being flown
}

// Watched tells whether anybody watches a station.
func (o *Outlet) Watched(station string) bool { return !o.Muted && o.Output.Watched(station) }

// Event passes a message on. A muted outlet still announces the beginning of a session, which is new.
func (o *Outlet) Event(m message.Message) {
	if _, begins := m.Body.(*message.Session); o.Muted && !begins {
		return
	}
	if !o.Past {
		o.Counts.count(m.Body)
		o.cues.time(m.Body, o.Counts.cueError.Observe)
	}
	o.Output.Event(m)
}

// Counts are the metrics of legs and callouts.
type Counts struct {
	legs     *prometheus.CounterVec
	calls    *prometheus.CounterVec
	cueError prometheus.Histogram
}

// NewCounts makes the metrics; Collectors lists them for a registry.
func NewCounts() *Counts {
	return &Counts{
		legs: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_legs_total",
			Help: "Legs flown, by maneuver, outcome and verdict.",
		}, []string{"maneuver", "outcome", "verdict"}),
		calls: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_callouts_total",
			Help: "Callouts given, by kind.",
		}, []string{"kind"}),
		cueError: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name:    "halfturn_cue_error_seconds",
			Help:    "How far off the time was at which a cue, when it was sent, expected its checkpoint.",
			Buckets: []float64{0.1, 0.2, 0.3, 0.4, 0.6, 0.8, 1.2, 2},
		}),
	}
}

// Collectors returns the metrics.
func (c *Counts) Collectors() []prometheus.Collector {
	return []prometheus.Collector{c.legs, c.calls, c.cueError}
}

// count counts the legs or the callout in a message.
func (c *Counts) count(body message.Body) {
	switch b := body.(type) {
	case message.Callout:
		c.calls.WithLabelValues(b.Kind).Inc()
	case message.Series:
		for i := range b.Legs {
			l := &b.Legs[i]
			c.legs.WithLabelValues(b.Maneuver, l.Outcome, l.Verdict).Inc()
		}
	}
}
