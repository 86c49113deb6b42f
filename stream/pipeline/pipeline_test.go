package pipeline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/streamtest"
)

// From the wire to samples on recorded streams of two simulators.
func TestFeedRecorded(t *testing.T) {
	tests := []struct {
		file           string
		samples, jumps uint64
		drops, reason  string
	}{
		{"wing-over", 600, 0, "[]", ""},
		{"reset", 157, 1, "[{late 2}]", "clock went back"},
		{"held", 160, 0, "[]", ""},
	}
	for _, test := range tests {
		t.Run(test.file, func(t *testing.T) {
			s := New(Options{})
			reason, last := "", stream.Sample{}
			all := streamtest.Datagrams(t, test.file)
			for i, d := range all {
				sample, result := s.Feed(d.Payload, d.Seconds())
				if (sample != nil) != (result.Outcome == Accepted || result.Outcome == Jumped) {
					t.Fatalf("datagram %d: sample %v, result %+v", i, sample != nil, result)
				}
				if result.Outcome == Jumped {
					reason = result.Reason.String()
				}
				if sample != nil {
					last = *sample
				}
			}
			got := s.Stats()
			if got.Datagrams != uint64(len(all)) || got.Samples != test.samples || got.Jumps != test.jumps ||
				got.Paused != 0 ||
				fmt.Sprint(got.Drops) != test.drops || reason != test.reason || len(got.Bad) != 0 {
				t.Errorf("stats %+v, reason %q", got, reason)
			}
			end := all[len(all)-1]
			fields := strings.Split(strings.TrimSpace(string(end.Payload)), ",")
			for c, column := range map[stream.Channel]int{stream.Time: 0, stream.Airspeed: 5, stream.Bank: 10,
				stream.Heading: 11} {
				want := strings.TrimSpace(fields[column])
				if text := fmt.Sprint(last.Value(c)); text != want {
					t.Errorf("%v: %s; must be %s", c, text, want)
				}
			}
			if !s.BySimulator() || s.Link(end.Seconds()) != LinkLive || s.LastReceived() != end.Seconds() ||
				s.Format() == "" {
				t.Errorf("by simulator %v, link %q, format %q", s.BySimulator(), s.Link(end.Seconds()), s.Format())
			}
			if !s.Sent().Has(stream.Bank) || s.Derived()&s.Sent() != 0 || !s.Derived().Has(stream.Ball) {
				t.Errorf("sent %v, derived %v", s.Sent().Names(), s.Derived().Names())
			}
		})
	}
}

// line is a datagram of name=value pairs.
func line(now, bank float64, more string) []byte {
	return fmt.Appendf(nil, "t=%.3f;hdg_true=90;pitch=1;roll=%.3f;cas_kt=120;alt_ft=5000%s\n", now, bank, more)
}

func TestFeedDrops(t *testing.T) {
	s := New(Options{})
	now := 1000.0
	feed := func(b []byte, dt float64) Result {
		now += dt
		sample, result := s.Feed(b, now)
		if (sample == nil) != (result.Outcome == Nothing || result.Outcome == Paused) {
			t.Errorf("%q: sample %v with %+v", b, sample, result)
		}
		return result
	}
	for i := range 100 {
		if r := feed(line(10+float64(i)/50, 1, ""), 0.02); says(r) != says(Result{Outcome: Accepted}) {
			t.Fatalf("sample %d: %+v", i, r)
		}
	}
	if r := feed(line(11.98, 1, ""), 0.02); says(r) != says(Result{Drop: DropDuplicate}) {
		t.Errorf("again: %+v", r)
	}
	if r := feed(line(11.5, 1, ""), 0); says(r) != says(Result{Drop: DropLate}) {
		t.Errorf("late: %+v", r)
	}
	if r := feed(nil, 0); r.Outcome != Nothing || r.Drop == "" {
		t.Errorf("empty: %+v", r)
	}
	if r := feed([]byte("\x00\x01\x02\x03 junk \xff"), 0); r.Outcome != Nothing || r.Drop == "" {
		t.Errorf("junk: %+v", r)
	}
	if r := feed(line(11.98, 1, ""), 0.6); says(r) != says(Result{Outcome: Paused}) || s.Link(now) != LinkPaused {
		t.Errorf("paused: %+v, link %q", r, s.Link(now))
	}
	if r := feed(line(12, 400, ""), 0.02); r.Outcome != Accepted || s.Link(now) != LinkLive {
		t.Errorf("bank out of range: %+v, link %q", r, s.Link(now))
	}
	jumped := Result{Outcome: Jumped, Reason: phrase.Gap.Of(phrase.Number("gap", 8, 1, "s"))}
	if r := feed(line(20, 1, ""), 8); says(r) != says(jumped) {
		t.Errorf("gap: %+v", r)
	}
	stats := s.Stats()
	if stats.Datagrams != 107 || stats.Samples != 102 || stats.Jumps != 1 || stats.Paused != 1 ||
		len(stats.Drops) != 4 {
		t.Errorf("stats %+v", stats)
	}
	if len(stats.Bad) != 1 || stats.Bad[0] != (Bad{stream.Bank, 1}) {
		t.Errorf("out of range: %v", stats.Bad)
	}
	if s.Link(now+2.1) != LinkSilent || New(Options{}).Link(now) != LinkNone {
		t.Errorf("link %q after 2.1 s", s.Link(now+2.1))
	}
}

