package follow_test

import (
	"iter"
	"math"
	"testing"

	"halfturn/coach"
	"halfturn/coach/cause"
	"halfturn/coach/follow"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/score"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/trainer"
)

// A turn of a flown program: its bank, ° and right positive, and how far round it goes, °.
type turn struct{ bank, round float64 }

// circling flies level turns one after the other, with ten seconds of level flight before each and some after the last.
func circling(c *follow.Single, turns []turn, after float64) heard {
	var h heard
	for s := range levelTurns(turns, c.Plan().Aircraft.Entry, 10, after) {
		c.Step(s)
		h.take(c.Take())
	}
	return h
}

// levelTurns yields the samples of level turns at an airspeed (kt), with level flight (s) before each and after the
// last. The turn rate is g·tan(bank)/V, the roll takes 10°/s.
func levelTurns(turns []turn, knots, before, after float64) iter.Seq[*stream.Sample] {
	const dt, g, roll = 1.0 / 30, 9.80665, 10.0
	speed := knots * 1852 / 3600 // m/s
	return func(yield func(*stream.Sample) bool) {
		var s stream.Sample
		now, heading, bank := 0.0, 100.0, 0.0
		step := func(want float64) {
			now += dt
			bank += math.Max(-roll*dt, math.Min(roll*dt, want-bank))
			heading += g * math.Tan(bank*math.Pi/180) / speed * 180 / math.Pi * dt
			s.Reset()
			for ch, v := range map[stream.Channel]float64{stream.Time: now, stream.Heading: heading, stream.Pitch: 2,
				stream.Bank:     bank,
				stream.Airspeed: knots, stream.Altitude: 5000, stream.Height: 4000, stream.VerticalSpeed: 0,
				stream.NormalLoad: 1 / math.Cos(bank*math.Pi/180), stream.Ball: 0} {
				s.Put(ch, v)
			}
			yield(&s)
		}
		for _, t := range turns {
			for range int(before / dt) {
				step(0)
			}
			from := heading
			for math.Abs(heading-from) < t.round-math.Abs(bank)/2 {
				step(t.bank)
			}
		}
		for range int(after / dt) {
			step(0)
		}
	}
}

// TestSeriesKnowsItsLegs: a series of steep turns is two, the second the other way (ACS7 CA.V.A.S3 and S4; ACS6
// PA.V.A.S3 and S4). One without both is never met, and says which is missing; the session that ends it is not the
// pilot's fault.
func TestSeriesKnowsItsLegs(t *testing.T) {
	right, left := turn{50, 360}, turn{-50, 360}
	for _, c := range []struct {
		name                    string
		turns                   []turn
		after                   float64
		verdict, grade, missing string
		change                  string
	}{
		{"both", []turn{right, left}, 10, coach.Met, coach.Excellent, "", ""},
		{"one, and no other", []turn{right}, 120, coach.Missed, coach.Fair,
			"1 of 2 legs finished, one to the left is missing", "Fly all the legs"},
		{"one, and the session ends", []turn{right}, 60, coach.NotMeasured, "",
			"1 of 2 legs finished, one to the left is missing", ""},
		{"the first too shallow", []turn{{30, 360}, left}, 120, coach.Missed, coach.Fair,
			"1 of 2 legs finished, one to the right is missing, the turn to the right was too shallow to count",
			"Fly all the legs"},
		{"the second too shallow", []turn{right, {-30, 360}}, 60, coach.Missed, coach.Fair,
			"1 of 2 legs finished, one to the left is missing, the turn to the left was too shallow to count",
			"Fly all the legs"},
		{"both the same way", []turn{right, right}, 10, coach.Missed, coach.Fair, "one to the left is missing",
			"The second the other way"},
	} {
		t.Run(c.name, func(t *testing.T) {
			plan := planOf(t, "steep-turn", "light-single")
			pilot := follow.New(judge.Options{Plan: plan, Explain: cause.Explainer{}})
			h := circling(pilot, c.turns, c.after)
			pilot.Break(phrase.Plain("the recording ended"))
			h.take(pilot.Take())
			if len(h.series) != 1 {
				t.Fatalf("%d series of %d legs", len(h.series), len(h.legs))
			}
			s := h.series[0]
			for _, l := range s.Legs {
				if l.Verdict != coach.Met {
					t.Errorf("leg %d is %s: %v", l.Number, l.Verdict, missed(l.Checks))
				}
			}
			if s.Verdict != c.verdict || s.Grade != c.grade || s.Missing.String() != c.missing ||
				s.Change.String() != c.change {
				t.Errorf("%s, %s, %.0f, %q, to change %q; want %s, %s, %q, %q",
					s.Verdict, s.Grade, s.Score, s.Missing, s.Change, c.verdict, c.grade, c.missing, c.change)
			}
		})
	}
}

