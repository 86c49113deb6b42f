package leg_test

import (
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/track"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A turn of a wing-over by numbers: 4°/s of heading, bank and nose by the program.
type turn struct {
	side float64
	bank func(turned float64) float64 // ° toward the turn
	back float64                      // ° of turn from which it turns back; 0 is none
	rate float64                      // °/s; 0 is 4
}

func planOf(t *testing.T) *plan.Plan {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	return plan.New(card, nil)
}

// fly flies level for five seconds and then the turn, and returns the record of its leg.
func (f turn) fly(t *testing.T) (*coach.Leg, leg.End) {
	t.Helper()
	const begins, hertz = 5.0, 20
	rate := f.rate
	if rate == 0 {
		rate = 4
	}
	var tr track.Tracker
	var l *leg.Leg
	p := planOf(t)
	for i := range 200 * hertz {
		now := float64(i) / hertz
		turned := math.Max(0, now-begins) * rate
		if f.back > 0 && turned > f.back {
			turned = 2*f.back - turned
		}
		var s stream.Sample
		for c, v := range map[stream.Channel]float64{
			stream.Time: now, stream.Heading: stream.Wrap360(10 + f.side*turned), stream.Pitch: 2,
			stream.Bank: 0, stream.Altitude: 5000, stream.Airspeed: 100,
		} {
			s.Put(c, v)
		}
		if now > begins {
			s.Put(stream.Bank, f.side*f.bank(turned))
		}
		tr.Step(&s)
		switch {
		case l == nil && turned >= 20: // committed
			l = leg.New(p, &tr.Past, leg.Start{Time: begins, Side: f.side}, nil)
			if e := l.Replay(&tr.Past); e.Outcome != "" {
				return l.Grade(1, 0, e), e
			}
		case l != nil:
			if e := l.Step(&s, tr.Turned); e.Outcome != "" {
				return l.Grade(1, 0, e), e
			}
		}
	}
	t.Fatal("the leg has no end")
	return nil, leg.End{}
}

// rolled is level at the ends of 180° and 60° of bank half way, in straight lines: 30° at 45°, level at 180°.
func rolled(turned float64) float64 { return 60 - 60*math.Abs(turned-90)/90 }

func TestEnds(t *testing.T) {
	levelAt := func(at float64) func(float64) float64 {
		return func(turned float64) float64 {
			if turned > at {
				return 0
			}
			return 45
		}
	}
	for _, c := range []struct {
		name            string
		turn            turn
		outcome, reason string
		turned          float64 // at the exit, or where the trace ends
	}{
		// Bank comes down to 5° at 172.5° of turn.
		{"flown", turn{bank: rolled}, coach.Finished, "", 172.5},
		{"level too early", turn{bank: levelAt(120)}, coach.BrokenOff, "rolled level short of the turn", 132},
		{"turned back", turn{bank: levelAt(999), back: 100}, coach.BrokenOff, "turned back", 100},
		{"too slow", turn{bank: levelAt(999), rate: 1}, coach.BrokenOff, "took longer than the card allows", -1},
	} {
		for _, side := range []float64{1, -1} {
			c.turn.side = side
			r, e := c.turn.fly(t)
			if r.Outcome != c.outcome || r.Reason.String() != c.reason || e.Outcome != c.outcome {
				t.Errorf("%s: %s, %q", c.name, r.Outcome, r.Reason)
				continue
			}
			exits := c.outcome == coach.Finished
			if r.Direction != coach.Direction(side) || (r.Exit != nil) != exits || r.Start != 5 {
				t.Errorf("%s: to the %s from %g s, exit %v", c.name, r.Direction, r.Start, r.Exit)
			}
			last := r.Trace[len(r.Trace)-1].Turn
			if r.Exit != nil {
				last = r.Exit.Turn
			}
			if c.turned >= 0 && math.Abs(last-c.turned) > 1 {
				t.Errorf("%s: it ends at %.1f° of turn, not %g°", c.name, last, c.turned)
			}
		}
	}
}

// By hand: the bank of the program at the checkpoints is 30° at 45°, 60° at 90° and 30° at 135°, to both sides.
func TestPoints(t *testing.T) {
	for _, side := range []float64{1, -1} {
		r, _ := turn{side: side, bank: rolled}.fly(t)
		if len(r.Points) != 3 {
			t.Fatalf("%d points", len(r.Points))
		}
		for i, want := range []float64{30, 60, 30} {
			p := r.Points[i]
			if math.Abs(p.Turn-45*float64(i+1)) > 1e-9 || math.Abs(p.Values["bank"]-want) > 0.6 {
				t.Errorf("at %g° the bank is %g°, not %g°", p.Turn, p.Values["bank"], want)
			}
		}
		if got := r.Entry.Values["heading"]; math.Abs(got-10) > 0.01 {
			t.Errorf("the entry heading is %g°", got)
		}
		for i := 1; i < len(r.Trace); i++ {
			if r.Trace[i].Turn < r.Trace[i-1].Turn+1-1e-9 || *r.Trace[i].Height != 0 {
				t.Fatalf("the trace at %+v follows %+v", r.Trace[i], r.Trace[i-1])
			}
		}
	}
}

// A leg that something else ended is not judged for what it might still have become.
func TestExternalEnd(t *testing.T) {
	var tr track.Tracker
	p := planOf(t)
	l := leg.New(p, &tr.Past, leg.Start{Time: 0, Side: 1}, nil)
	var s stream.Sample
	for i := range 200 {
		for c, v := range map[stream.Channel]float64{
			stream.Time: float64(i) / 20, stream.Heading: float64(i) / 4, stream.Pitch: 2, stream.Bank: 30,
		} {
			s.Put(c, v)
		}
		tr.Step(&s)
		l.Step(&s, tr.Turned)
	}
	r := l.Grade(1, 0, leg.End{Outcome: coach.BrokenOff, Reason: phrase.Read("the stream jumped"), External: true})
	if r.Verdict != coach.NotMeasured || r.Grade != "" || r.Exit != nil {
		t.Errorf("it reads %s, %q", r.Verdict, r.Grade)
	}
	for _, k := range r.Checks {
		if k.Turn != nil && *k.Turn > 60 && k.Verdict != coach.NotMeasured {
			t.Errorf("%s at %g° reads %s", k.ID, *k.Turn, k.Verdict)
		}
	}
}
