package session_test

import (
	"bytes"
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A meddler does to a simulator what its user may do in the middle of a leg.
type meddler struct {
	name    string
	silence float64 // s without datagrams
	hold    float64 // s in which the same moment is sent again and again
	pace    float64 // s of flight in a second from then on; 0 is 1
	change  func(s *stream.Sample, since float64)
	reason  []*phrase.Definition // why the leg ends, one of them; empty: it goes on
}

// runway puts an airplane on the ground, standing.
func runway(s *stream.Sample, _ float64) {
	for c, v := range map[stream.Channel]float64{
		stream.Heading: 90, stream.Pitch: 0, stream.Bank: 0, stream.Airspeed: 0, stream.TrueAirspeed: 0,
		stream.GroundSpeed: 0, stream.VerticalSpeed: 0, stream.Altitude: 1200, stream.Height: 0, stream.Latitude: 47.5,
		stream.Longitude: 11.5, stream.OnGround: 1, stream.NormalLoad: 1, stream.RollRate: 0, stream.PitchRate: 0,
		stream.YawRate: 0,
	} {
		if s.Has.Has(c) {
			s.Put(c, v)
		}
	}
}

var meddlers = []meddler{
	{name: "paused", hold: 20},
	{
		name: "restarted", silence: 30,
		change: func(s *stream.Sample, since float64) {
			runway(s, since)
			s.Put(stream.Time, since)
		},
		reason: []*phrase.Definition{phrase.ClockBack, phrase.Gap},
	},
	{
		name:   "reset on the runway",
		change: runway,
		reason: []*phrase.Definition{phrase.AttitudeJumped, phrase.PositionJumped, phrase.AltitudeJumped,
			phrase.AirspeedJumped},
	},
	{
		name: "moved elsewhere",
		change: func(s *stream.Sample, _ float64) {
			s.Put(stream.Latitude, s.Value(stream.Latitude)+0.2)
			s.Put(stream.Altitude, s.Value(stream.Altitude)+3000)
		},
		reason: []*phrase.Definition{phrase.PositionJumped, phrase.AltitudeJumped},
	},
	{
		name:   "turned around",
		change: func(s *stream.Sample, _ float64) { s.Put(stream.Heading, math.Mod(s.Value(stream.Heading)+170, 360)) },
		reason: []*phrase.Definition{phrase.AttitudeJumped},
	},
	{name: "twice as fast", pace: 2, reason: []*phrase.Definition{phrase.PaceChanged}},
	{name: "four times as fast", pace: 4, reason: []*phrase.Definition{phrase.PaceChanged}},
}

// meddled flies two wing-overs at 30 samples a second, and meddles at a moment.
func meddled(t *testing.T, format string, rate int, at float64, m *meddler) (*onlooker, *session.Session) {
	t.Helper()
	pilot, err := trainer.New(trainer.Flight{Seed: 7, Latitude: 47, Longitude: 11})
	if err != nil {
		t.Fatal(err)
	}
	e, err := encode.New(format)
	if err != nil {
		t.Fatal(err)
	}
	o := newOnlooker(t)
	o.resets = true
	opt := trainerOptions(t)
	opt.Output = o
	s := session.New(opt)
	received, met := 1.7e9, false
	if p := e.Preamble(); p != nil {
		s.Feed(p, received)
	}
	send := func(sample *stream.Sample) {
		feed := func(b []byte) { s.Feed(bytes.Clone(b), received) }
		if split, ok := e.(encode.Splitter); ok {
			split.Datagrams(sample, feed)
		} else {
			feed(e.Append(nil, sample))
		}
	}
	var sample stream.Sample
	const fine = 60
	for i := 0; pilot.Step(1.0/fine, &sample); i++ {
		if i%(fine/rate) != 0 {
			continue
		}
		step, now := 1/float64(rate), sample.Value(stream.Time)
		if m != nil && now >= at {
			if !met {
				met = true
				for range int(m.hold * float64(rate)) {
					received += step
					send(&sample)
				}
				received += m.silence
			}
			if m.change != nil {
				m.change(&sample, now-at)
			}
			if m.pace > 0 {
				step /= m.pace
			}
		}
		received += step
		send(&sample)
	}
	s.End(phrase.Read("the flight is over"))
	return o, s
}

// What is done to a simulator in the middle of a leg ends that leg and says why, and nothing is graded across it; a
// pause changes nothing. So it is in formats that carry the simulator's time and in those that do not. Where its time
// comes with the data a faster simulator changes nothing: all that is measured is by that time.
func TestSimulatorMeddledWith(t *testing.T) {
	for _, format := range []struct {
		name string
		rate int
	}{
		{"json", 30}, {"rows", 30}, {"mavlink2", 10}, // with the simulator's time
		{"fdm24", 30}, {"rpos", 30}, {"dis", 30}, {"gdl90", 5}, {"xatt", 5}, // without
	} {
		t.Run(format.name, func(t *testing.T) {
			t.Parallel()
			clean, s := meddled(t, format.name, format.rate, 0, nil)
			if len(clean.legs) != 2 {
				t.Fatalf("%d legs", len(clean.legs))
			}
			leg, clock := &clean.legs[0], s.Station().BySimulator()
			at := (leg.Start + leg.End) / 2
			for i := range meddlers {
				m := &meddlers[i]
				got, _ := meddled(t, format.name, format.rate, at, m)
				compareMeddled(t, m, clean, got, clock)
			}
		})
	}
}

func compareMeddled(t *testing.T, m *meddler, clean, got *onlooker, clock bool) {
	t.Helper()
	if len(got.legs) == 0 {
		t.Errorf("%s: no leg", m.name)
		return
	}
	a, b := &clean.legs[0], &got.legs[0]
	if len(m.reason) == 0 || m.pace > 0 && clock {
		if b.Outcome != a.Outcome || math.Abs(a.Score-b.Score) > 1 {
			t.Errorf("%s: the leg is %s (%v) with %g points; must be %s with %g", m.name, b.Outcome, b.Reason, b.Score,
				a.Outcome, a.Score)
		}
		return
	}
	why := false
	for _, d := range m.reason {
		why = why || b.Reason.Is(d)
	}
	if b.Outcome != coach.BrokenOff || !why || b.Verdict != coach.NotMeasured {
		t.Errorf("%s: the leg is %s, %s (%v)", m.name, b.Outcome, b.Verdict, b.Reason)
	}
	if len(got.safety) > 0 {
		t.Errorf("%s: safety calls %v", m.name, got.safety)
	}
}
