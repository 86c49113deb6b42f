package xplane

import (
	"encoding/hex"
	"math"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/merge"
)

// Replies with the header of versions 11 and 12 and of version 10. The first was captured from a
// simulator (public Python client, PaulskPt), the others are computed.
func TestReplies(t *testing.T) {
	asked := make([]Dataref, 9)
	for i, c := range map[int]stream.Channel{0: stream.Altitude, 1: stream.Bank, 7: stream.Airspeed, 8: stream.Pitch} {
		asked[i] = Dataref{Channel: c, Scale: 1}
	}
	for in, want := range map[string]*stream.Sample{
		"525245462c0000000000582c460100000000000000": sampleOf(stream.Altitude, 11030, stream.Bank, 0),
		"525245462c070000000000cb4208000000000010c0": sampleOf(stream.Airspeed, 101.5, stream.Pitch, -2.25),
		"525245464f070000000000cb4208000000000010c0": sampleOf(stream.Airspeed, 101.5, stream.Pitch, -2.25),
	} {
		r := &repliesDecoder{asked: asked}
		var got stream.Sample
		if err := r.Decode(unhex(t, in), 0, &got); err != nil || got != *want {
			t.Errorf("%s: %v, %+v", in, err, got)
		}
	}
}

// The list to ask for: no name and no channel twice, few enough for one go, units as documented.
func TestDatarefs(t *testing.T) {
	names, channels := map[string]bool{}, map[stream.Channel]bool{}
	for _, d := range Datarefs() {
		if names[d.Name] || channels[d.Channel] || d.magnetic {
			t.Errorf("%s is there twice, or its channel", d.Name)
		}
		names[d.Name], channels[d.Channel] = true, true
	}
	if len(names) > 100 || len(names) != asked {
		t.Errorf("%d are asked for", len(names))
	}
	for name, sent := range map[string]struct {
		channel stream.Channel
		sent    float32
		want    float64
	}{ // DataRefs.txt of version 10.41: knots, m/s, m, °, ft/min, rad/s
		"sim/flightmodel/position/indicated_airspeed": {stream.Airspeed, 100, 100},
		"sim/flightmodel/position/true_airspeed":      {stream.TrueAirspeed, 100, 100 * 3600 / 1852.0},
		"sim/flightmodel/position/groundspeed":        {stream.GroundSpeed, 100, 100 * 3600 / 1852.0},
		"sim/flightmodel/position/elevation":          {stream.Altitude, 304.8, 1000},
		"sim/flightmodel/position/y_agl":              {stream.Height, 304.8, 1000},
		"sim/flightmodel/position/vh_ind":             {stream.VerticalSpeed, 5.08, 1000},
		"sim/flightmodel/position/vh_ind_fpm":         {stream.VerticalSpeed, 500, 500},
		"sim/flightmodel/position/beta":               {stream.Sideslip, 2, -2},
		"sim/flightmodel/position/P":                  {stream.RollRate, 10, 10},
		"sim/flightmodel/position/Qrad":               {stream.PitchRate, 1, 180 / math.Pi},
		"sim/flightmodel/forces/g_nrml":               {stream.NormalLoad, 1, 1},
		"sim/cockpit2/controls/yoke_pitch_ratio":      {stream.Elevator, 1, 1},
		"sim/time/paused":                             {stream.Paused, 1, 1},
	} {
		d, ok := named[name]
		if !ok {
			t.Errorf("no dataref %s", name)
			continue
		}
		var m merge.Values
		d.put(sent.sent, 0, &m)
		if got := latest(&m, sent.channel); math.Abs(got-sent.want) > 1e-4 {
			t.Errorf("%s: %v; must be %v", name, got, sent.want)
		}
	}
}

func latest(m *merge.Values, c stream.Channel) float64 {
	s := m.Latest()
	return s.Value(c)
}

func unhex(t *testing.T, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// sampleOf makes a sample of two channels.
func sampleOf(a stream.Channel, va float64, b stream.Channel, vb float64) *stream.Sample {
	var s stream.Sample
	s.Put(a, va)
	s.Put(b, vb)
	return &s
}
