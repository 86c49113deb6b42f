package audit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/plan"
)

// pace is how fast the made-up legs turn, °/s, and began when they do, s.
const (
	pace  = 8.0
	began = 100.0
)

// madeUp is a leg to the right at a steady pace, flown as its plan has it but for what change does to a moment.
func madeUp(t *testing.T, maneuver string, change func(turn float64, s *sample)) *flight {
	t.Helper()
	lib, err := library()
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed("turboprop-trainer")
	if err != nil {
		t.Fatal(err)
	}
	p := plan.New(card(t, maneuver), a)
	f := &flight{name: "made up", plan: p, committed: []float64{began}}
	l := &coach.Leg{Direction: "right", Start: began, End: began + p.Card.Turn/pace}
	l.Entry.Values = map[string]float64{"pitch": 0, "altitude": 6000}
	aim := func(lane string, turn float64) float64 {
		v, _, _ := p.Aim(lane, turn)
		return v
	}
	for time := began; time <= l.End; time += 0.05 {
		turn := pace * (time - began)
		s := sample{
			time:     time,
			bank:     aim("bank", turn),
			pitch:    aim("pitch", turn),
			speed:    aim("airspeed", turn),
			altitude: 6000 + aim("height", turn),
			load:     1.5,
			power:    0.7,
		}
		if change != nil {
			change(turn, &s)
		}
		f.samples = append(f.samples, s)
		l.Trace = append(l.Trace, coach.Trace{Turn: turn, Time: time})
	}
	f.legs = []*coach.Leg{l}
	return f
}

// hear adds words that end at a turn angle.
func (f *flight) hear(turn float64, c coach.Callout, asks ...callout.Ask) {
	end := began + turn/pace
	f.heard = append(f.heard, &heard{
		Callout: &c,
		begun:   end - float64(len(strings.Fields(c.Words)))/rate,
		ended:   end,
		asks:    asks,
	})
}

// The audit can fail: what was once said wrong is rejected, each for its reason, and what is right at the same place
// passes.
func TestWrongCallsAreRejected(t *testing.T) {
	watch := func(words string) coach.Callout { return coach.Callout{Kind: coach.Watch, Words: words} }
	cue := func(words string, of, to float64) coach.Callout {
		return coach.Callout{Kind: coach.Cue, ID: fmt.Sprintf("cue-%g", of), Words: words, To: &to}
	}
	exit := 180 - 12.0
	low := func(turn float64, s *sample) { s.pitch -= 6 }
	steep := func(turn float64, s *sample) { s.bank += 15 }
	for _, r := range []struct {
		why    string
		turn   float64
		say    coach.Callout
		asks   []callout.Ask
		change func(float64, *sample)
		want   string // "" passes
	}{
		{"of 45° at 90.1°, where the nose must fall", 90.1, watch("Pull the nose higher"),
			[]callout.Ask{callout.NoseUp}, func(_ float64, s *sample) { s.bank = 30 }, "the nose is to fall"},
		{"of 45°, at a bank of 75°", 90.1, watch("Pull the nose higher"), []callout.Ask{callout.NoseUp}, nil,
			rollingPull},
		{"of 45° on the way to it", 33, watch("Pull the nose higher"), []callout.Ask{callout.NoseUp}, low, ""},
		{"of 90° while the roll-out waits", 92, watch("More bank at the top"), []callout.Ask{callout.BankMore}, nil,
			"the bank is to be less"},
		{"of 90° while the roll-out waits, also of a bank that lags", 94, watch("More bank at the top"),
			[]callout.Ask{callout.BankMore}, func(_ float64, s *sample) { s.bank -= 15 }, "the bank is to be less"},
		{"on the way to 90°", 70, watch("More bank at the top"), []callout.Ask{callout.BankMore},
			func(_ float64, s *sample) { s.bank -= 15 }, ""},
		{"less bank on the way to more", 60, watch("Less bank"), []callout.Ask{callout.BankLess}, nil,
			"the bank is to be more"},
		{"less bank of one that is past all that is wanted", 84, watch("Less bank"), []callout.Ask{callout.BankLess},
			steep, ""},
		{"the nose where it is to rise", 148, watch("Slow, ease the nose"), []callout.Ask{callout.NoseDown}, nil,
			"the nose is to rise"},
		{"a way back that is a rolling pull", 110, watch("Too fast! Ease out"), []callout.Ask{callout.NoseUp}, low,
			rollingPull},
		{"less pull, of a push", 60, watch("Ease the pull"), []callout.Ask{callout.Push},
			func(_ float64, s *sample) { s.load = -1 }, "it is pushed already"},
		{"the ball, where it is in the middle", 60, watch("Step on the ball"), []callout.Ask{callout.Ball}, nil,
			"the ball is in the middle"},
		{"power that was never moved", 60, watch("Power as at entry"), []callout.Ask{callout.PowerBack}, nil,
			"the power is that of the entry"},
		{"nothing is declared", 60, watch("Half rolled out"), nil, nil, "it declares nothing"},
		{"too long to be heard", 60, watch("Now let the nose come slowly down"), []callout.Ask{callout.Nothing}, nil,
			"7 words"},
		{"a cue before 45° is passed", 25, cue("Bank 75, nose level", 90, 90), nil, nil, "before 45° was passed"},
		{"far too soon after it", 66, cue("Bank 75, nose level", 90, 90), nil, nil, "off its place"},
		{"in its place", 89, cue("Bank 75, nose level", 90, 90), nil, nil, ""},
		{"after its place", 104, cue("Bank 75, nose level", 90, 90), nil, nil, "off its place"},
		{"the exit too soon", 145, cue("Level on 1 8 0", 180, exit), nil, nil, "off its place"},
	} {
		f := madeUp(t, "wing-over", r.change)
		f.hear(r.turn, r.say, r.asks...)
		var found []string
		_, wrong := f.audit()
		for _, w := range wrong {
			if strings.Contains(w, "WRONG") {
				found = append(found, w)
			}
		}
		if got := strings.Join(found, "\n"); (got == "") != (r.want == "") || !strings.Contains(got, r.want) {
			t.Errorf("%s: %q at %g° is found %q; must be %q", r.why, r.say.Words, r.turn, got, r.want)
		}
	}
}

