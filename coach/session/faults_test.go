package session_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/session"
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// An onlooker keeps what a page would show of a flight, and sees that its time never runs backward.
type onlooker struct {
	heard
	t      *testing.T
	resets bool           // the simulator's clock is set back in the flight
	shown  float64        // time of the last frame
	said   map[string]int // by leg, kind, id and words
	safety []string
}

func newOnlooker(t *testing.T) *onlooker {
	return &onlooker{t: t, shown: math.Inf(-1), said: map[string]int{}}
}

func (o *onlooker) Frame(_ string, f *coach.Frame) {
	if f.Time < o.shown && !o.resets {
		o.t.Errorf("after %.3f s %.3f s is shown", o.shown, f.Time)
	}
	o.shown = f.Time
}

func (o *onlooker) Event(m message.Message) {
	o.heard.Event(m)
	c, is := m.Body.(message.Callout)
	if !is {
		return
	}
	o.said[fmt.Sprintf("leg %d: %s %s %q", len(o.legs)+1, c.Kind, c.ID, c.Words)]++
	if c.Kind == coach.Safety {
		o.safety = append(o.safety, c.ID)
	}
}

// watched feeds a flight.
func watched(t *testing.T, w truth, list []capture.Datagram) *onlooker {
	t.Helper()
	o := newOnlooker(t)
	o.resets = strings.Contains(t.Name(), "reset")
	s := session.New(options(t, w.Maneuver, w.Aircraft, o))
	for _, d := range list {
		s.Feed(d.Payload, d.Seconds())
	}
	s.End(phrase.Read("the recording ended"))
	return o
}

// A transport does to datagrams what a network may: late are those that come again behind others, and lost those that
// never come.
type transport struct {
	random *rand.Rand
	share  float64 // of datagrams that it happens to
	burst  float64 // s for which it goes on; 0: each by itself
}

// hit returns which datagrams it happens to.
func (n transport) hit(list []capture.Datagram) []bool {
	hit := make([]bool, len(list))
	until := math.Inf(-1)
	every := max(n.burst, 1e-9) / n.share // between two bursts, on average
	for i := range list {
		now := list[i].Seconds()
		switch {
		case n.burst == 0:
			hit[i] = n.random.Float64() < n.share
		case now < until:
			hit[i] = true
		case i > 0 && n.random.Float64() < (now-list[i-1].Seconds())/every:
			hit[i], until = true, now+n.burst
		}
	}
	return hit
}

// without loses datagrams.
func without(list []capture.Datagram, hit []bool) (kept []capture.Datagram) {
	for i, d := range list {
		if !hit[i] {
			kept = append(kept, d)
		}
	}
	return kept
}

// An arrival is a datagram as it arrives, and its place among those that were sent.
type arrival struct {
	capture.Datagram
	sent int
}

// behind has datagrams come after that many that were sent after them; themselves, or copies of them.
func behind(list []capture.Datagram, hit []bool, by int, copies bool) []arrival {
	var out []arrival
	due := map[int][]arrival{}
	for i, d := range list {
		if !hit[i] || copies {
			out = append(out, arrival{d, i})
		}
		if hit[i] {
			due[i+by] = append(due[i+by], arrival{d, i})
		}
		for _, l := range due[i] {
			l.Received = d.Received
			out = append(out, l)
		}
	}
	return out
}

// split returns all that arrived, and what of it no datagram that was sent later, or the same one, had overtaken.
func split(list []arrival) (all, ahead []capture.Datagram) {
	latest := -1
	for _, d := range list {
		all = append(all, d.Datagram)
		if d.sent > latest {
			ahead = append(ahead, d.Datagram)
			latest = d.sent
		}
	}
	return all, ahead
}

// A datagram that is overtaken, or comes twice, changes nothing: the flight is that without it, to the last digit.
func TestLateAndDoubledChangeNothing(t *testing.T) {
	all := loadTruth(t)
	for _, name := range []string{
		"wo-turboprop-b-good-1",
		"simulator-chandelle-civil-right",
		"chandelle-traditional-turboprop-a-stalled",
	} {
		w := all[name]
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			list := datagrams(t, name)
			sent := watched(t, w, list)
			for seed, burst := range []float64{0, 0.3} {
				n := transport{rand.New(rand.NewPCG(uint64(seed), 1)), 0.1, burst}
				hit := n.hit(list)
				for i, late := range []float64{0, 0.02, 0.3, 0.8} { // a whole second would be a clock that was set back
					by := int(math.Ceil(late * float64(len(list)) / (list[len(list)-1].Seconds() - list[0].Seconds())))
					copies := (i+seed)%2 == 0 // once with each lateness, and with each burst
					all, ahead := split(behind(list, hit, by, copies))
					ideal := sent // copies overtake nothing
					if !copies {
						ideal = watched(t, w, ahead)
					}
					what := fmt.Sprintf("bursts of %v s, %v s late, copies %v", burst, late, copies)
					same(t, what, ideal, watched(t, w, all))
				}
			}
		})
	}
}

