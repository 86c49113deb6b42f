package hub

import "github.com/prometheus/client_golang/prometheus"

// counts are the hub's metrics.
type counts struct {
	viewers   prometheus.Gauge
	gap       prometheus.Gauge
	events    prometheus.Counter
	coalesced prometheus.Counter
	overflows prometheus.Counter
	refused   prometheus.Counter
}

func newCounts() counts {
	counter := func(name, help string) prometheus.Counter {
		return prometheus.NewCounter(prometheus.CounterOpts{Namespace: "halfturn", Name: name, Help: help})
	}
	c := counts{
		viewers: prometheus.NewGauge(prometheus.GaugeOpts{
			Namespace: "halfturn", Name: "viewers", Help: "Live sockets open now.",
		}),
		gap: prometheus.NewGauge(prometheus.GaugeOpts{
			Namespace: "halfturn", Name: "viewer_frame_gap_seconds", Help: "Least time between two frames of a viewer.",
		}),
		events:    counter("events_total", "Events handed to the hub, one for all viewers."),
		coalesced: counter("viewer_frames_coalesced_total", "Frames a viewer was not shown because a newer one came."),
		overflows: counter("viewers_overflowed_total", "Viewers closed because they were too slow for the events."),
		refused:   counter("connections_refused_total", "Connections turned away because too many were open."),
	}
	c.gap.Set(frameGap.Seconds())
	return c
}

func (c *counts) all() []prometheus.Collector {
	return []prometheus.Collector{c.viewers, c.gap, c.events, c.coalesced, c.overflows, c.refused}
}

func (c *counts) describe(ch chan<- *prometheus.Desc) {
	for _, m := range c.all() {
		m.Describe(ch)
	}
}

func (c *counts) collect(ch chan<- prometheus.Metric) {
	for _, m := range c.all() {
		m.Collect(ch)
	}
}

// Describe and Collect make the hub a prometheus.Collector.
func (h *Hub) Describe(ch chan<- *prometheus.Desc) { h.counts.describe(ch) }

// Collect hands out the hub's counters.
func (h *Hub) Collect(ch chan<- prometheus.Metric) {
	h.mu.Lock()
	n := len(h.viewers)
	h.mu.Unlock()
	h.counts.viewers.Set(float64(n))
	h.counts.collect(ch)
}
