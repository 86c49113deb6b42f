package soak

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"time"

	"halfturn/cmd/halfturn/demo"
	"halfturn/coach/debrief"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// The stations are machines of their own, so that each keeps its identity through the ports it sends from.

// cleanHost is the address of a clean station's machine.
func cleanHost(number int) net.IP { return net.IPv4(127, 1, byte(number>>8), byte(number)) }

// faultyHost is that of a station with faults.
func faultyHost(number int) net.IP { return net.IPv4(127, 2, byte(number>>8), byte(number)) }

// isFaulty reports whether a station, by its name, is one with faults.
func isFaulty(name string) bool {
	a, _, err := net.SplitHostPort(name)
	return err == nil && len(a) > 6 && a[:6] == "127.2."
}

// A sender sends one flight.
type sender struct {
	*soak
	gate    *gate
	conn    *net.UDPConn
	pilot   *trainer.Pilot
	encoder encode.Encoder
	sample  stream.Sample
	buffer  []byte
	sent    int // datagrams
	spoken  int // of them, when the preamble was sent

	last    time.Time     // when one was sent
	silence time.Duration // the longest between two
}

// name is that of the station.
func (s *sender) name() string { return s.conn.LocalAddr().String() }

// connect sends from another port from here on.
func (s *sender) connect(from net.IP) bool {
	s.close()
	conn, err := net.DialUDP("udp", &net.UDPAddr{IP: from}, s.house.udp())
	if err != nil {
		s.Error(err)
		return false
	}
	s.conn = conn
	return true
}

func (s *sender) close() {
	if s.conn != nil {
		s.conn.Close()
	}
}

// take begins a flight in a format.
func (s *sender) take(f trainer.Flight, format string) bool {
	var err, wrong error
	s.pilot, err = trainer.New(f)
	s.encoder, wrong = encode.New(format)
	if err != nil || wrong != nil {
		s.Errorf("%+v as %s: %v, %v", f, format, err, wrong)
	}
	return err == nil && wrong == nil
}

// encoded flies a step and returns the datagrams of it, valid until the next.
func (s *sender) encoded(seconds float64) (datagrams [][]byte, more bool) {
	more = s.pilot.Step(seconds, &s.sample)
	if p := s.encoder.Preamble(); p != nil && (s.spoken == 0 || s.sent-s.spoken > 300) {
		s.spoken = s.sent + 1
		datagrams = append(datagrams, p)
	}
	if split, ok := s.encoder.(encode.Splitter); ok {
		split.Datagrams(&s.sample, func(b []byte) { datagrams = append(datagrams, slices.Clone(b)) })
		return datagrams, more
	}
	s.buffer = s.encoder.Append(s.buffer[:0], &s.sample)
	return append(datagrams, s.buffer), more
}

// write sends a datagram. Refusals are of a server that has ended, which is noticed elsewhere.
func (s *sender) write(b []byte) {
	if _, err := s.conn.Write(b); err != nil {
		return
	}
	now := time.Now()
	if s.sent++; s.sent > 1 {
		s.silence = max(s.silence, now.Sub(s.last))
	}
	s.last = now
}

// window is the most datagrams of a station that are on their way.
const window = 100

// settle waits until the server has worked off what the station sent: its answer comes after that.
func (s *sender) settle() {
	s.gate.pass(s.Context())
	r, err := client().Get(s.house.pages() + "api/stations/" + s.name() + "/probe")
	if err != nil {
		s.Errorf("%s: %v", s.name(), err)
		return
	}
	r.Body.Close()
}

// clock paces what is sent: it calls step for each step of flight when its time has come, until step returns false or
// the context ends.
func (s *sender) clock(ctx context.Context, step func() bool) {
	every := time.Duration(float64(time.Second) / (s.rate * s.pace))
	ticker := time.NewTicker(max(every, 5*time.Millisecond))
	defer ticker.Stop()
	asked := s.sent
	for began, done := time.Now(), 0; ; {
		select {
		case <-ctx.Done():
			return
		case now := <-ticker.C:
			due := int(now.Sub(began) / every)
			if due-done > window { // the machine was busy: no burst
				began = now.Add(-time.Duration(done+1) * every)
				due = done + 1
			}
			for ; done < due; done++ {
				if !step() {
					return
				}
			}
			if s.sent-asked >= window {
				s.settle()
				asked = s.sent
			}
		}
	}
}

// A clean is a station that flies the same flight again and again, without faults.
type clean struct {
	*soak
	gate   *gate
	number int
	round  int
}

// A flown is a flight of a clean station and what came of it.
type flown struct {
	name    string        // of the station
	session string        // its id
	number  int           // of the station
	sent    int           // datagrams
	silence time.Duration // the longest between two of them
	report  debrief.StationReport
}

// flight is what the station flies: each its own, many with a flaw.
func (c *clean) flight() trainer.Flight {
	flaws := append([]string{""}, trainer.FlawsOf("wing-over")...)
	return trainer.Flight{
		Maneuver:  "wing-over",
		Direction: trainer.Directions()[1+c.number%2],
		Flaw:      flaws[c.number%len(flaws)],
		Airplane:  demo.Airplane,
		Seed:      c.seed + uint64(c.number),
	}
}

// fly flies until the round is over, and finishes the last flight.
func (c *clean) fly(ctx context.Context) {
	for again := true; again && !c.Failed(); again = c.round > 0 && ctx.Err() == nil {
		c.once()
	}
}

// once flies the flight once, as a session of its own.
func (c *clean) once() {
	s := &sender{soak: c.soak, gate: c.gate}
	if !s.connect(cleanHost(c.number)) || !s.take(c.flight(), "json") {
		return
	}
	defer s.close()
	// The folder of a session cannot be made while the data folder is away, nor its grades written.
	c.disk.RLock()
	held, asked := true, 0
	s.clock(c.Context(), func() bool {
		list, more := s.encoded(1 / c.rate)
		for _, b := range list {
			s.write(b)
		}
		if held && s.sent-asked >= window/4 {
			asked = s.sent
			if c.records(s.session()) {
				c.disk.RUnlock()
				held = false
			}
		}
		return more
	})
	if !held {
		c.disk.RLock()
	}
	defer c.disk.RUnlock()
	s.settle()
	id := s.session()
	c.counts.flew(flown{name: s.name(), session: id, number: c.number, sent: s.sent, silence: s.silence})
	c.gone(s.name(), id)
}

// records reports whether the recording of a session has begun.
func (c *clean) records(session string) bool {
	_, err := os.Stat(filepath.Join(c.folder(session), "stream-0001.pcapng"))
	return session != "" && err == nil
}

// session is the id of the station's session.
func (s *sender) session() string {
	for _, st := range s.stations() {
		if st.Name == s.name() {
			return st.Session
		}
	}
	return ""
}

// folder is that of a session.
func (s *soak) folder(session string) string {
	return filepath.Join(s.house.data(), "sessions", session)
}

// gone waits until a station has left, which it does once it has been silent, and its session is kept.
func (c *clean) gone(name, session string) {
	c.until(func() bool {
		r, err := client().Get(c.house.pages() + "api/stations/" + name + "/probe")
		if err != nil {
			return false
		}
		defer r.Body.Close()
		if session != "" {
			_, err = os.Stat(filepath.Join(c.folder(session), "summary.json"))
		}
		return r.StatusCode == http.StatusNotFound && err == nil
	}, func() string { return fmt.Sprintf("session %q of %s, which sends no more, is not kept", session, name) })
}
