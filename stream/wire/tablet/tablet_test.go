package tablet_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/scan"
	"halfturn/stream/wire/wiretest"
)

// The text broadcast as it may come. Counts of values other than the specification's are
// refused: decimal commas make such.
func TestTablet(t *testing.T) {
	level := wiretest.SampleOf(stream.Heading, 180.2, stream.Pitch, 0.1, stream.Bank, 0.2)
	zeros := strings.Repeat(",0", 9)
	for in, want := range map[string]struct {
		err    error
		sample *stream.Sample
	}{
		"XATTSim,180.2,0.1,0.2":         {nil, level},
		"XATT,180.2,0.1,0.2":            {nil, level},
		"XATTSim,180.2,0.1,0.2\r\n":     {nil, level},
		"XATTSim,180.2,0.1,0.2\x00":     {nil, level},
		"XATTSim, 180.2 ,0.1, 0.2":      {nil, level},
		"XATTSim,180.2,0.1,0.2" + zeros: {nil, level},
		"XATTSim,540.2,0.1,0.2":         {nil, level},
		"XATTSim,180.2,0.1,": {nil,
			wiretest.SampleOf(stream.Heading, 180.2, stream.Pitch, 0.1)},
		"XATTSim,180,2,0,1,0,2":                            {fault.ErrMalformed, nil},
		"XATTSim,180.2,0.1":                                {fault.ErrMalformed, nil},
		"XATTSim,180.2,0.1,0.2,1":                          {fault.ErrMalformed, nil},
		"XATTSim,180.2,0.1,0.2" + zeros + ",0":             {fault.ErrMalformed, nil},
		"XATTSim,180.2,0.1,0.2" + zeros[2:]:                {fault.ErrMalformed, nil},
		"XATTSim,,,":                                       {fault.ErrPart, nil},
		"XATTSim,a,b,c":                                    {fault.ErrValue, nil},
		"XGPSSim,1,2,3,4":                                  {fault.ErrMalformed, nil},
		"XGPSSim,8,55,47,36,1200,1,359,05,55,6":            {fault.ErrMalformed, nil},
		"XGPSSim,1,2,3,4,5":                                {fault.ErrPart, nil},
		"XTRAFFICSim,168,33.8,-118.3,3749,-213":            {fault.ErrOther, nil},
		"XATTSim,1,2," + strings.Repeat("9", scan.MaxLine): {fault.ErrTooLong, nil},
		"XTRASim,1,2,3":                                    {fault.ErrMalformed, nil},
		"XGPS":                                             {fault.ErrUnknown, nil},
		"XGPSSim,1,2,3,4,5\nXATTSim,6,7,8\n": {nil, wiretest.SampleOf(stream.Longitude, 1, stream.Latitude, 2,
			stream.Altitude, 3/0.3048,
			stream.Track, 4, stream.GroundSpeed, 5*3600/1852.0, stream.Heading, 6, stream.Pitch, 7, stream.Bank, 8)},
	} {
		r := wire.NewReader(format.Options{})
		var s stream.Sample
		if err := r.Decode([]byte(in), 0, &s); err != want.err {
			t.Errorf("%.60q: %v; must be %v", in, err, want.err)
		}
		if want.sample == nil {
			want.sample = &stream.Sample{}
		}
		for c := range stream.NumChannels {
			if s.Has != want.sample.Has || math.Abs(s.Value(c)-want.sample.Value(c)) > 1e-9 {
				t.Errorf("%.60q: %v %v; must be %v", in, s.Has.Names(), s.Value(c), want.sample.Value(c))
				break
			}
		}
	}
}

// Values that were sent once and no longer are go away: the tail of the longer form.
func TestTabletTail(t *testing.T) {
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	if err := r.Decode([]byte("XATT1,345.1,-1.1,-12.5,0.1374,0.0954,-0.0444,-17.0,-1.2,-65.0,-0.01,1.63,0.02"), 10,
		&s); err != nil || !s.Has.Has(stream.NormalLoad) {
		t.Fatal(err, s.Has.Names())
	}
	if err := r.Decode([]byte("XATT1,,-1.1,-12.5"), 10.1, &s); err != nil || s.Has.Has(stream.Heading) || s.Bad != 0 {
		t.Errorf("a heading left empty: %v, %v", err, s.Has.Names())
	}
	for now, has := range map[float64]bool{10.2: true, 10.6: false, 9.4: false} {
		if err := r.Decode([]byte("XATT1,345.1,-1.1,-12.5"), now, &s); err != nil ||
			s.Has.Has(stream.NormalLoad) != has {
			t.Errorf("%.1f s: %v, %v", now, err, s.Has.Names())
		}
	}
}

func FuzzTablet(f *testing.F) {
	wiretest.Fuzz(f, "FuzzTablet", "xatt", "XGPS1,-122.298432,47.450756,420.9961,349.7547,57.9145")
}
