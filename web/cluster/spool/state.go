package spool

import (
	"errors"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/archive/depot"
	"halfturn/stream/phrase"
)

// A State says what waits.
type State struct {
	Bytes    int64 // of recordings that the depot lacks
	Sessions int   // of which something waits
	Since    time.Time
	Away     time.Time // since when the depot does not answer; zero while it does
	Why      error     // what it said first
	Stored   int64     // bytes, since the start
	Refused  int64     // sessions that other nodes have taken over
}

// State returns what waits now. It answers from memory.
func (s *Spool) State() State {
	s.mu.Lock()
	defer s.mu.Unlock()
	st := State{Away: s.away, Why: s.why, Stored: s.stored, Refused: s.refused}
	for _, j := range s.jobs {
		if j.elsewhere || j.idle() && !j.busy {
			continue
		}
		st.Sessions++
		st.Bytes += j.bytes()
		if st.Since.IsZero() || j.since.Before(st.Since) {
			st.Since = j.since
		}
	}
	return st
}

// Lacking says in words for people what waits while the depot does not answer; nothing while it does.
func (s *Spool) Lacking() []phrase.Phrase { return s.lacking(time.Now()) }

func (s *Spool) lacking(now time.Time) []phrase.Phrase {
	st := s.State()
	if st.Away.IsZero() || st.Sessions == 0 {
		return nil
	}
	says := phrase.SpoolAway
	if errors.Is(st.Why, depot.ErrDenied) {
		says = phrase.SpoolDenied
	}
	return []phrase.Phrase{says.Of(
		phrase.Name("store", s.book.Depot().String()),
		phrase.Number("bytes", float64(st.Bytes)/1e6, 1, "MB"),
		phrase.Number("time", max(now.Sub(st.Since), 0).Minutes(), 0, "min"),
	)}
}

// Collectors returns the metrics.
func (s *Spool) Collectors() []prometheus.Collector {
	gauge := func(name, help string, value func(State) float64) prometheus.Collector {
		return prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "halfturn_depot_" + name, Help: help},
			func() float64 { return value(s.State()) })
	}
	counter := func(name, help string, value func(State) float64) prometheus.Collector {
		return prometheus.NewCounterFunc(prometheus.CounterOpts{Name: "halfturn_depot_" + name, Help: help},
			func() float64 { return value(s.State()) })
	}
	return []prometheus.Collector{
		gauge("waiting_bytes", "Bytes of recordings on this disk that the depot lacks.",
			func(st State) float64 { return float64(st.Bytes) }),
		gauge("waiting_sessions", "Sessions of which the depot lacks something.",
			func(st State) float64 { return float64(st.Sessions) }),
		gauge("away_seconds", "For how long the depot has not answered; 0 while it does.", func(st State) float64 {
			if st.Away.IsZero() {
				return 0
			}
			return time.Since(st.Away).Seconds()
		}),
		counter("stored_bytes_total", "Bytes of recordings that were stored in the depot.",
			func(st State) float64 { return float64(st.Stored) }),
		counter("refused_sessions_total", "Sessions that were not stored because another node had taken them over.",
			func(st State) float64 { return float64(st.Refused) }),
	}
}