// A checkpoint that was passed gets a tone and no words.
func TestWordsOfWhatWasPassedAreRejected(t *testing.T) {
	f := madeUp(t, "wing-over", nil)
	f.called = append(f.called, &coach.Callout{Kind: coach.After, Words: "Pull more", Turn: 137})
	if _, wrong := f.audit(); len(wrong) != 1 || !strings.Contains(wrong[0], `"Pull more" is said of a point`) {
		t.Errorf("%q", wrong)
	}
}

// Silence is rejected where a lane is past twice its corridor, whichever it is, and words about something else do not
// cure it; words in time do.
func TestSilenceIsRejected(t *testing.T) {
	between := func(from, to float64, do func(*sample)) func(float64, *sample) {
		return func(turn float64, s *sample) {
			if turn >= from && turn <= to {
				do(s)
			}
		}
	}
	for _, r := range []struct {
		why, maneuver, lane string
		turn                float64 // where it begins
		change              func(float64, *sample)
		words               string // that cure it
		ask                 callout.Ask
	}{
		{"a nose of 46°", "wing-over", "pitch", 25, between(25, 45, func(s *sample) { s.pitch = 46 }),
			"Lower the nose", callout.NoseDown},
		{"a bank of 111°", "wing-over", "bank", 60, between(60, 88, func(s *sample) { s.bank = 111 }),
			"Less bank", callout.BankLess},
		{"256 ft lost in a steep turn", "steep-turn", "height", 90,
			between(90, 130, func(s *sample) { s.altitude, s.bank = 6000-256, 50 }),
			"More back pressure", callout.NoseUp},
		{"a steep turn 30 kt slow", "steep-turn", "airspeed", 90, between(90, 130, func(s *sample) { s.speed -= 30 }),
			"More power", callout.PowerMore},
		{"a ball out by three", "wing-over", "ball", 50, between(50, 85, func(s *sample) { s.ball = 3 }),
			"Step on the ball", callout.Ball},
	} {
		f := madeUp(t, r.maneuver, r.change)
		if !silent(f, r.lane) {
			t.Errorf("%s: silence passes", r.why)
		}
		f.hear(r.turn+pace*4.5, coach.Callout{Kind: coach.Watch, Words: r.words}, r.ask)
		if !silent(f, r.lane) {
			t.Errorf("%s: %q passes three seconds late", r.why, r.words)
		}
		f.heard = nil
		cue := coach.Callout{Kind: coach.Cue, ID: "x", Words: "Look around", To: &r.turn}
		f.hear(r.turn+pace*2.2, cue, callout.Nothing)
		if !silent(f, r.lane) {
			t.Errorf("%s: a cue of something else passes", r.why)
		}
		f.hear(r.turn+pace*2.2, coach.Callout{Kind: coach.Watch, Words: r.words}, r.ask)
		if silent(f, r.lane) {
			t.Errorf("%s: %q in time does not cure it", r.why, r.words)
		}
	}
}

func silent(f *flight, lane string) bool {
	for _, e := range f.unheard() {
		if e.lane == lane && math.Abs(e.off) >= far {
			return true
		}
	}
	return false
}

// A good leg is left in peace: two corrections pass, three do not, and no safety word does.
func TestNaggingIsRejected(t *testing.T) {
	f := madeUp(t, "wing-over", nil)
	f.good = true
	for i := range 3 {
		if wrong := f.nagged(); len(wrong) != 0 {
			t.Errorf("%d corrections: %q", i, wrong)
		}
		f.hear(50+float64(30*i), coach.Callout{Kind: coach.Watch, Words: "Roll out"}, callout.Nothing)
	}
	if len(f.nagged()) != 1 {
		t.Errorf("three corrections: %q", f.nagged())
	}
	f.heard = nil
	f.hear(50, coach.Callout{Kind: coach.Safety, Words: "Push, unload"}, callout.Push)
	if len(f.nagged()) != 1 {
		t.Errorf("a safety word: %q", f.nagged())
	}
}