// TestTooShallowIsSaid: a whole turn at 30° of bank with steep turns chosen is reported as too shallow; a standard-rate
// circle, a clearing turn, and a turn of another maneuver are not.
func TestTooShallowIsSaid(t *testing.T) {
	for _, c := range []struct {
		name  string
		card  string
		turns []turn
		want  int
	}{
		{"at 30°", "steep-turn", []turn{{30, 360}}, 1},
		{"at 30°, twice", "steep-turn-45", []turn{{-30, 360}, {30, 360}}, 2},
		{"at 30° out of a steep one", "steep-turn", []turn{{50, 360}, {-30, 360}}, 1},
		{"at standard rate", "steep-turn", []turn{{18, 360}}, 0}, // 15 % of 120 kt, FAA-H-8083-15
		{"clearing turns", "steep-turn", []turn{{30, 90}, {-30, 90}}, 0},
		{"halfway", "steep-turn", []turn{{30, 180}}, 0},
		{"steep", "steep-turn", []turn{{50, 360}, {-50, 360}}, 0},
		{"with a wing-over chosen", "wing-over", []turn{{30, 360}}, 0},
		{"with clearing turns chosen", "clearing-turns", []turn{{18, 90}}, 0},
	} {
		h := circling(follow.New(judge.Options{Plan: planOf(t, c.card, "light-single")}), c.turns, 10)
		said := 0
		for _, k := range h.said {
			if k.ID == "shallow" {
				said++
				if k.Kind != coach.Result || k.Tone != coach.Missed || k.Words != "Too shallow to count" {
					t.Errorf("%s: %+v", c.name, k)
				}
			}
		}
		if said != c.want {
			t.Errorf("%s: said %d times, want %d", c.name, said, c.want)
		}
	}
}

// TestEverySeriesIsCounted: on every card and standard a series of one leg that wants more is not met, and one that
// wants one is complete.
func TestEverySeriesIsCounted(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	plane, err := lib.AircraftNamed("light-single")
	if err != nil {
		t.Fatal(err)
	}
	for _, card := range lib.Cards() {
		var flown []stream.Sample
		circled := card.Commit.Bank > 0 && card.Ground.About == ""
		if !circled {
			pilot, err := rehearsed.NewSequence(trainer.Flight{Maneuver: card.Name, Direction: "right",
				Airplane: "light-single", Steady: true, Seed: 2})
			if err != nil {
				t.Fatal(err)
			}
			var s stream.Sample
			for pilot.Step(1.0/30, &s) {
				flown = append(flown, s)
			}
			last := flown[len(flown)-1]
			for i := range int(card.Series.Gap+10) * 30 {
				s := last
				s.Put(stream.Time, last.Value(stream.Time)+float64(i+1)/30)
				flown = append(flown, s)
			}
		}
		for _, standard := range lib.Standards() {
			judged, err := standard.Apply(card)
			if err != nil {
				t.Fatal(err)
			}
			c := follow.New(judge.Options{Plan: plan.New(judged, plane), Explain: cause.Explainer{}})
			var h heard
			if circled {
				h = circling(c, []turn{{card.Commit.Bank + 12, card.Turn}}, 100)
			}
			for i := range flown {
				c.Step(&flown[i])
				h.take(c.Take())
			}
			if len(h.legs) != 1 || len(h.series) != 1 || h.legs[0].Outcome != coach.Finished {
				t.Errorf("%s, %s: %d legs, %d series", card.Name, standard.Name, len(h.legs), len(h.series))
				continue
			}
			s, want := h.series[0], ""
			switch card.Series.Legs {
			case 2:
				want = "1 of 2 legs finished, one to the left is missing"
			case 6: // CNATRA P-330 par. 611
				want = "1 of 6 legs finished, 2 to the right are missing, 3 to the left are missing"
			}
			if s.Missing.String() != want || want != "" &&
				(s.Verdict != coach.Missed || s.Grade == coach.Excellent || s.Grade == coach.Good ||
					s.Change.IsZero()) {
				t.Errorf("%s, %s: %q, %s, %s, to change %q",
					card.Name, standard.Name, s.Missing, s.Verdict, s.Grade, s.Change)
			}
			if want == "" && s.Verdict != s.Legs[0].Verdict {
				t.Errorf("%s, %s: the only leg is %s, the series %s",
					card.Name, standard.Name, s.Legs[0].Verdict, s.Verdict)
			}
		}
	}
}

// TestLacking: legs that go to one and the other side in turn are counted by side; three begun to the right are two to
// the right and one to the left. What a standard gives no weight is not asked for.
func TestLacking(t *testing.T) {
	series := func(wanted, weight float64, opposite bool, sides ...string) *coach.Series {
		s := &coach.Series{Checks: []coach.Check{{Kind: "legs", Weight: weight, Met: [2]*float64{&wanted, nil}}}}
		if opposite {
			s.Checks = append(s.Checks, coach.Check{Kind: "directions", Weight: weight})
		}
		for _, side := range sides {
			outcome := coach.Finished
			if side == "off" {
				side, outcome = "right", coach.BrokenOff
			}
			s.Legs = append(s.Legs, coach.Leg{Direction: side, Outcome: outcome})
		}
		return s
	}
	for _, c := range []struct {
		series *coach.Series
		want   string
	}{
		{series(2, 1, true, "right", "left"), ""},
		{series(2, 1, true, "left"), "1 of 2 legs finished, one to the right is missing"},
		{series(2, 1, true, "off"), "0 of 2 legs finished"},
		{series(2, 1, true, "left", "off"), "1 of 2 legs finished, one to the right is missing"},
		{series(2, 1, true, "left", "left"), "one to the right is missing"},
		{series(2, 1, false, "left", "left"), ""},
		{series(2, 1, false, "left"), "1 of 2 legs finished"},
		{series(3, 1, true, "right", "left", "right"), ""},
		{series(3, 1, true, "right"), "1 of 3 legs finished, one to the right is missing, one to the left is missing"},
		{series(4, 1, true, "right"), "1 of 4 legs finished, one to the right is missing, 2 to the left are missing"},
		{series(2, 0, true, "left"), ""},
		{&coach.Series{Legs: []coach.Leg{{Direction: "left", Outcome: coach.Finished}}}, ""},
	} {
		if got := score.Lacking(c.series).String(); got != c.want {
			t.Errorf("%+v: %q, want %q", c.series.Legs, got, c.want)
		}
	}
}
