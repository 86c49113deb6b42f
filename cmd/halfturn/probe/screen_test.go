package probe

import (
	"bytes"
	"net/netip"
	"strings"
	"testing"

	"halfturn/coach/layout/layouttest"
	"halfturn/coach/message"
	"halfturn/coach/probe"
	"halfturn/stream/phrase"
	"halfturn/web"
)

// The advice names what is listened on, and advises nothing that is done already.
func TestNothingCame(t *testing.T) {
	at := func(list ...string) (all []netip.AddrPort) {
		for _, a := range list {
			all = append(all, netip.MustParseAddrPort(a))
		}
		return all
	}
	for _, c := range []struct {
		where     []netip.AddrPort
		asked     bool
		has, lack []string
	}{
		{at("127.0.0.1:7998"), false, []string{"send to 127.0.0.1:7998?", "--udp :7998", "port 7998;",
			"--subscribe auto"}, []string{"7181"}},
		{at("127.0.0.1:7998", "[::1]:7999"), false,
			[]string{"127.0.0.1:7998 or [::1]:7999?", "--udp :7998 --udp :7999", "port 7998 or 7999;"},
			[]string{"7181"}},
		{at("0.0.0.0:7998", "[::]:7998"), true, []string{"machine, let the simulator", "port 7998;",
			"has not answered"}, []string{"7181", "--udp", "--subscribe"}},
	} {
		got := nothingCame(nil, c.where, c.asked)
		for _, w := range c.has {
			if !strings.Contains(got, w) {
				t.Errorf("%v: no %q in %q", c.where, w, got)
			}
		}
		for _, w := range c.lack {
			if strings.Contains(got, w) {
				t.Errorf("%v: %q in %q", c.where, w, got)
			}
		}
	}
}

// On a terminal each picture is drawn over the one before, no line is wider than the window or
// below its end, and at the end the whole stands there.
func TestProbeScreen(t *testing.T) {
	var b bytes.Buffer
	s := NewScreen(Options{Out: &b, Card: "wing-over"})
	s.live, s.size = true, func() (int, int) { return 80, 12 }
	s.Begin([]netip.AddrPort{netip.MustParseAddrPort("127.0.0.1:7181")})
	s.draw(nil)
	if got := b.String(); strings.Contains(got, "\x1b[1A") || !strings.Contains(got, "Nothing has come yet.") {
		t.Errorf("first picture %q", got)
	}
	first := s.drawn
	p := probe.Probe{Station: message.Station{Name: "Seat 3", Address: "192.168.1.20:49001", Link: "live",
		Format: "JSON lines"}, Sure: "certain", Samples: 9, Drops: map[string]uint64{}}
	for _, c := range []string{"heading", "bank", "airspeed", "altitude"} {
		for i := range 8 {
			p.Values = append(p.Values, probe.Value{Channel: c, Title: c, Unit: "°", Value: float64(i) * -100})
		}
	}
	b.Reset()
	s.Note("a note that is much longer than the window is wide, so that it must be broken into lines, which each " +
		"must fit")
	s.draw([]probe.Probe{p})
	got := b.String()
	if !strings.HasPrefix(got, "\x1b["+string(rune('0'+first))+"A\r") || !strings.HasSuffix(got, "\x1b[J") ||
		!strings.Contains(got, "more lines; enlarge the window") {
		t.Errorf("second picture %q", got)
	}
	lines := strings.Split(strings.TrimSuffix(got, "\n\x1b[J"), "\n")
	if len(lines) > 11 || s.drawn != len(lines) {
		t.Errorf("%d lines in a window of 12", len(lines))
	}
	for _, l := range lines {
		l = strings.TrimPrefix(strings.TrimSuffix(l, "\x1b[K"), "\x1b["+string(rune('0'+first))+"A\r")
		if n := len([]rune(l)); n > 79 {
			t.Errorf("%d letters: %q", n, l)
		}
	}
	b.Reset()
	if err := s.End([]probe.Probe{p}); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), "bank"); n != 8 || !strings.Contains(b.String(), "a note that is much longer") {
		t.Errorf("at the end:\n%s", b.String())
	}
}

// TestPositions: levers and controls, which channels carry as a share of their travel, are percent of it.
func TestPositions(t *testing.T) {
	for _, c := range []struct {
		value float64
		words string
	}{{0.61, "61 %"}, {-0.5, "−50 %"}, {1, "100 %"}, {0.07, "7 %"}, {0, "0 %"}} {
		p := probe.Probe{Samples: 1, Values: []probe.Value{{Channel: "throttle", Title: "throttle", Unit: "ratio",
			Value: c.value, Age: 0.1}}}
		var b strings.Builder
		(&table{w: &b, card: "wing-over", columns: 80}).values(&p)
		line := strings.Join(strings.Fields(b.String()), " ")
		if !strings.Contains(line, "throttle "+c.words+" 0.1s") {
			t.Errorf("%g is printed as\n%s", c.value, b.String())
		}
	}
}

// TestResultScreens: what is found fits terminals of 80 and of 120 columns, however much there is to say.
func TestResultScreens(t *testing.T) {
	p := probe.Probe{Station: message.Station{Name: "Seat 3 by the window", Address: "192.168.1.20:49001",
		Format: "text with labels", Link: "live"}, Sure: "certain, by its labels", Samples: 9, Datagrams: 123_456_789,
		Clock: "simulator", Drops: map[string]uint64{}}
	for _, reason := range []string{"malformed", "truncated", "no-channels", "duplicate", "late", "bad-value"} {
		p.Drops[reason] = 123_456
	}
	for _, c := range []string{"heading", "bank", "airspeed", "altitude"} {
		p.Values = append(p.Values, probe.Value{Channel: c, Title: c, Unit: "°", Value: -100})
	}
	p.Signs = phrase.Plain("bank as sent, found from the turn, and pitch as sent, found from the climb; " +
		"both since 12 s")
	for _, code := range phrase.LanguageCodes {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		for _, columns := range layouttest.Widths {
			screen := &layouttest.Terminal{Columns: columns}
			s := NewScreen(Options{
				Out:      screen,
				Err:      screen,
				Card:     "chandelle-traditional",
				Plain:    true,
				Language: in,
			})
			s.Note("a note that is much longer than the window is wide, so that it must be broken into lines that fit")
			s.tell([]probe.Probe{p})
			if err := s.End([]probe.Probe{p}); err != nil {
				t.Fatal(err)
			}
			layouttest.Fits(t, screen.String(), columns)
			if words := in.Text("airspeed"); !strings.Contains(screen.String(), words) {
				t.Errorf("%s: no %q in\n%s", code, words, screen)
			}
		}
	}
}
