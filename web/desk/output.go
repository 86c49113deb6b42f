package desk

import (
	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/message"
	"halfturn/coach/session"
)

// An outlet is the way out of one session. It is shut while a session is fed what was told before, and counts only
// what is flown now.
type outlet struct {
	session.Output
	counts *counts
	past   bool // what is told now was flown before this run of the server
	muted  bool // what is told now was told already
}

// Watched tells whether anybody looks at a station.
func (o *outlet) Watched(station string) bool { return !o.muted && o.Output.Watched(station) }

// Event passes a message on. That a session began is told even while it is muted: it begins with what was told before.
func (o *outlet) Event(m message.Message) {
	if _, begins := m.Body.(*message.Session); o.muted && !begins {
		return
	}
	if !o.past {
		o.counts.count(m.Body)
	}
	o.Output.Event(m)
}

// counts are the metrics of what is flown and said.
type counts struct {
	legs  *prometheus.CounterVec
	calls *prometheus.CounterVec
}

func newCounts() counts {
	return counts{
		legs: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_legs_total",
			Help: "Legs flown, by maneuver, outcome and verdict.",
		}, []string{"maneuver", "outcome", "verdict"}),
		calls: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_callouts_total",
			Help: "Callouts given, by kind.",
		}, []string{"kind"}),
	}
}

func (c *counts) collectors() []prometheus.Collector { return []prometheus.Collector{c.legs, c.calls} }

// count counts what a message says.
func (c *counts) count(body message.Body) {
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
