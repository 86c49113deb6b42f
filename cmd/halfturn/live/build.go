package live

import (
	"runtime"

	"github.com/prometheus/client_golang/prometheus"
)

// buildInfo is a metric that is always 1; its labels name the version of the program and of Go.
func buildInfo(version string) prometheus.Collector {
	return prometheus.NewGaugeFunc(prometheus.GaugeOpts{
		Name:        "halfturn_build_info",
		Help:        "Always 1; the labels name the version of the program and of Go.",
		ConstLabels: prometheus.Labels{"version": version, "goversion": runtime.Version()},
	}, func() float64 { return 1 })
}
