package talk_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/check"
	"halfturn/coach/leg"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/talk"
	"halfturn/coach/track"
	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A pilot is a leg flown by hand: the test sets its state.
type pilot struct {
	now, entry check.Moment
	rates      track.Rates
	left       func(turn float64) float64
	verdict    string
}

func (p *pilot) Moment() *check.Moment              { return &p.now }
func (p *pilot) Entry() *check.Moment               { return &p.entry }
func (p *pilot) Side() float64                      { return 1 }
func (p *pilot) Rates() *track.Rates                { return &p.rates }
func (p *pilot) Until(turn float64) (float64, bool) { return p.left(turn), true }
func (p *pilot) SoFar(int) coach.Check {
	return coach.Check{ID: "x", Verdict: p.verdict, Weight: 1, Words: "Pull the nose higher"}
}
func (p *pilot) Exiting() bool { return false }

func (p *pilot) Pivotal(float64) (float64, bool) { return 0, false }

func (p *pilot) Expected() plan.Choice { return plan.Choice{} }

// A stage is a talk with its pilot and what was said.
type stage struct {
	*talk.Talk
	pilot *pilot
	out   coach.Events
	said  []*coach.Callout
	ends  []leg.End
	time  float64
}

func newStage(t *testing.T, card, aircraft, standard string) *stage {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	c, err := lib.Judged(card, standard)
	if err != nil {
		t.Fatal(err)
	}
	a, err := lib.AircraftNamed(aircraft)
	if err != nil {
		t.Fatal(err)
	}
	s := &stage{time: 100, pilot: &pilot{verdict: coach.Met}}
	s.pilot.left = func(turn float64) float64 { return (turn - s.pilot.now.Turn) / 8 }
	s.Talk = talk.New(plan.New(c, a), callout.Options{}, &s.out, func(e leg.End) { s.ends = append(s.ends, e) })
	return s
}

// at moves the flight to a turn angle, with a bank and a nose, at a speed (kt).
func (s *stage) at(turn, bank, nose, speed float64) {
	s.time += 0.1
	var x stream.Sample
	x.Put(stream.Time, s.time)
	x.Put(stream.Heading, turn)
	x.Put(stream.Bank, bank)
	x.Put(stream.Pitch, nose)
	x.Put(stream.Airspeed, speed)
	x.Put(stream.NormalLoad, 1)
	x.Put(stream.Altitude, 6000)
	s.pilot.now.Set(&x, turn, 1)
	if s.pilot.entry.Sample.Has == 0 {
		s.pilot.entry = s.pilot.now
	}
	s.Watch(s.time, &x, math.NaN())
}

// fly flies on at a turn angle for some time.
func (s *stage) fly(seconds, turn, bank, nose, speed float64) {
	for end := s.time + seconds; s.time < end; {
		s.at(turn, bank, nose, speed)
		s.Fly()
	}
	s.take()
}

func (s *stage) take() {
	for _, e := range s.out.Take() {
		s.said = append(s.said, e.(*coach.Callout))
	}
}

// words lists what was said of a kind.
func (s *stage) words(kind string) (list []string) {
	for _, k := range s.said {
		if k.Kind == kind {
			list = append(list, k.Words)
		}
	}
	return list
}

// begin begins a leg of a wing-over in the turboprop trainer.
func begin(t *testing.T, standard string) *stage {
	s := newStage(t, "wing-over", "turboprop-trainer", standard)
	s.at(0, 0, 0, 220)
	s.Begin(s.pilot)
	return s
}

// A cue is not sent before the checkpoint ahead of it is passed, however soon it is predicted: with the nose far too
// high the prediction for 90° came at 25°.
func TestCueWaitsForTheCheckpointAhead(t *testing.T) {
	s := begin(t, "practice")
	s.pilot.left = func(float64) float64 { return 2 }
	s.fly(1, 25, 28, 18, 200)
	if got := s.words(coach.Cue); !slices.Equal(got, []string{"Nose highest now"}) {
		t.Errorf("at 25° the cues sent are %q", got)
	}
	s.fly(1, 46, 46, 26, 170)
	if got := s.words(coach.Cue); len(got) != 2 || !strings.HasSuffix(got[1], "nose level") {
		t.Errorf("at 46° the cues sent are %q", got)
	}
}

// After a checkpoint there is a tone and no words: an order for 45° is wrong at 46°.
func TestAfterIsATone(t *testing.T) {
	s := begin(t, "practice")
	s.fly(1, 40, 40, 20, 180)
	s.pilot.verdict = coach.Missed
	s.fly(1, 46, 46, 22, 170)
	tones := 0
	for _, k := range s.said {
		if k.Kind == coach.After {
			tones++
			if k.Words != "" || k.Tone != coach.Missed {
				t.Errorf("%+v", k)
			}
		}
	}
	if tones == 0 {
		t.Error("no tone")
	}
}

