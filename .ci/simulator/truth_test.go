//go:build simulator

// Package simulator flies a real home simulator by script, with a live Halfturn on its
// stream, and checks what Halfturn shows against what the flight dynamics say of themselves.
// It runs by "make test-simulator" alone.
package simulator

import (
	"fmt"
	"math"
	"net"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"halfturn/stream"
)

// A moment is one record of the truth, in the units of its protocol file.
type moment struct {
	time, heading, pitch, bank, airspeed, altitude float64
	trueAirspeed, climb, p, q, r, ball             float64 // kt, ft/min, °/s, 10 per g and left positive
}

// value is what Halfturn's channel of that name should say.
func (m *moment) value(channel string) float64 {
	switch channel {
	case "heading":
		return m.heading
	case "pitch":
		return m.pitch
	case "bank":
		return m.bank
	case "airspeed":
		return m.airspeed
	case "altitude":
		return m.altitude
	}
	return math.NaN()
}

// readMoment reads a record of name=value pairs.
func readMoment(line string) (moment, error) {
	var m moment
	into := map[string]*float64{
		"t":        &m.time,
		"heading":  &m.heading,
		"pitch":    &m.pitch,
		"bank":     &m.bank,
		"airspeed": &m.airspeed,
		"altitude": &m.altitude,
		"tas":      &m.trueAirspeed,
		"climb":    &m.climb,
		"p":        &m.p,
		"q":        &m.q,
		"r":        &m.r,
		"ball":     &m.ball,
	}
	for pair := range strings.SplitSeq(strings.TrimSpace(line), ";") {
		name, text, _ := strings.Cut(pair, "=")
		to := into[name]
		if to == nil {
			return m, fmt.Errorf("the truth has an unknown %q", pair)
		}
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return m, fmt.Errorf("the truth's %s: %w", name, err)
		}
		*to = v
		delete(into, name)
	}
	if len(into) > 0 {
		return m, fmt.Errorf("the truth lacks %d values: %q", len(into), line)
	}
	return m, nil
}

// A truth is all moments so far, in order of time.
type truth struct {
	conn   net.PacketConn
	newest chan moment // the latest moment that nobody took yet
	mu     sync.Mutex
	all    []moment
	err    error
}

// listenTruth takes the truth on a port of the system's choice until the test is over.
func listenTruth(t *testing.T) *truth {
	t.Helper()
	conn, err := net.ListenPacket("udp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := &truth{conn: conn, newest: make(chan moment, 1)}
	done := make(chan struct{})
	go func() { defer close(done); s.read() }()
	t.Cleanup(func() { conn.Close(); <-done })
	return s
}

func (s *truth) port() int { return s.conn.LocalAddr().(*net.UDPAddr).Port }

func (s *truth) read() {
	defer close(s.newest)
	b := make([]byte, 2048)
	for {
		n, _, err := s.conn.ReadFrom(b)
		if err != nil {
			return
		}
		m, err := readMoment(string(b[:n]))
		s.mu.Lock()
		switch {
		case err != nil:
			s.err = err
		case m.airspeed < 20 || len(s.all) > 0 && m.time <= s.all[len(s.all)-1].time:
			s.mu.Unlock() // the simulator is still starting, or stands still
			continue
		default:
			s.all = append(s.all, m)
		}
		s.mu.Unlock()
		if err != nil {
			return
		}
		select {
		case <-s.newest:
		default:
		}
		s.newest <- m
	}
}

// moments returns all there were so far.
func (s *truth) moments() []moment {
	s.mu.Lock()
	defer s.mu.Unlock()
	return slices.Clone(s.all)
}

// longestHitch is the longest step of the simulator's clock, s, over which the truth is still
// interpolated: on a busy machine it stands still, and then moves on by up to one second.
const longestHitch = 1.1

// at interpolates a channel at a time; ok is false where no moments stand close on both sides.
func at(all []moment, channel string, time float64) (v float64, ok bool) {
	i, exact := slices.BinarySearchFunc(all, time, func(m moment, t float64) int {
		switch {
		case m.time < t:
			return -1
		case m.time > t:
			return 1
		}
		return 0
	})
	if exact {
		return all[i].value(channel), true
	}
	if i == 0 || i == len(all) || all[i].time-all[i-1].time > longestHitch {
		return 0, false
	}
	a, b := &all[i-1], &all[i]
	return between(channel, a.value(channel), b.value(channel), (time-a.time)/(b.time-a.time)), true
}

func between(channel string, a, b, share float64) float64 {
	if channel == "heading" {
		return stream.Wrap360(a + share*stream.Wrap180(b-a))
	}
	return a + share*(b-a)
}

// meanHeading is the mean heading over two seconds up to a time.
func meanHeading(all []moment, until float64) float64 {
	var first, sum, n float64
	for i := range all {
		m := &all[i]
		if m.time <= until-2 || m.time > until {
			continue
		}
		if n == 0 {
			first = m.heading
		}
		sum += stream.Wrap180(m.heading - first)
		n++
	}
	return stream.Wrap360(first + sum/n)
}
