package ingest

import (
	"fmt"

	"github.com/prometheus/client_golang/prometheus"
)

// Metrics counts what arrives and what becomes of it. Formats and reasons are short fixed
// words, never anything taken from a datagram.
type Metrics struct {
	datagrams *prometheus.CounterVec
	dropped   *prometheus.CounterVec
	lost      *prometheus.CounterVec // by socket
	stations  prometheus.Gauge
	wait      prometheus.Histogram
	work      prometheus.Histogram

	notAllowed, unasked, tooMany, tooFast, queueFull, fault prometheus.Counter
}

// NewMetrics makes the counters and registers them; with a nil registerer they only count.
func NewMetrics(registerer prometheus.Registerer) (*Metrics, error) {
	m := &Metrics{
		datagrams: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_datagrams_total",
			Help: "Datagrams read, by the format they were recognized as.",
		}, []string{"format"}),
		dropped: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_datagrams_dropped_total",
			Help: "Datagrams that gave no sample, by reason.",
		}, []string{"reason"}),
		lost: prometheus.NewCounterVec(prometheus.CounterOpts{
			Name: "halfturn_socket_dropped_datagrams_total",
			Help: "Datagrams that the system dropped unread, by socket.",
		}, []string{"socket"}),
		stations: prometheus.NewGauge(prometheus.GaugeOpts{
			Name: "halfturn_stations",
			Help: "Senders that are taken now.",
		}),
		wait: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name:    "halfturn_datagram_wait_seconds",
			Help:    "How long a datagram waited for its station; one of 16, and all that came while it worked.",
			Buckets: []float64{0.0001, 0.001, 0.005, 0.02, 0.05, 0.1, 0.25, 1, 4},
		}),
		work: prometheus.NewHistogram(prometheus.HistogramOpts{
			Name:    "halfturn_datagram_work_seconds",
			Help:    "How long a station worked on a datagram; one of 16.",
			Buckets: []float64{0.000002, 0.000005, 0.00001, 0.00002, 0.00005, 0.0001, 0.001, 0.01, 0.1},
		}),
	}
	m.notAllowed = m.Dropped("not-allowed")
	m.unasked = m.Dropped("unasked")
	m.tooFast = m.Dropped("too-fast")
	m.tooMany = m.Dropped("too-many-stations")
	m.queueFull = m.Dropped("queue-full")
	m.fault = m.Dropped("fault")
	if registerer == nil {
		return m, nil
	}
	for _, c := range []prometheus.Collector{m.datagrams, m.dropped, m.lost, m.stations, m.wait, m.work} {
		if err := registerer.Register(c); err != nil {
			return nil, fmt.Errorf("cannot register the datagram metrics: %w", err)
		}
	}
	return m, nil
}

// Datagrams returns the counter of one format, to be kept by the caller: counting is then a
// single atomic addition. The name "unknown" stands for no format.
func (m *Metrics) Datagrams(format string) prometheus.Counter {
	if format == "" {
		format = "unknown"
	}
	return m.datagrams.WithLabelValues(format)
}

// Dropped returns the counter of one reason, to be kept by the caller like that of Datagrams.
func (m *Metrics) Dropped(reason string) prometheus.Counter {
	return m.dropped.WithLabelValues(reason)
}