// A nose far too high is said while it grows, again after a pause of three seconds at most (MIL-STD-1472 5.3.5, from
// memory) until it is cured, and no cue comes meanwhile.
func TestWayBackFromTheNose(t *testing.T) {
	s := begin(t, "practice")
	s.fly(9, 25, 28, 46, 170)
	var times []float64
	for _, k := range s.said {
		switch k.Kind {
		case coach.Watch:
			if k.Words != "Lower the nose" {
				t.Errorf("%q", k.Words)
			}
			times = append(times, k.Time)
		case coach.Cue:
			t.Errorf("%q while the nose is at 46°", k.Words)
		}
	}
	if len(times) < 3 || times[0] > 101 {
		t.Fatalf("said at %v s", times)
	}
	for i := 1; i < len(times); i++ {
		length := 3 / 2.5 // words a second
		if pause := times[i] - times[i-1] - length; pause > 3 || pause < 2 {
			t.Errorf("%.1f s of pause", pause)
		}
	}
	s.said = nil
	s.fly(5, 30, 30, 20, 170)
	if got := s.words(coach.Watch); len(got) > 0 {
		t.Errorf("cured, and %q", got)
	}
}

// Never past ninety: the way back names the control. Past 90° it unloads first, then rolls (AURTA).
func TestWayBackFromTheBank(t *testing.T) {
	s := begin(t, "course")
	s.fly(4, 85, 111, 3, 150)
	if got := s.words(coach.Safety); len(got) == 0 || got[0] != "Unload, less bank" {
		t.Errorf("at 111° of bank: %q", got)
	}
	s.fly(4, 88, 70, 0, 150)
	if got := s.words(coach.Clear); !slices.ContainsFunc(s.said, func(k *coach.Callout) bool {
		return k.Kind == coach.Clear && k.ID == coach.LimitBank
	}) {
		t.Errorf("cured, and not cleared: %q", got)
	}
}

// The words of a limit by attitude. Stall: push, at any bank (Airplane Flying Handbook). Too fast: power, wings level,
// then the nose (Instrument Flying Handbook). Load: less of what makes it, pull or push.
func TestSafetyWords(t *testing.T) {
	for _, r := range []struct {
		why                     string
		bank, nose, speed, load float64
		want                    string
	}{
		{"stalled, wings level", 0, 10, 80, 1, "Push, unload"},
		{"stalled at 75° of bank", 75, 10, 120, 4, "Push, unload"},
		{"stalled, nose low", 60, -20, 80, 1, "Push, unload"},
		{"too much pull", 40, -10, 290, 7.5, "Ease the pull"},
		{"too much push", 40, 10, 260, -4.5, "Ease the push"},
		{"too fast, nose up", 60, 5, 330, 1, "Too fast! Power back"},
		{"too fast, nose low and steep", 60, -20, 330, 1, "Power back, wings level"},
		{"too fast, nose low, wings level", 10, -20, 330, 1, "Power back, nose up gently"},
	} {
		s := begin(t, "check")
		var x stream.Sample
		x.Put(stream.Time, s.time)
		x.Put(stream.Bank, r.bank)
		x.Put(stream.Pitch, r.nose)
		x.Put(stream.Airspeed, r.speed)
		x.Put(stream.NormalLoad, r.load)
		s.Watch(s.time, &x, math.NaN())
		s.take()
		if got := s.words(coach.Safety); len(got) != 1 || got[0] != r.want {
			t.Errorf("%s: %q; must be %q", r.why, got, r.want)
		}
	}
}

// Every way back says what it asks, in five words at most.
func TestWordsAreDeclared(t *testing.T) {
	for _, w := range talk.Words() {
		if n := len(strings.Fields(w)); n > 5 {
			t.Errorf("%q has %d words", w, n)
		}
	}
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range lib.Cards() {
		for _, q := range c.AllCues {
			if q.Say != "" && len(q.Asks) == 0 {
				t.Errorf("%s: %q declares nothing", c.Name, q.Say)
			}
		}
		for _, w := range c.Watches {
			if w.High != "" && w.HighAsks == "" || w.Low != "" && w.LowAsks == "" {
				t.Errorf("%s: the watch %s declares nothing", c.Name, w.ID)
			}
		}
	}
}

