package desk

import (
	"github.com/prometheus/client_golang/prometheus"

	"halfturn/stream/record"
)

// Recorded sums up what was recorded since the desk was made.
func (d *Desk) Recorded() record.Sum { return d.practices.Recorded.Sum() }

// recordedMetrics are the metrics of all recordings.
func recordedMetrics(sum func() record.Sum) []prometheus.Collector {
	return []prometheus.Collector{
		prometheus.NewGaugeFunc(prometheus.GaugeOpts{
			Name: "halfturn_recording_waiting_datagrams",
			Help: "Datagrams that wait to be written to the disk.",
		}, func() float64 { return float64(sum().Waiting) }),
		prometheus.NewCounterFunc(prometheus.CounterOpts{
			Name: "halfturn_recording_written_datagrams_total",
			Help: "Datagrams that were recorded and are on the disk.",
		}, func() float64 { return float64(sum().Written) }),
		prometheus.NewCounterFunc(prometheus.CounterOpts{
			Name: "halfturn_recording_lost_datagrams_total",
			Help: "Datagrams that were coached by and could not be recorded.",
		}, func() float64 { return float64(sum().Lost) }),
	}
}
