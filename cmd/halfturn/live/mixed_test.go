package live

import (
	"fmt"
	"math"
	"net"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/probe"
	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A mixed is one of many senders: its own airspeed tells its samples from all others'.
type mixed struct {
	conn     net.Conn
	name     string
	format   string
	airspeed float64
	encoder  encode.Encoder
	buffer   []byte
	sent     uint64
}

// formatNames are what a station says of each format, and whether it brings airspeed.
var formatNames = map[string]string{"labels": "text with labels", "columns": "text columns", "pairs": "text pairs",
	"rows": "DATA rows", "json": "JSON lines",
	"rref": "RREF replies", "rpos": "position replies (RPOS)", "fdm24": "native FDM 24", "binary": "generic binary",
	"mavlink2": "MAVLink 2", "dis": "DIS entity state"}

// timeless are the formats that bring no time of the flight: a second in which this machine was busy is a jump in them.
var timeless = []string{"rpos", "fdm24", "dis"}

func (m *mixed) send(t *testing.T, s *stream.Sample) {
	t.Helper()
	own := *s
	own.Put(stream.Airspeed, m.airspeed)
	emit := func(b []byte) {
		if _, err := m.conn.Write(b); err != nil {
			t.Fatal(err)
		}
		m.sent++
	}
	if p := m.encoder.Preamble(); p != nil && m.sent == 0 {
		emit(p)
	}
	m.buffer = m.encoder.Append(m.buffer[:0], &own)
	emit(m.buffer)
}

// Two, ten and a hundred senders of all formats at once: each is a station of its own, with its own
// format, every one of its datagrams and nobody else's values.
func TestMixedSenders(t *testing.T) {
	formats := []string{}
	for f := range formatNames {
		formats = append(formats, f)
	}
	slices.Sort(formats)
	file := filepath.Join(t.TempDir(), "c.toml")
	if err := os.WriteFile(file, []byte("max-stations = 200\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, n := range []int{2, 10, 100} {
		t.Run(fmt.Sprint(n), func(t *testing.T) {
			s := serveLive(t, file, nil)
			pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right"})
			if err != nil {
				t.Fatal(err)
			}
			senders := make([]*mixed, n)
			for i := range senders {
				m := &mixed{format: formats[i%len(formats)], airspeed: 60 + float64(i)}
				if m.encoder, err = encode.New(m.format); err != nil {
					t.Fatal(err)
				}
				if m.conn, err = net.Dial("udp", s.Addresses()[0].String()); err != nil {
					t.Fatal(err)
				}
				defer m.conn.Close()
				m.name = m.conn.LocalAddr().String()
				senders[i] = m
			}
			var sample stream.Sample
			for round := range 40 {
				pilot.Step(1.0/30, &sample)
				for _, m := range senders {
					m.send(t, &sample)
				}
				if round%4 == 3 { // what is under way fits the socket's buffer
					for _, m := range senders {
						s.taken(t, m)
					}
				}
			}
			for _, m := range senders {
				m.check(t, s)
			}
			if got := len(s.listener.Senders()); got != n {
				t.Errorf("%d stations of %d senders", got, n)
			}
		})
	}
}

// taken waits until the station has every datagram of the sender.
func (s *server) taken(t *testing.T, m *mixed) {
	t.Helper()
	cmdtest.Until(t, func() bool {
		p, ok := s.desk.Probe(t.Context(), m.name)
		return ok && p.(probe.Probe).Datagrams >= m.sent
	}, func() string { return fmt.Sprintf("%s did not get all of %d datagrams", m.name, m.sent) })
}

func (m *mixed) check(t *testing.T, s *server) {
	t.Helper()
	v, ok := s.desk.Probe(t.Context(), m.name)
	if !ok {
		t.Fatalf("no station %s", m.name)
	}
	p := v.(probe.Probe)
	jumped := p.Jumps != 0 && !slices.Contains(timeless, m.format)
	if p.Datagrams != m.sent || p.Station.Format != formatNames[m.format] || jumped || p.Samples < 20 {
		t.Errorf("%s %s: %d datagrams of %d, %q, %d samples, %d jumps, dropped %v", m.name, m.format, p.Datagrams,
			m.sent, p.Station.Format, p.Samples, p.Jumps, p.Drops)
	}
	i := slices.IndexFunc(p.Values, func(v probe.Value) bool { return v.Channel == "airspeed" })
	if i >= 0 && math.Abs(p.Values[i].Value-m.airspeed) > 0.06 {
		t.Errorf("%s %s: airspeed %v, sent %v", m.name, m.format, p.Values[i].Value, m.airspeed)
	}
	if lacks := m.format == "rpos" || m.format == "dis"; i < 0 != lacks {
		t.Errorf("%s %s: airspeed there: %v", m.name, m.format, i >= 0)
	}
}
