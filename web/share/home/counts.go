package home

import "github.com/prometheus/client_golang/prometheus"

// counts are the metrics of a home.
type counts struct {
	up, behind, waiting prometheus.Gauge
	links, commands     prometheus.Counter
	sent                *prometheus.CounterVec
	dropped             prometheus.CounterFunc
}

// The label of bytes sent, and its values.
const (
	laneName      = "lane"
	recordingLane = "recording"
	liveLane      = "live"
)

// newCounts makes the metrics. Dropped says how many datagrams the live lane has left out.
func newCounts(dropped func() float64) counts {
	gauge := func(name, help string) prometheus.Gauge {
		return prometheus.NewGauge(prometheus.GaugeOpts{Name: "halfturn_share_" + name, Help: help})
	}
	counter := func(name, help string) prometheus.Counter {
		return prometheus.NewCounter(prometheus.CounterOpts{Name: "halfturn_share_" + name + "_total", Help: help})
	}
	c := counts{
		up:       gauge("up", "1 while there is a link to the school."),
		behind:   gauge("behind_seconds", "Seconds of which the school does not have the recording."),
		waiting:  gauge("waiting_bytes", "Bytes of recordings that the school does not have."),
		links:    counter("links", "Links made to the school."),
		commands: counter("commands", "Commands that came from the school."),
		dropped: prometheus.NewCounterFunc(prometheus.CounterOpts{
			Name: "halfturn_share_dropped_total",
			Help: "Datagrams that the live lane left out; the recording has them.",
		}, dropped),
		sent: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_share_sent_bytes_total",
			Help: "Bytes sent to the school before compression, by lane.",
		}, []string{laneName}),
	}
	for _, lane := range []string{recordingLane, liveLane} {
		c.sent.WithLabelValues(lane)
	}
	return c
}

func (c *counts) collectors() []prometheus.Collector {
	return []prometheus.Collector{c.up, c.behind, c.waiting, c.links, c.commands, c.dropped, c.sent}
}
