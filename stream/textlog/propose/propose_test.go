package propose_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/textlog"
	"halfturn/stream/textlog/propose"
	"halfturn/stream/wire/mapping"
)

func proposed(t *testing.T, log string) string {
	t.Helper()
	plain, err := capture.Unpack(t.Context(), strings.NewReader(log), &capture.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	table, err := textlog.ReadTable(plain)
	if err != nil {
		t.Fatal(err)
	}
	return propose.Map(table, "flight.csv")
}

// What is proposed is a map that loads, and reads the log.
func TestProposed(t *testing.T) {
	const log = "Elapsed (ms);Hdg Mag (deg);Pitch (rad);Roll [rad];IAS (km/h);AltMSL;Oil (psi);G Normal;Throttle %\n" +
		"100;350,5;0,05;-0,7;250,5;1500;60;-1,1;80\n200;351,5;0,06;-0,8;251,5;1510;60;-1,3;81\n"
	text := proposed(t, log)
	m, err := mapping.Load("mine.toml", []byte(text))
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	for c, want := range map[stream.Channel]string{
		stream.Time:       "Elapsed (ms) 0.001 false",
		stream.Heading:    "Hdg Mag (deg) 1 true",
		stream.Pitch:      "Pitch (rad) 57.3 false",
		stream.Bank:       "Roll [rad] 57.3 false",
		stream.Airspeed:   "IAS (km/h) 0.54 false",
		stream.Altitude:   "AltMSL 1 false",
		stream.NormalLoad: "G Normal -1 false",
		stream.Throttle:   "Throttle % 0.01 false",
	} {
		i := slices.IndexFunc(m.Sources, func(s mapping.Source) bool { return s.Channel == c })
		if i < 0 {
			t.Errorf("nothing for %s", c)
			continue
		}
		if s := m.Sources[i]; fmt.Sprintf("%s %.3g %v", s.Name, s.Scale, s.Magnetic) != want {
			t.Errorf("%s: %+v; must be %s", c, s, want)
		}
	}
	for _, want := range []string{
		`separator = ";"`,
		`# Columns that are not used: "Oil (psi)".`,
		"# Channels that stay empty: true-airspeed, ground-speed, track,\n",
		"# 350.5 to 351.5", "the unit is a guess",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("lacks %q:\n%s", want, text)
		}
	}
	if strings.Contains(text, "Nothing can be graded") {
		t.Errorf("nothing vital is missing:\n%s", text)
	}
}

// What is missing for grading is said.
func TestProposedLacks(t *testing.T) {
	text := proposed(t, "t,alt,vspeed\n1,5000,2\n2,5001,3\n")
	if want := "# Nothing can be graded without heading, pitch, bank."; !strings.Contains(text, want) {
		t.Errorf("lacks %q:\n%s", want, text)
	}
}

// A log that a shipped map reads needs none of its own; what stays empty is said all the same.
func TestKnown(t *testing.T) {
	text := proposed(t, "Time,psi-deg,theta-deg,phi-deg\n0,1,2,3\n1,1,2,3\n")
	for _, want := range []string{
		"# flight.csv needs no map: the one named jsbsim reads it.",
		`# heading            "psi-deg"`,
		"# Channels that stay empty: airspeed,",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("lacks %q:\n%s", want, text)
		}
	}
	for line := range strings.Lines(text) {
		if line != "\n" && line[0] != '#' {
			t.Errorf("is no comment: %s", line)
		}
	}
}

// Names as logs of simulators and avionics have them, and the channels they mean: "common practice, no source".
func TestNames(t *testing.T) {
	for name, want := range map[string]string{
		"rollRate": "roll-rate", "Roll Rate": "roll-rate", "Bank Angle": "bank", "roll_deg": "bank", "theta": "pitch",
		"Pitch": "pitch", "TRK": "track", "HDG": "heading", "true_heading_deg": "heading", "psi-deg": "heading",
		"ktas": "true-airspeed", "GndSpd": "ground-speed", "IAS": "airspeed", "kcas": "airspeed",
		"VSpd":   "vertical-speed",
		"vs_fpm": "vertical-speed", "AltMSL": "altitude", "alt_agl_ft": "height", "lat_deg": "latitude",
		"Longitude": "longitude", "alpha_deg": "angle-of-attack", "NormAc": "normal-load", "nz_g": "normal-load",
		"LatAc": "lateral-load", "E1 RPM": "rpm", "throttle": "throttle", "aileron": "aileron",
		"stall_warn": "stall-warning",
		"Pitch Trim": "", "FuelFlow": "", "Hdg Bug": "",
	} {
		text := proposed(t, "time,"+name+",other\n0,1,2\n1,1,2\n")
		_, after, found := strings.Cut(text, fmt.Sprintf("{ name = %q, channel = %q", name, want))
		if want == "" && strings.Contains(text, "{ name = "+fmt.Sprintf("%q", name)) ||
			want != "" && (!found || after == "") {
			t.Errorf("%s must be %q:\n%s", name, want, text)
		}
	}
}