// Junk of any kind leaves counters of fixed size, and no allocation behind.
// says makes results comparable: by what is said.
func says(r Result) string { return fmt.Sprintf("%+v", r) }

func TestDropReasons(t *testing.T) {
	var c counts
	for i := range 1000 {
		c.drop(fmt.Sprint("reason ", i%40))
	}
	s := Pipeline{stats: c}
	total := uint64(0)
	for _, d := range s.Stats().Drops {
		total += d.Count
	}
	if got := s.Stats().Drops; total != 1000 || got[len(got)-1].Reason != "other" {
		t.Errorf("%d counted: %v", total, got)
	}
}

func TestRate(t *testing.T) {
	for _, hertz := range []float64{1, 5, 30, 60} {
		var m meter
		now := 1.7e9
		for range int(10 * hertz) {
			now += 1 / hertz
			m.add(now)
		}
		if got := m.at(now); math.Abs(got-hertz) > 0.02*hertz {
			t.Errorf("%v a second measured as %.2f", hertz, got)
		}
		if got := m.at(now + 20); got > 0.01*hertz {
			t.Errorf("%v a second: still %.2f after 20 s of nothing", hertz, got)
		}
	}
	var m meter
	now := 0.0
	for range 30 { // half a second after the start it is right already
		now += 1.0 / 60
		m.add(now)
	}
	if got := m.at(now); math.Abs(got-60) > 2 {
		t.Errorf("60 a second measured as %.2f after half a second", got)
	}
	now += 20
	for range 30 {
		now += 1.0 / 60
		m.add(now)
	}
	if got := m.at(now); math.Abs(got-60) > 4 {
		t.Errorf("60 a second measured as %.2f half a second after a pause", got)
	}
	var burst meter
	for _, at := range []float64{0, 20e-6, 40e-6} { // what waited in the socket comes at once
		burst.add(at)
	}
	if got := burst.at(60e-6); got > 60 {
		t.Errorf("a burst of three measured as %.2f a second", got)
	}
	if got := new(meter).at(5); got != 0 {
		t.Errorf("rate of nothing: %v", got)
	}
}

// A channel that is no longer sent goes away, one sent now and then stays.
func TestChannelsSent(t *testing.T) {
	s := New(Options{})
	for i := range 600 {
		more := ""
		if i < 300 {
			more = ";rpm=2400"
		}
		s.Feed(line(float64(i)/50, 1, more), float64(i)/50)
		if has := s.Sent().Has(stream.RPM); i < 300 && !has || i > 520 && has {
			t.Fatalf("sample %d: rpm sent: %v", i, has)
		}
	}
}

func TestFeedAllocates(t *testing.T) {
	for _, name := range []string{"wing-over", "lazy-eight"} {
		all := streamtest.Datagrams(t, name)
		s := New(Options{})
		for _, d := range all {
			s.Feed(d.Payload, d.Seconds())
		}
		i := 0
		if n := testing.AllocsPerRun(len(all)-1, func() {
			s.Feed(all[i].Payload, all[i].Seconds())
			i++
		}); n != 0 {
			t.Errorf("%s: %v allocations a datagram", name, n)
		}
	}
}

// Whatever is sent, the books balance.
func FuzzFeed(f *testing.F) {
	for _, d := range streamtest.Datagrams(f, "wing-over")[:3] {
		f.Add(d.Payload, uint8(16))
	}
	f.Add(line(1, 2, ""), uint8(16))
	f.Add([]byte("DATA*"), uint8(0))
	f.Add([]byte{}, uint8(255))
	f.Fuzz(func(t *testing.T, b []byte, step uint8) {
		s := New(Options{})
		now := 1.7e9
		var nothing, accepted, jumped, paused, faults uint64
		for i := range 6 {
			now += float64(step) / 100
			sample, r := s.Feed(b[:len(b)-len(b)*i/20], now)
			switch r.Outcome {
			case Nothing:
				nothing++
			case Accepted:
				accepted++
			case Jumped:
				jumped++
			case Paused:
				paused++
			}
			if r.Drop != "" {
				faults++
			}
			if sample != nil && !sample.Has.Has(stream.Time) {
				t.Fatal("a sample without time")
			}
		}
		stats := s.Stats()
		dropped := uint64(0)
		for _, d := range stats.Drops {
			dropped += d.Count
		}
		if stats.Datagrams != 6 || stats.Samples != accepted+jumped || stats.Jumps != jumped ||
			stats.Paused != paused ||
			dropped != faults || nothing+accepted+jumped+paused != 6 {
			t.Fatalf("stats %+v", stats)
		}
	})
}

// go test -bench Feed -benchmem ./stream/pipeline
func BenchmarkFeed(b *testing.B) {
	for _, name := range []string{"wing-over", "lazy-eight"} {
		b.Run(name, func(b *testing.B) {
			all := streamtest.Datagrams(b, name)
			s := New(Options{})
			b.ReportAllocs()
			b.ResetTimer()
			for i := range b.N {
				d := &all[i%len(all)]
				s.Feed(d.Payload, d.Seconds())
			}
		})
	}
}
