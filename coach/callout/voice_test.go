package callout

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// 150 words a minute are 2.5 a second; the mean simple reaction is 231 ms (Woods et al. 2015),
// for which 0.25 s are kept. So four words end 0.25 s before the checkpoint when they begin
// 4/2.5 + 0.25 = 1.85 s before it.
func TestLead(t *testing.T) {
	for _, c := range []struct {
		options      Options
		words        string
		length, lead float64
	}{
		{Options{}, "Wings level, speed, height", 1.6, 1.85},
		{Options{}, "Now", 0.4, 0.65},
		{Options{}, "  Step  on the ball ", 1.6, 1.85},
		{Options{}, "", 0, 0.25},
		{Options{Rate: 2}, "Roll out slowly", 1.5, 1.75},
		{Options{Rate: 4, Reaction: 0.5}, "Roll out slowly", 0.75, 1.25},
		{Options{Rate: -1, Reaction: -1}, "Now", 0.4, 0.65},
	} {
		v := New(c.options)
		if l, lead := v.Length(c.words), v.Lead(c.words); math.Abs(l-c.length) > 1e-9 || math.Abs(lead-c.lead) > 1e-9 {
			t.Errorf("%+v %q: length %g, lead %g; want %g, %g", c.options, c.words, l, lead, c.length, c.lead)
		}
		// Begun a lead before the checkpoint, the words end a reaction time before it.
		const checkpoint = 50.0
		if c.words == "" {
			continue
		}
		begin := checkpoint - v.Lead(c.words)
		ends := checkpoint - (c.lead - c.length)
		if !v.Say(begin, CueLevel, c.words) || !v.Busy(ends-0.001, CueLevel) || v.Busy(ends+0.001, CueLevel) {
			t.Errorf("%q begun at %g does not end at %g", c.words, begin, ends)
		}
	}
}

// A request to speak, and whether it may. Two words take 0.8 s, five take 2 s.
type request struct {
	time  float64
	level int
	words string
	want  bool
}

func TestSay(t *testing.T) {
	for name, requests := range map[string][]request{
		"a cue waits for nothing to be said": {
			{10, CueLevel, "Roll out", true}, {10.79, CueLevel, "Nose up", false}, {10.81, CueLevel, "Nose up", true}},
		"a correction does not interrupt another": {
			{10, WatchLevel, "Roll out faster", true}, {10.5, WatchLevel, "Nose up", false},
			{11.21, WatchLevel, "Nose up", true}},
		"a correction is refused while more is said": {
			{10, ResultLevel, "Roll out", true}, {10.5, WatchLevel, "Nose up", false},
			{20, SafetyLevel, "Recover now", true}, {20.5, WatchLevel, "Nose up", false},
			{20.81, WatchLevel, "Nose up", true}},
		"a correction interrupts a cue, a result a correction": {
			{10, CueLevel, "Steepest bank, nose level", true}, {10.1, WatchLevel, "Bank more", true},
			{10.2, ResultLevel, "Good", true}, {10.3, CueLevel, "Roll out", false}},
		"safety interrupts everything, safety too": {
			{10, CueLevel, "Roll out", true}, {10.1, SafetyLevel, "Level the wings", true},
			{10.2, SafetyLevel, "Altitude", true},
			{20, ResultLevel, "Good", true}, {20.1, SafetyLevel, "Too low", true}},
		"after an interruption the length is that of the later words": {
			{10, CueLevel, "One two three four five", true}, {10.1, WatchLevel, "Six", true},
			{10.49, CueLevel, "Seven", false}, {10.51, CueLevel, "Eight", true}},
		"nothing twice in four seconds": {
			{10, CueLevel, "Roll out", true}, {13.99, CueLevel, "Roll out", false}, {14, CueLevel, "Roll out", true},
			{14.9, CueLevel, "Nose up", true}, {17.9, CueLevel, "Roll out", false}},
		"nothing twice, safety neither, whatever the level": {
			{10, WatchLevel, "Roll out", true}, {12, SafetyLevel, "Roll out", false},
			{12, SafetyLevel, "Level the wings", true}, {13, SafetyLevel, "Level the wings", false},
			{16, SafetyLevel, "Level the wings", true}},
		"what was refused was not said": {
			{10, CueLevel, "Roll out", true}, {10.1, CueLevel, "Nose up", false}, {10.9, CueLevel, "Nose up", true}},
		"at time 0": {{0, CueLevel, "Roll out", true}, {1, CueLevel, "Roll out", false}},
	} {
		t.Run(name, func(t *testing.T) {
			v := New(Options{})
			for _, r := range requests {
				if got := v.Say(r.time, r.level, r.words); got != r.want {
					t.Errorf("at %g, level %d: %q allowed: %v", r.time, r.level, r.words, got)
				}
			}
		})
	}
}

// Sixteen phrases of one word interrupting each other are all remembered.
func TestSayRemembers(t *testing.T) {
	v := New(Options{})
	words := strings.Fields("a b c d e f g h i j k l m n o p")
	for i, w := range words {
		if !v.Say(10+float64(i)*0.1, SafetyLevel, w) {
			t.Fatalf("%q refused", w)
		}
	}
	for _, w := range words {
		if v.Say(12, SafetyLevel, w) {
			t.Errorf("%q said twice", w)
		}
	}
}

