package node

import (
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/stream/phrase"
)

// counts are the metrics of a node.
type counts struct {
	takeovers, fenced, dropped, gaps prometheus.Counter
	waiting, waits, peers, holds     prometheus.GaugeFunc
}

func newCounts(n *Node) counts {
	counter := func(name, help string) prometheus.Counter {
		return prometheus.NewCounter(prometheus.CounterOpts{Name: "halfturn_cluster_" + name + "_total", Help: help})
	}
	gauge := func(name, help string, value func() float64) prometheus.GaugeFunc {
		return prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "halfturn_cluster_" + name, Help: help}, value)
	}
	return counts{
		takeovers: counter("takeovers", "Sessions of other nodes that this node went on with."),
		fenced:    counter("fenced", "Stations that another node took over from this one."),
		dropped:   counter("dropped_batches", "Batches that were not kept because too much waited."),
		gaps:      counter("gaps", "Times that events of another node were missing and were asked for."),
		waiting: gauge("waiting_bytes", "Bytes of the records of stations that wait to be kept.",
			func() float64 { return float64(n.waiting.Load()) }),
		waits: gauge("store_away_seconds", "For how long the store of the cluster has not answered; 0 while it does.",
			func() float64 {
				if since := n.opt.Flow.Away(); !since.IsZero() {
					return time.Since(since).Seconds()
				}
				return 0
			}),
		peers: gauge("nodes", "Other nodes that are heard of.",
			func() float64 { return float64(len(n.peers.Alive())) }),
		holds: gauge("stations", "Stations that are coached on this node.",
			func() float64 { return float64(len(n.held())) }),
	}
}

// Collectors returns the metrics.
func (n *Node) Collectors() []prometheus.Collector {
	c := &n.counts
	return []prometheus.Collector{c.takeovers, c.fenced, c.dropped, c.gaps, c.waiting, c.waits, c.peers, c.holds}
}

// awayAfter is how long the store may not answer before that is told: elections take up to 9 s.
const awayAfter = 10 * time.Second

// Lacking says for the desk and for the state of health that the store does not answer, and what waits.
func (n *Node) Lacking(now time.Time) []phrase.Phrase {
	since := n.opt.Flow.Away()
	if since.IsZero() || now.Sub(since) < awayAfter {
		return nil
	}
	return []phrase.Phrase{phrase.ClusterAway.Of(
		phrase.Int("n", int(now.Sub(since).Seconds())),
		phrase.Number("mb", float64(n.waiting.Load())/1e6, 1, ""),
	)}
}
