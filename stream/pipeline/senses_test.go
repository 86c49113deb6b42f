package pipeline_test

import (
	"math"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/pipeline"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// A bridge flies the built-in aircraft and sends it as JSON lines with signs of its own.
type bridge struct {
	pilot   *trainer.Pilot
	encoder encode.Encoder
	sample  stream.Sample
	buffer  []byte
	now     float64
}

func newBridge(t *testing.T, maneuver, direction string) *bridge {
	t.Helper()
	pilot, err := trainer.New(trainer.Flight{Maneuver: maneuver, Direction: direction, Seed: 5})
	if err != nil {
		t.Fatal(err)
	}
	e, err := encode.New("json")
	if err != nil {
		t.Fatal(err)
	}
	return &bridge{pilot: pilot, encoder: e}
}

// fly feeds the whole flight and returns the seconds until there was advice, NaN when there was
// none, and the jumps. each sees every sample that came out.
func (b *bridge) fly(s *pipeline.Pipeline, change func(*stream.Sample),
	each func(truth, got *stream.Sample)) (advised float64, jumps []string) {
	const dt = 1.0 / 60
	advised = math.NaN()
	for more := true; more; {
		more = b.pilot.Step(dt, &b.sample)
		b.now += dt
		sent := b.sample
		change(&sent)
		b.buffer = b.encoder.Append(b.buffer[:0], &sent)
		got, r := s.Feed(b.buffer, b.now)
		if r.Outcome == pipeline.Jumped {
			jumps = append(jumps, r.Reason.String())
		}
		if got != nil && each != nil {
			each(&b.sample, got)
		}
		if math.IsNaN(advised) && !s.Advice().IsZero() {
			advised = b.now
		}
	}
	return advised, jumps
}

func leftPositive(s *stream.Sample) { s.Negate(stream.Bank) }
func downPositive(s *stream.Sample) { s.Negate(stream.Pitch) }
func asFlown(*stream.Sample)        {}

// Signs as some client interfaces have them (left bank positive, nose down positive) are told to
// the user; right signs never are, whatever is flown and however badly.
func TestSigns(t *testing.T) {
	for _, maneuver := range trainer.Maneuvers() {
		for _, direction := range []string{"right", "left"} {
			for _, c := range []struct {
				name   string
				change func(*stream.Sample)
				opt    pipeline.Options
				want   string
			}{
				{"as flown", asFlown, pipeline.Options{}, ""},
				{"as flown, auto", asFlown, pipeline.Options{BankSign: pipeline.Auto, PitchSign: pipeline.Auto}, ""},
				{"left positive", leftPositive, pipeline.Options{}, `bank-sign = "reversed"`},
				{"left positive, reversed", leftPositive, pipeline.Options{BankSign: pipeline.Reversed}, ""},
				{"as flown, reversed", asFlown, pipeline.Options{BankSign: pipeline.Reversed}, `bank-sign = "as-sent"`},
				{"down positive, reversed", downPositive, pipeline.Options{PitchSign: pipeline.Reversed}, ""},
			} {
				s := pipeline.New(c.opt)
				newBridge(t, maneuver, direction).fly(s, c.change, nil)
				if got := s.Advice().String(); c.want == "" && got != "" || !strings.Contains(got, c.want) {
					t.Errorf("%s %s, %s: advice %q; must be %q", maneuver, direction, c.name, got, c.want)
				}
			}
		}
	}
}

// Pitch shows itself where the aircraft climbs steeply for long enough, as in a chandelle.
func TestPitchSign(t *testing.T) {
	for opt, want := range map[pipeline.Sign]string{pipeline.AsSent: `pitch-sign = "reversed"`, pipeline.Reversed: "",
		pipeline.Auto: ""} {
		s := pipeline.New(pipeline.Options{PitchSign: opt})
		newBridge(t, "chandelle-civil", "right").fly(s, downPositive, nil)
		if got := s.Advice().String(); want == "" && got != "" || !strings.Contains(got, want) {
			t.Errorf("%v: advice %q; must be %q", opt, got, want)
		}
	}
}

// The advice comes within seconds of the first turn: five seconds of turning flight.
func TestSignAdviceComesSoon(t *testing.T) {
	s := pipeline.New(pipeline.Options{})
	b := newBridge(t, "wing-over", "right")
	turning, settled := 0.0, math.NaN()
	advised, _ := b.fly(s, leftPositive, func(truth, _ *stream.Sample) {
		if math.Abs(truth.Value(stream.Bank)) > 8 {
			turning += 1.0 / 60
		}
		if math.IsNaN(settled) && !s.Advice().IsZero() {
			settled = turning
		}
	})
	if !(settled >= 4.9 && settled < 9) {
		t.Errorf("told after %.1f s with the wings not level (at %.1f s)", settled, advised)
	}
}

// Auto turns the sign once, tells it as a jump that ends the leg under way, and from then on
// the samples are as flown; rates of unknown sign are derived from the attitude.
func TestAutoSign(t *testing.T) {
	s := pipeline.New(pipeline.Options{BankSign: pipeline.Auto})
	right, wrong := 0, 0
	_, jumps := newBridge(t, "wing-over", "both").fly(s, leftPositive, func(truth, got *stream.Sample) {
		bank, _ := s.Turned()
		if !bank {
			return
		}
		if math.Abs(got.Value(stream.Bank)-truth.Value(stream.Bank)) > 0.01 && got.Value(stream.Time) > 0 {
			wrong++
		}
		if d := got.Value(stream.RollRate) - truth.Value(stream.RollRate); got.Derived.Has(stream.RollRate) &&
			math.Abs(d) < 6 {
			right++
		}
	})
	if len(jumps) != 1 || jumps[0] != "bank was sent with the other sign and is turned round" {
		t.Errorf("jumps %q", jumps)
	}
	if wrong > 1 || right < 2000 { // the sample that settled it still has the old sign
		t.Errorf("%d samples with the wrong bank, %d with a derived roll rate as flown", wrong, right)
	}
	if !s.Advice().IsZero() {
		t.Errorf("advice %q", s.Advice())
	}
}

func TestSignNames(t *testing.T) {
	for _, name := range []string{"as-sent", "reversed", "auto"} {
		if s, err := pipeline.SignNamed(name); err != nil || s.String() != name {
			t.Errorf("%s: %v, %v", name, s, err)
		}
	}
	if _, err := pipeline.SignNamed("left"); err == nil ||
		!strings.Contains(err.Error(), "must be as-sent, reversed or auto") {
		t.Errorf("%v", err)
	}
}

// The last value of each channel and its age, and the evenness of the datagrams.
func TestLastAndJitter(t *testing.T) {
	s := pipeline.New(pipeline.Options{})
	for i, line := range []string{
		`{"time": 1, "heading": 90, "pitch": 1, "bank": 0, "airspeed": 130, "altitude": 5000}`,
		`{"time": 1.1, "heading": 90.1, "pitch": 1, "bank": 0, "altitude": 5001}`,
	} {
		s.Feed([]byte(line), 100+0.1*float64(i))
	}
	if v, ok := s.Last(stream.Airspeed, 100.5); !ok || v.Value != 130 || math.Abs(v.Age-0.5) > 1e-9 || v.Derived {
		t.Errorf("airspeed %+v, %v", v, ok)
	}
	if v, ok := s.Last(stream.Altitude, 100.5); !ok || v.Value != 5001 || math.Abs(v.Age-0.4) > 1e-9 {
		t.Errorf("altitude %+v, %v", v, ok)
	}
	if _, ok := s.Last(stream.Ball, 100.5); ok {
		t.Error("a ball that never came")
	}
	even, uneven := pipeline.New(pipeline.Options{}), pipeline.New(pipeline.Options{})
	for i := range 300 {
		even.Feed([]byte("x"), 50+float64(i)/60)
		uneven.Feed([]byte("x"), 50+float64(i)/60+0.004*float64(i%2))
	}
	// Gaps of 20.7 and 12.7 ms in turn deviate by 4 ms from their mean.
	if e, u := even.Jitter(), uneven.Jitter(); e > 1e-6 || math.Abs(u-0.004) > 0.0004 {
		t.Errorf("jitter %.6f and %.6f s; must be 0 and about 0.004", e, u)
	}
}