func TestBusy(t *testing.T) {
	v := New(Options{})
	if v.Busy(10, CueLevel) {
		t.Error("busy before anything was said")
	}
	v.Say(10, WatchLevel, "Roll out") // to 10.8
	for _, c := range []struct {
		time  float64
		level int
		want  bool
	}{{10, CueLevel, true}, {10.7, WatchLevel, true}, {10.7, ResultLevel, false}, {10.81, CueLevel, false}} {
		if v.Busy(c.time, c.level) != c.want {
			t.Errorf("at %g busy with level %d: %v", c.time, c.level, !c.want)
		}
	}
}

// The clock of a stream may start again: after Reset nothing of before holds anything up.
func TestReset(t *testing.T) {
	v := New(Options{})
	v.Say(1000, SafetyLevel, "Level the wings")
	if v.Say(2, CueLevel, "Roll out") {
		t.Error("an older time without Reset")
	}
	v.Reset()
	if v.Busy(2, CueLevel) || !v.Say(2, CueLevel, "Level the wings") {
		t.Error("Reset does not forget")
	}
}

// Whatever is asked for: two phrases overlap only where the later is of a higher level or of
// safety, and none is said twice within four seconds.
func TestSayLaws(t *testing.T) {
	phrases := []string{"Now", "Roll out", "Roll out slowly", "Step on the ball", "Less bank at the top", "Altitude",
		"Level the wings", "Nose up"}
	for seed := range uint64(50) {
		rnd := rand.New(rand.NewPCG(seed, 1))
		v := New(Options{Rate: 1.5 + rnd.Float64()*3, Reaction: 0.2})
		type spoken struct {
			request
			end float64
		}
		var last spoken
		said := map[string]float64{}
		allowed := 0
		for now := 0.0; now < 200; now += rnd.ExpFloat64() * 0.4 {
			r := request{time: now, level: rnd.IntN(SafetyLevel + 1), words: phrases[rnd.IntN(len(phrases))]}
			overlaps := allowed > 0 && now < last.end
			before, twice := said[r.words]
			twice = twice && now-before < 4
			may := !twice && (!overlaps || r.level > last.level || r.level == SafetyLevel)
			if got := v.Say(now, r.level, r.words); got != may {
				t.Fatalf("seed %d: at %g level %d %q: %v; last %+v, said before at %g",
					seed, now, r.level, r.words, got, last, before)
			}
			if may {
				last, said[r.words] = spoken{r, now + v.Length(r.words)}, now
				allowed++
			}
		}
		if allowed < 20 {
			t.Errorf("seed %d: only %d phrases", seed, allowed)
		}
	}
}

func TestSayAllocates(t *testing.T) {
	v := New(Options{})
	words := []string{"Roll out", "Step on the ball", "Wings level, speed, height"}
	now, i := 0.0, 0
	if n := testing.AllocsPerRun(1000, func() {
		now += 0.3
		i++
		v.Say(now, i%(SafetyLevel+1), words[i%3])
		v.Busy(now, CueLevel)
		v.Lead(words[i%3])
	}); n != 0 {
		t.Errorf("%v allocations a request", n)
	}
}

// Cues are sent early enough for 1.7 words a second, whoever listens: five words take 2.94 s, and
// with the reaction and half a second of margin their cue comes 3.69 s ahead.
func TestEarly(t *testing.T) {
	for words, want := range map[string]float64{"One two three four five": 3.691, "Now": 1.338, "": 0.75} {
		if got := Early(words); math.Abs(got-want) > 0.001 || got > LongestLead {
			t.Errorf("%q: %.3f s, want %.3f", words, got, want)
		}
	}
	v := New(Options{Rate: 1.7})
	if lead := v.Lead("Roll out slowly"); Early("Roll out slowly") < lead {
		t.Errorf("the slow voice needs %g s", lead)
	}
}

// What was said within four seconds is a repeat; asking says nothing.
func TestRepeats(t *testing.T) {
	v := New(Options{})
	if v.Repeats(1, "Roll out") || !v.Say(1, CueLevel, "Roll out") || !v.Repeats(4.9, "Roll out") ||
		v.Repeats(5.1, "Roll out") || v.Repeats(2, "Nose up") {
		t.Error("repeats are not those of the last four seconds")
	}
}

// A person interrupts everything but safety, is heard after that, may repeat the words, and is interrupted by safety
// alone. Two words take 0.8 s.
func TestTell(t *testing.T) {
	v := New(Options{})
	v.Say(10, ResultLevel, "Good")
	v.Tell(10.1, "Eyes outside") // to 10.9
	for _, level := range []int{CueLevel, WatchLevel, UrgentLevel, ResultLevel} {
		if v.Say(10.8, level, "Roll out") {
			t.Errorf("level %d is said over a person", level)
		}
	}
	v.Tell(11, "Eyes outside") // to 11.8
	if !v.Busy(11.7, SaidLevel) || v.Busy(11.9, CueLevel) {
		t.Error("the same words are not said again")
	}
	if !v.Say(11.2, SafetyLevel, "Push, unload") { // to 12
		t.Error("safety waits for a person")
	}
	v.Tell(11.5, "Eyes outside") // from 12 to 12.8
	if !v.Busy(12.7, CueLevel) || v.Busy(12.9, CueLevel) {
		t.Error("a person is not heard after safety")
	}
}