// The check standard is silent but for safety and how the leg went; a choice overrides it.
func TestPrompts(t *testing.T) {
	for _, r := range []struct {
		standard, choice string
		silent           bool
	}{
		{"check", callout.PromptsCard, true}, {"check", callout.PromptsAll, false},
		{"practice", "", false}, {"practice", callout.PromptsOff, true}, {"course", callout.PromptsCard, false},
	} {
		s := begin(t, r.standard)
		s.Prompt(r.choice)
		s.fly(3, 25, 28, 46, 170)
		s.fly(1, 46, 46, 22, 170)
		if silent := len(s.said) == 0; silent != r.silent {
			t.Errorf("%s, %q: said %d times", r.standard, r.choice, len(s.said))
		}
		s.End()
		s.Result(180, &coach.Leg{Outcome: coach.Finished, Verdict: coach.Met, Grade: coach.Good})
		s.take()
		if got := s.words(coach.Result); !slices.Equal(got, []string{"Good"}) {
			t.Errorf("%s: the result is %q", r.standard, got)
		}
	}
}

// finished is a leg with a verdict at 45°.
func finished(verdict string) *coach.Leg {
	l := &coach.Leg{Outcome: coach.Finished, Verdict: coach.Met, Grade: coach.Good}
	l.Checks = []coach.Check{{ID: "bank-at-45", Post: new(45.0), Verdict: verdict}}
	return l
}

// The cue of a point that was met twice in a row falls silent, and returns when it is missed.
func TestFade(t *testing.T) {
	s := newStage(t, "wing-over", "turboprop-trainer", "course")
	var heard []bool
	for _, verdict := range []string{coach.Met, coach.Near, coach.Met, coach.Missed, coach.Met} {
		s.said = nil
		s.time += 60
		s.at(0, 0, 0, 220)
		s.Begin(s.pilot)
		s.pilot.left = func(float64) float64 { return 2 }
		s.fly(1, 30, 30, 18, 190)
		heard = append(heard, slices.Contains(s.words(coach.Cue), "Nose highest now"))
		s.End()
		s.Result(180, finished(verdict))
	}
	if want := []bool{true, true, false, false, true}; !slices.Equal(heard, want) {
		t.Errorf("the cue was heard in the legs %v; must be %v", heard, want)
	}
}

// The one thing to change is said after the leg as for the next one, and once more before it, when the set-up is ready.
func TestNextTime(t *testing.T) {
	s := begin(t, "course")
	s.End()
	s.Result(180, &coach.Leg{Outcome: coach.Finished, Verdict: coach.Missed, Change: phrase.Plain("Bank off sooner")})
	s.take()
	if got := s.words(coach.Result); !slices.Equal(got, []string{"Not within standard"}) {
		t.Errorf("the result is %q", got)
	}
	if got := s.words(coach.NextTime); !slices.Equal(got, []string{"Bank off sooner"}) {
		t.Errorf("for the next leg: %q", got)
	}
	s.said = nil
	level := []coach.Gate{{ID: "wings-level", Value: new(0.0), OK: true}, {ID: "clearing-turns", OK: true}}
	for range 200 {
		s.at(180, 0, 0, 220)
		s.SetUp(level, true, &s.pilot.now.Sample)
	}
	s.take()
	if got := s.words(coach.SetUpSaid); !slices.Equal(got, []string{"Ready"}) {
		t.Errorf("the set-up: %q", got)
	}
	if got := s.words(coach.NextTime); !slices.Equal(got, []string{"Bank off sooner"}) {
		t.Errorf("before the next leg: %q", got)
	}
}

// By ear: the gate that is not open is named by what to do, three times at most.
func TestSetUpByEar(t *testing.T) {
	for _, r := range []struct {
		gate  string
		speed float64
		want  string
	}{
		{"wings-level", 220, "Level the wings"}, {"height-held", 220, "Hold your height"},
		{"entry-speed", 250, "Slow down to"}, {"entry-speed", 150, "Speed up to"},
		{"ball", 220, "Center the ball"}, {"hard-deck", 220, "Too low to begin"},
		{"on-the-line", 220, "Turn onto the line"},
	} {
		s := newStage(t, "wing-over", "turboprop-trainer", "course")
		for range 600 {
			s.at(0, 2, 0, r.speed)
			s.SetUp([]coach.Gate{{ID: r.gate, Value: new(9.0)}}, false, &s.pilot.now.Sample)
		}
		s.take()
		got := s.words(coach.SetUpSaid)
		if len(got) != 3 || !strings.HasPrefix(got[0], r.want) {
			t.Errorf("%s: %q", r.gate, got)
		}
	}
}
