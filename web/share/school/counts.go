package school

import "github.com/prometheus/client_golang/prometheus"

// counts are the metrics of a school.
type counts struct {
	up                             prometheus.Gauge
	links, refused, records, bytes prometheus.Counter
}

func newCounts() counts {
	counter := func(name, help string) prometheus.Counter {
		return prometheus.NewCounter(prometheus.CounterOpts{Name: "halfturn_homes_" + name + "_total", Help: help})
	}
	return counts{
		up: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "halfturn_homes_up",
			Help: "Stations at home that have a link here.",
		}),
		links:   counter("links", "Links that stations at home made."),
		refused: counter("refused", "Keys brought that are not known or were revoked."),
		records: counter("records", "Records received on live lanes."),
		bytes:   counter("recorded_bytes", "Bytes of recordings received."),
	}
}

func (c *counts) collectors() []prometheus.Collector {
	return []prometheus.Collector{c.up, c.links, c.refused, c.records, c.bytes}
}
