package mapping_test

import (
	"bytes"
	"encoding/xml"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/wiretest"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// byDecoder are the bad maps that the TOML decoder itself refuses. Its words are tested
// there; here only that file and line are told.
var byDecoder = []string{"not-toml.toml", "offset.toml", "unknown-key.toml", "wrong-type.toml"}

// TestMapErrors: a wrong map is refused with file, line, key and what is allowed.
func TestMapErrors(t *testing.T) {
	files, err := filepath.Glob("testdata/maps/bad/*.toml")
	if err != nil || len(files) < 15 {
		t.Fatalf("%d bad maps, %v", len(files), err)
	}
	var got strings.Builder
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if _, err = mapping.Load(filepath.Base(file), data); err == nil {
			t.Errorf("%s was accepted", file)
			continue
		}
		text := strings.ReplaceAll(err.Error(), strings.Join(stream.ChannelNames(), ", "), "(a channel)")
		if slices.Contains(byDecoder, filepath.Base(file)) {
			parts := strings.SplitN(text, ":", 3)
			text = parts[0] + ":" + parts[1] + ":"
		}
		got.WriteString(text + "\n")
	}
	const golden = "testdata/maps/bad/errors.golden"
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got.String() != string(want) {
		t.Errorf("got\n%s\nwant\n%s", got.String(), want)
	}
}

// TestUnits: conversions by the definitions of the units, and a value checked by hand each.
func TestUnits(t *testing.T) {
	for _, tt := range []struct {
		channel stream.Channel
		unit    string
		sent    float64
		want    float64
	}{
		{stream.Airspeed, "kt", 100, 100},
		{stream.Airspeed, "m/s", 51.444444444444, 100},     // 1 kt = 1852 m/h
		{stream.Airspeed, "ft/s", 168.780985710119, 100},   // 185,200 m / 0.3048 m / 3600 s
		{stream.Airspeed, "km/h", 185.2, 100},              //
		{stream.Airspeed, "mph", 115.077944802354, 100},    // 185.2 / 1.609344
		{stream.Altitude, "m", 3048, 10000},                // the foot is 0.3048 m
		{stream.Heading, "rad", math.Pi / 2, 90},           //
		{stream.RollRate, "rad/s", math.Pi, 180},           //
		{stream.NormalLoad, "m/s²", 9.80665, 1},            // standard gravity
		{stream.NormalLoad, "ft/s²", 32.1740485564304, 1},  // 9.80665 / 0.3048
		{stream.NormalLoad, "ft/s2", 32.1740485564304, 1},  // written in ASCII
		{stream.VerticalSpeed, "ft/s", 10, 600},            //
		{stream.VerticalSpeed, "m/s", 5.08, 1000},          // 5.08 m/s = 1000 ft/min
		{stream.Throttle, "%", 72, 0.72},                   //
		{stream.Torque, "ratio", 0.5, 50},                  //
		{stream.Time, "ms", 1500, 1.5},                     //
		{stream.Paused, "flag", -1, 1},                     // whatever is not 0
		{stream.Ball, "ball", -0.5, -0.5},                  //
		{stream.RPM, "rpm", 2400, 2400},                    //
		{stream.Latitude, "geocentric deg", 28.0, 28.1598}, // printed side by side by JSBSim, see vectors.json
	} {
		m, err := mapping.Load("m.toml",
			[]byte("sources = [\n{ column = 1, channel = \""+tt.channel.String()+"\", unit = \""+tt.unit+"\" },\n"+
				"{ column = 2, channel = \"pitch\", unit = \"deg\" } ]"))
		if err != nil {
			t.Fatal(err)
		}
		s := wiretest.Decode(t, wire.NewReader(format.Options{Map: m}), fmt.Appendf(nil, "%.15g,0\n", tt.sent))
		if got := s.Value(tt.channel); math.Abs(got-tt.want) > 5e-5 {
			t.Errorf("%v %s of %s = %v; must be %v", tt.sent, tt.unit, tt.channel, got, tt.want)
		}
	}
}

// TestShippedMaps: the embedded maps load, and the set-up files users copy into a simulator
// send exactly the columns the maps expect.
func TestShippedMaps(t *testing.T) {
	maps := mapping.Shipped()
	names := []string{}
	for _, m := range maps {
		names = append(names, m.Name)
	}
	if !slices.Equal(names, []string{"channels", "flightgear", "generic-binary", "jsbsim", "xplane-log"}) {
		t.Fatal(names)
	}
	jsbsim := mapping.ShippedNamed("jsbsim")
	read := func(name string, v any) {
		t.Helper()
		data, err := configs.FS.ReadFile("simulators/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if err := xml.Unmarshal(data, v); err != nil {
			t.Fatal(name, err)
		}
	}
	for _, file := range []string{"halfturn.xml", "halfturn-pairs.xml"} {
		var in struct {
			Names   []string `xml:"generic>output>chunk>name"`
			Formats []string `xml:"generic>output>chunk>format"`
		}
		read("flightgear/Protocol/"+file, &in)
		if !slices.Equal(in.Names, mapping.ShippedNamed("flightgear").Order) {
			t.Errorf("%s: columns %v", file, in.Names)
		}
		for i, f := range in.Formats {
			if pair := strings.HasPrefix(f, in.Names[i]+"="); pair != (file == "halfturn-pairs.xml") {
				t.Errorf("%s: format %q of %s", file, f, in.Names[i])
			}
		}
	}
	var in struct {
		Properties []string `xml:"property"`
	}
	read("jsbsim/halfturn.xml", &in)
	for i, p := range in.Properties {
		p = strings.TrimSpace(p)
		label := strings.ReplaceAll(p[strings.LastIndexByte(p, '/')+1:], "_", " ")
		if want := jsbsim.Order[i+1]; label != want && !(want == "engine" && label == "engine-rpm") {
			t.Errorf("property %d is %s, the map has %s", i, label, want)
		}
	}
	if len(in.Properties)+1 != len(jsbsim.Order) {
		t.Errorf("%d properties, %d columns", len(in.Properties), len(jsbsim.Order))
	}
}

func FuzzMap(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzMap")
	f.Fuzz(func(t *testing.T, text, datagram []byte) {
		m, err := mapping.Load("fuzz.toml", text)
		if err != nil {
			if m != nil || err.Error() == "" || strings.Contains(err.Error(), "\n") &&
				!bytes.Contains(text, []byte("\n")) {
				t.Fatalf("map %v, error %q", m, err)
			}
			return
		}
		r := wire.NewReader(format.Options{Map: m})
		var s stream.Sample
		if r.Decode(datagram, 0, &s) == nil {
			wiretest.CheckSample(t, &s)
		}
	})
}
