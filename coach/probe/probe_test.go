package probe_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/probe"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// probed flies the built-in aircraft for some seconds in a format and returns the probe.
func probed(t *testing.T, format string, rate, seconds float64) probe.Probe {
	t.Helper()
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right"})
	if err != nil {
		t.Fatal(err)
	}
	e, err := encode.New(format)
	if err != nil {
		t.Fatal(err)
	}
	s := session.New(session.Options{
		Name:    "Seat 3",
		Address: "192.168.1.20:49001",
		Coach:   probeOptions(t, "wing-over"),
	})
	var sample stream.Sample
	var b []byte
	now := 1000.0
	if p := e.Preamble(); p != nil {
		s.Feed(p, now)
	}
	for range int(rate * seconds) {
		now += 1 / rate
		pilot.Step(1/rate, &sample)
		b = e.Append(b[:0], &sample)
		s.Feed(b, now)
	}
	return s.Probe(now + 0.25)
}

// For each format: how sure it is, its rate, its clock, and for each channel that it lacks the setting that brings it.
func TestProbe(t *testing.T) {
	for _, c := range []struct {
		format, name, clock string
		missing             []string
		todo                string // in the list of what to do
	}{
		{"labels", "text with labels", "simulator", nil, ""},
		{"pairs", "text pairs", "simulator", nil, ""},
		{"rows", "DATA rows", "simulator", nil, ""},
		{"json", "JSON lines", "simulator", nil, ""},
		{"rref", "RREF replies", "simulator", nil, ""},
		{
			"rpos", "position replies (RPOS)", "receipt",
			[]string{"airspeed", "ball", "normal-load", "throttle"},
			"Start Halfturn with --subscribe",
		},
		{
			"dis", "DIS entity state", "receipt",
			[]string{"airspeed", "height", "ball", "normal-load", "throttle"},
			"use a bridge that sends JSON lines",
		},
	} {
		p := probed(t, c.format, 60, 5)
		if p.Format != c.name || p.Sure != "certain" || p.Read < 0.99 || p.Clock != c.clock || p.Link != "live" {
			t.Errorf("%s: %q %s %.3f by %s, %s", c.format, p.Format, p.Sure, p.Read, p.Clock, p.Link)
		}
		if math.Abs(p.Rate-60) > 8 || p.Jitter > 0.1 || p.Age != 0.25 || p.Samples < 290 {
			t.Errorf("%s: rate %v, jitter %v ms, age %v, %d samples", c.format, p.Rate, p.Jitter, p.Age, p.Samples)
		}
		var missing []string
		for _, n := range p.Needs {
			if n.State == "missing" {
				missing = append(missing, n.Channel)
				if n.Setting.IsZero() || len(n.For) == 0 {
					t.Errorf("%s: %s is missing, for %v, setting %q", c.format, n.Channel, n.For, n.Setting.String())
				}
			}
		}
		if !slices.Equal(missing, c.missing) {
			t.Errorf("%s: missing %v; must be %v", c.format, missing, c.missing)
		}
		if all := english(p.Todo); !strings.Contains(all, c.todo) || (c.todo == "") != (all == "") {
			t.Errorf("%s: to do %q; must hold %q", c.format, all, c.todo)
		}
		i := slices.IndexFunc(p.Values, func(v probe.Value) bool { return v.Channel == "heading" })
		if i < 0 || p.Values[i].Age != 0.25 || p.Values[i].Unit != "°" || p.Values[i].Derived {
			t.Errorf("%s: values %+v", c.format, p.Values)
		}
	}
}

// english is a list of phrases as lines.
func english(list []phrase.Phrase) string {
	lines := make([]string, len(list))
	for i, p := range list {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// One line for all channels that one change brings.
func TestProbeGroupsSettings(t *testing.T) {
	p := probed(t, "rpos", 60, 2)
	const want = "For airspeed, ball, load factor and throttle: these replies"
	if len(p.Todo) != 1 || !strings.HasPrefix(p.Todo[0].String(), want) {
		t.Errorf("to do %q", p.Todo)
	}
}

// For a slow stream the list says where to set its rate.
func TestProbeSlow(t *testing.T) {
	p := probed(t, "labels", 5, 10)
	const want = "Raise the rate to 30 or 60 a second: the attribute rate of <output> in the simulator's output file."
	if len(p.Todo) != 1 || p.Todo[0].String() != want {
		t.Errorf("to do %q", p.Todo)
	}
}

// Datagrams that cannot be read, silence, and no datagram at all.
func TestProbeJunk(t *testing.T) {
	s := session.New(session.Options{Name: "x", Address: "x", Coach: probeOptions(t, "wing-over")})
	if p := s.Probe(5); p.Sure != "not recognized" || p.Datagrams != 0 || len(p.Values) != 0 || len(p.Todo) != 0 {
		t.Errorf("before anything came: %+v", p)
	}
	for i := range 20 {
		s.Feed([]byte("\xff\xfe\xfd junk"), float64(i))
	}
	p := s.Probe(19.1)
	if p.Sure != "not recognized" || p.Read != 0 || p.Format != "" || len(p.Drops) == 0 ||
		len(p.Todo) != 1 || p.Todo[0].String() != p.Advice.String() {
		t.Errorf("%+v", p)
	}
	if p = s.Probe(30); p.Link != "silent" || !strings.Contains(english(p.Todo), "Nothing comes any more") {
		t.Errorf("after a silence: %s, %q", p.Link, p.Todo)
	}
}

// Each format that is read has a setting for each channel that it lacks.
func TestSettings(t *testing.T) {
	for _, format := range []string{
		"text with labels", "text columns", "text pairs", "DATA rows", "JSON lines", "RREF replies",
		"position replies (RPOS)", "dataref output (DREF)", "XGPS/XATT text", "GDL 90", "native FDM 24", "MAVLink 2",
		"DIS entity state", "generic binary", "text lines, a value each",
	} {
		for c := range stream.NumChannels {
			if s := probe.Setting(format, c).String(); !strings.HasSuffix(s, ".") || strings.Contains(s, "%!") {
				t.Errorf("%s, %v: %q", format, c, s)
			}
		}
	}
	for _, c := range []struct {
		format  string
		channel stream.Channel
		want    string
	}{
		{"DATA rows", stream.Airspeed, "row 3 (speeds)"},
		{"text with labels", stream.Airspeed, "<property> velocities/vc-kts </property>"},
		{"JSON lines", stream.Altitude, `the member "altitude" (ft)`},
		{"dataref output (DREF)", stream.Airspeed, "sim/flightmodel/position/indicated_airspeed"},
	} {
		if got := probe.Setting(c.format, c.channel).String(); !strings.Contains(got, c.want) {
			t.Errorf("%s, %v: %q; must hold %s", c.format, c.channel, got, c.want)
		}
	}
}

// probeOptions are those of a shipped card, and of no aircraft.
func probeOptions(t *testing.T, card string) judge.Options {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	k, err := lib.Card(card)
	if err != nil {
		t.Fatal(err)
	}
	none, err := lib.AircraftNamed("")
	if err != nil {
		t.Fatal(err)
	}
	return judge.Options{Plan: plan.New(k, none)}
}