// same compares two flights that were seen.
func same(t *testing.T, what string, a, b *onlooker) {
	t.Helper()
	if d := cmp.Diff(a.legs, b.legs); d != "" {
		t.Errorf("%s: the legs differ (-without +with):\n%.2000s", what, d)
	}
	if d := cmp.Diff(a.said, b.said); d != "" {
		t.Errorf("%s: what is said differs (-without +with):\n%.1000s", what, d)
	}
}

// Where a tenth of the datagrams is lost, each by itself or in bursts of 0.3 s, the flight is graded as it was flown:
// nothing of safety is said that was not said of all of it, nothing is said twice, and every verdict is the same, but
// for those that say that the loss leaves them open: they are in the pilot's favor, or nothing is measured.
func TestLossHardlyMovesAGrade(t *testing.T) {
	for name, w := range loadTruth(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			list := datagrams(t, name)
			whole := watched(t, w, list)
			for seed, burst := range []float64{0, 0.3} {
				n := transport{rand.New(rand.NewPCG(uint64(seed), 2)), 0.1, burst}
				got := watched(t, w, without(list, n.hit(list)))
				alike(t, fmt.Sprintf("seed %d, bursts of %v s", seed, burst), whole, got)
			}
		})
	}
}

// alike compares a flight with the same one of which a part was lost.
func alike(t *testing.T, what string, whole, got *onlooker) {
	t.Helper()
	for key, n := range got.said {
		if n > max(1, whole.said[key]) {
			t.Errorf("%s: %s is said %d times, of all that was sent %d times", what, key, n, whole.said[key])
		}
	}
	if extra := missing(got.safety, whole.safety); len(extra) > 0 {
		t.Errorf("%s: safety calls %q that the flight does not have", what, extra)
	}
	if len(got.legs) != len(whole.legs) {
		t.Errorf("%s: %d legs, of all that was sent %d", what, len(got.legs), len(whole.legs))
		return
	}
	for i := range got.legs {
		a, b := &whole.legs[i], &got.legs[i]
		if a.Outcome != b.Outcome || a.Direction != b.Direction {
			t.Errorf("%s: leg %d is %s, %s, of all that was sent %s, %s", what, i+1, b.Direction, b.Outcome,
				a.Direction, a.Outcome)
		}
		open := false // something could not be measured for the loss, or not well enough to call it missed or near
		for k := range a.Checks {
			x, y := &a.Checks[k], &b.Checks[k]
			unmeasured := y.Verdict == coach.NotMeasured && !y.Reason.IsZero()
			doubtful := y.Doubt != "" && rank[y.Verdict] == rank[x.Verdict]-1
			if x.Verdict != y.Verdict {
				open = true
				if !unmeasured && !doubtful {
					t.Errorf("%s: leg %d, %s is %s, of all that was sent %s", what, i+1, x.ID, y.Verdict, x.Verdict)
				}
			}
			most := 1 + 0.05*math.Abs(value(x.Value))
			if strings.Contains(x.ID, "height") { // half of the 100 ft that the standards allow
				most = 50
			}
			if math.Abs(value(x.Value)-value(y.Value)) > most {
				t.Errorf("%s: leg %d, %s is %g, of all that was sent %g", what, i+1, x.ID, value(y.Value),
					value(x.Value))
			}
		}
		if math.Abs(a.Score-b.Score) > 3 && !open {
			t.Errorf("%s: leg %d has %g points, of all that was sent %g", what, i+1, b.Score, a.Score)
		}
	}
}

// value is not a number where nothing was measured, which compares with nothing.
func value(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

// rank orders the verdicts.
var rank = map[string]int{coach.Met: 0, coach.Near: 1, coach.Missed: 2}

// missing returns what of a is not in b.
func missing(a, b []string) (list []string) {
	there := map[string]bool{}
	for _, s := range b {
		there[s] = true
	}
	for _, s := range a {
		if !there[s] {
			list = append(list, s)
		}
	}
	return list
}

// A gap that is too long to grade over leaves what lies in it without a verdict, or ends the leg, and says so.
func TestGapIsNotGradedOver(t *testing.T) {
	w := loadTruth(t)["wo-turboprop-b-good-1"]
	list := datagrams(t, "wo-turboprop-b-good-1")
	whole := watched(t, w, list)
	leg := &whole.legs[0]
	for gap, outcome := range map[float64]string{1.5: coach.Finished, 2.5: coach.BrokenOff, 8: coach.BrokenOff} {
		from := leg.Points[1].Time - gap/2 // around the middle of the turn
		hit := make([]bool, len(list))
		p := pipeline.New(pipeline.Options{})
		for i, d := range list {
			if sample, r := p.Feed(d.Payload, d.Seconds()); r.Outcome == pipeline.Accepted {
				now := sample.Value(stream.Time)
				hit[i] = now > from && now < from+gap
			}
		}
		got := watched(t, w, without(list, hit)).legs[0]
		open := 0
		for i := range got.Checks {
			if k := &got.Checks[i]; k.Verdict == coach.NotMeasured && !k.Reason.IsZero() {
				open++
			}
		}
		if got.Outcome != outcome || open == 0 || outcome == coach.BrokenOff && !got.Reason.Is(phrase.Gap) {
			t.Errorf("over a gap of %v s the leg is %s (%v), %d checks open", gap, got.Outcome, got.Reason, open)
		}
	}
}
