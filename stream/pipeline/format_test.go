package pipeline

import (
	"fmt"
	"testing"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer/encode"
)

// A sender that sends another format from here on is followed after a few datagrams. That ends
// what was flown, whatever the new one's clock says; one stray datagram ends nothing.
func TestFeedFormatChanged(t *testing.T) {
	for _, formats := range [][2]string{
		{"json", "rows"}, {"rows", "xatt"}, {"xatt", "gdl90"}, {"gdl90", "mavlink2"}, {"mavlink1", "fdm24"},
		{"fdm25", "dis"}, {"dis", "rref"}, {"rref", "rpos"}, {"rpos", "binary"}, {"binary", "json"},
	} {
		t.Run(fmt.Sprint(formats), func(t *testing.T) {
			s := New(Options{})
			now := 1000.0
			send := func(format string, i int) Result {
				e, err := encode.New(format)
				if err != nil {
					t.Fatal(err)
				}
				now += 0.1
				_, r := s.Feed(e.Append(nil, flying(float64(i)/10)), now)
				return r
			}
			for i := range 20 {
				if r := send(formats[0], i); r.Outcome != Accepted {
					t.Fatalf("datagram %d: %+v", i, r)
				}
			}
			if r := send(formats[1], 20); r.Outcome != Nothing {
				t.Fatalf("a stray datagram: %+v", r)
			}
			if r := send(formats[0], 21); r.Outcome != Accepted {
				t.Fatalf("after a stray datagram: %+v", r)
			}
			jumps := 0
			for i := range 20 { // its own clock begins again
				switch r := send(formats[1], i); r.Outcome {
				case Jumped:
					if jumps++; !r.Reason.Is(phrase.FormatChanged) {
						t.Errorf("reason %q", r.Reason)
					}
				case Accepted:
					if jumps == 0 {
						t.Error("accepted as if nothing had happened")
					}
				}
			}
			if jumps != 1 {
				t.Errorf("%d jumps", jumps)
			}
		})
	}
}

// flying is a sample of a turn to the right that also climbs.
func flying(t float64) *stream.Sample {
	var s stream.Sample
	for c, v := range map[stream.Channel]float64{
		stream.Time: 10 + t, stream.Heading: 90 + 6*t, stream.Pitch: 5 + t/10, stream.Bank: 30 + t,
		stream.Airspeed: 120, stream.TrueAirspeed: 130, stream.GroundSpeed: 125, stream.Track: 90 + 6*t,
		stream.VerticalSpeed: 600, stream.Altitude: 5000 + 10*t, stream.Height: 4000 + 10*t,
		stream.Latitude: 10 + t*1e-5, stream.Longitude: 20 + t*6e-4, stream.AngleOfAttack: 4, stream.Sideslip: 1,
		stream.NormalLoad: 1.2, stream.LateralLoad: 0.01, stream.AxialLoad: 0.1, stream.RollRate: 1,
		stream.PitchRate: 3, stream.YawRate: 5, stream.Throttle: 0.7, stream.RPM: 2400, stream.OnGround: 0,
		stream.StallWarning: 0,
	} {
		s.Put(c, v)
	}
	return &s
}

// Values of slower messages are carried with their age and go away when they are too old: with
// attitude five times a second and position once, as tablets get them.
func TestFeedMerges(t *testing.T) {
	s := New(Options{})
	e, err := encode.New("xatt")
	if err != nil {
		t.Fatal(err)
	}
	split := e.(encode.Splitter)
	positions, gone := 0, -1
	for i := range 60 {
		now := 100 + float64(i)/5
		in := flying(float64(i) / 5)
		if i > 30 { // the sender has lost its position
			in.Drop(stream.Latitude)
		}
		got := false
		split.Datagrams(in, func(b []byte) {
			sample, r := s.Feed(b, now)
			if b[1] == 'G' {
				positions++
				if r.Outcome != Nothing || r.Drop != "" {
					t.Fatalf("position alone: %+v", r)
				}
				return
			}
			if got = r.Outcome == Accepted; !got {
				t.Fatalf("attitude %d: %+v", i, r)
			}
			if age, want := s.Age(stream.Latitude), float64(i%5)/5; i <= 30 && (age < want-1e-9 || age > want+1e-9) {
				t.Errorf("sample %d: position is %v s old; must be %v", i, age, want)
			}
			if s.Age(stream.Bank) != 0 {
				t.Errorf("sample %d: bank is %v s old", i, s.Age(stream.Bank))
			}
			want := flying(float64(i/5*5) / 5)
			if v, ok := sample.Get(stream.Altitude); ok &&
				(v < want.Value(stream.Altitude)-0.01 || v > want.Value(stream.Altitude)+0.01) && i <= 30 {
				t.Errorf("sample %d: altitude %v, want that of the last position %v", i, v, want.Value(stream.Altitude))
			} else if !ok && gone < 0 {
				gone = i
			}
		})
	}
	if positions != 7 || gone != 43 { // 2.5 s after the last, that of sample 30
		t.Errorf("%d positions, gone with sample %d", positions, gone)
	}
}

// A channel that was away for a while may come back at another value: what a climb can have done
// in that time is no jump, what it cannot is one.
func TestFeedGapInOneChannel(t *testing.T) {
	for climb, jumps := range map[float64]int{50: 0, 2000: 1} {
		s := New(Options{})
		got := 0
		for i := range 200 {
			in := flying(float64(i) / 10)
			in.Put(stream.Altitude, 5000+climb*float64(i)/10)
			if i > 80 && i < 180 || climb > 1000 && i <= 80 && i > 0 {
				in.Drop(stream.Altitude)
			}
			e, err := encode.New("json")
			if err != nil {
				t.Fatal(err)
			}
			if _, r := s.Feed(e.Append(nil, in), float64(i)/10); r.Outcome == Jumped {
				got++
			}
		}
		if got != jumps {
			t.Errorf("climbing %v ft/s: %d jumps; must be %d", climb, got, jumps)
		}
	}
}
