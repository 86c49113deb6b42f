package course

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
)

var update = flag.Bool("update", false, "rewrite the table of luck.md")

// What a rule of a shipped course must keep to. A student who meets the standard every other time is not ready for the
// next step, and one who meets it nine times in ten is. Common practice, no source.
const (
	evening    = 20   // legs
	notReady   = 0.5  // chance of a good leg
	ready      = 0.9  //
	mostLuck   = 0.05 // of those who are not ready pass in an evening
	leastReady = 0.8  // of those who are pass in an evening
	mostSlips  = 0.02 // of the steps of those who are ready slip in an evening
	leastSlips = 0.75 // of the steps of those who are not
)

// students are simulated for each number: one standard error of a share is at most 1.1 %.
const students = 2000

// follow flies legs of a student whose every leg is good with a chance, right and left in turn, until the step is in a
// state. It returns the number of legs, 0 when it took more than most.
func follow(f *follower, random *rand.Rand, chance float64, state string, most int) int {
	sides := [2]string{"left", "right"}
	l := Flown{Leg: &coach.Leg{}}
	for n := 1; n <= most; n++ {
		l.Leg.Direction, l.Leg.Verdict = sides[n%2], coach.Missed
		if random.Float64() < chance {
			l.Leg.Verdict = coach.Met
		}
		if f.take(&l); f.state == state {
			return n
		}
	}
	return 0
}

// passing simulates students who fly up to a number of legs: how many of them pass by a rule within some legs, and how
// many legs half of those take who pass at all.
func passing(rule Rule, chance float64, within ...int) (shares []float64, median int) {
	random := rand.New(rand.NewPCG(uint64(rule.Good*100+rule.Of), math.Float64bits(chance)))
	most := slices.Max(within)
	var took []int
	for range students {
		f := &follower{step: &Step{Pass: &rule}, state: Open, slip: 2}
		if n := follow(f, random, chance, Passed, most); n > 0 {
			took = append(took, n)
		}
	}
	slices.Sort(took)
	for _, n := range within {
		at, _ := slices.BinarySearch(took, n+1)
		shares = append(shares, float64(at)/students)
	}
	if len(took) > 0 {
		median = took[len(took)/2]
	}
	return shares, median
}

// slipping simulates students who have passed a step: how many of them see it slip within some legs.
func slipping(missed int, chance float64, within int) float64 {
	random := rand.New(rand.NewPCG(uint64(missed), math.Float64bits(chance)))
	slipped := 0
	for range students {
		f := &follower{step: &Step{Pass: &Rule{Good: 5, Of: 6, Sides: EachSide}}, state: Passed, slip: missed}
		if follow(f, random, chance, Slipped, within) > 0 {
			slipped++
		}
	}
	return float64(slipped) / students
}

var chances = []float64{0.3, 0.5, 0.7, 0.8, 0.9, 0.95}

const luckHead = `# How often a step is passed by luck

Simulated: students whose every leg is good with the chance at the head of the column, right and left in turn. In each
cell: how many of a hundred pass within 20 legs, and within 40, and the number of legs that half of those took who
passed.

| rule |`

const slipHead = `

A check flight has one try to each side a day, and is open only to who passed the step before it.

## How often a passed step slips

In each cell: of how many of a hundred it slips within 20 legs.

| missed in a row |`

// TestLuck holds the table of how often a step is passed by luck; go test -update writes it.
func TestLuck(t *testing.T) {
	var b strings.Builder
	b.WriteString(luckHead)
	for _, p := range chances {
		fmt.Fprintf(&b, " %.0f %% |", 100*p)
	}
	b.WriteString("\n|---|" + strings.Repeat("---|", len(chances)) + "\n")
	for _, r := range []Rule{
		{Good: 3, Of: 4, Sides: EitherSide}, {Good: 5, Of: 6, Sides: EitherSide}, {Good: 3, Of: 3, Sides: EachSide},
		{Good: 3, Of: 4, Sides: EachSide}, {Good: 4, Of: 4, Sides: EachSide}, {Good: 5, Of: 6, Sides: EachSide},
		{Good: 8, Of: 10, Sides: EachSide},
	} {
		fmt.Fprintf(&b, "| %d of %d to %s side |", r.Good, r.Of, r.Sides)
		for _, p := range chances {
			shares, median := passing(r, p, evening, 2*evening)
			fmt.Fprintf(&b, " %.1f/%.1f/%d |", 100*shares[0], 100*shares[1], median)
		}
		b.WriteString("\n")
	}
	b.WriteString("| check flight, a day |")
	for _, p := range chances {
		fmt.Fprintf(&b, " %.1f |", 100*p*p)
	}
	b.WriteString(slipHead)
	for _, p := range chances {
		fmt.Fprintf(&b, " %.0f %% |", 100*p)
	}
	b.WriteString("\n|---|" + strings.Repeat("---|", len(chances)) + "\n")
	for _, n := range []int{1, 2, 3} {
		fmt.Fprintf(&b, "| %d |", n)
		for _, p := range chances {
			fmt.Fprintf(&b, " %.1f |", 100*slipping(n, p, evening))
		}
		b.WriteString("\n")
	}
	const file = "testdata/luck.md"
	if *update {
		if err := os.WriteFile(file, []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("the table has changed; go test -update writes it:\n%s", b.String())
	}
}

// TestNotByLuck holds every rule of a shipped course to what it says of itself.
func TestNotByLuck(t *testing.T) {
	rules := map[Rule]bool{}
	for _, c := range shipped(t).Courses() {
		if a, b := slipping(c.Slip.Missed, ready, evening), slipping(c.Slip.Missed, notReady, evening); a > mostSlips ||
			b < leastSlips {
			t.Errorf("%s: of those who are ready %.1f %% slip, of those who are not %.1f %%", c.Name, 100*a, 100*b)
		}
		for i := range c.Steps {
			if s := &c.Steps[i]; !s.Check {
				rules[Rule{Good: s.Pass.Good, Of: s.Pass.Of, Sides: s.Pass.Sides}] = true
			}
		}
	}
	if len(rules) < 2 {
		t.Fatalf("only %d rules", len(rules))
	}
	for rule := range rules {
		luck, _ := passing(rule, notReady, evening)
		pass, _ := passing(rule, ready, evening)
		if luck[0] > mostLuck || pass[0] < leastReady {
			t.Errorf("%+v: %.1f %% pass by luck, and %.1f %% of those who are ready", rule, 100*luck[0], 100*pass[0])
		}
	}
}

// Runs of good tries as W. Feller, An Introduction to Probability Theory and Its Applications, vol. I, ch. XIII.7
// counts them: of the strings of n letters, those without k in a row are the sum of those of the k lengths before.
func TestLuckOfRuns(t *testing.T) {
	for _, k := range []int{3, 4, 5, 6} {
		without := []float64{}
		for n := range evening + 1 {
			all := math.Exp2(float64(n))
			switch {
			case n == k:
				all--
			case n > k:
				all = 0
				for _, x := range without[n-k:] {
					all += x
				}
			}
			without = append(without, all)
		}
		want := 1 - without[evening]/math.Exp2(evening)
		got, _ := passing(Rule{Good: k, Of: k, Sides: EitherSide}, 0.5, evening)
		if math.Abs(got[0]-want) > 4*math.Sqrt(want*(1-want)/students) {
			t.Errorf("%d in a row: %.3f pass; must be %.3f", k, got[0], want)
		}
	}
}

// The first try to each side at which a rule can be met: the tail of the binomial distribution, squared for two sides.
func TestLuckOfTheFirst(t *testing.T) {
	for _, x := range []struct {
		good, of int
		chance   float64
		tail     float64 // to one side, by hand
	}{
		{5, 6, 0.5, 7.0 / 64}, {4, 4, 0.5, 1.0 / 16}, {3, 4, 0.5, 5.0 / 16}, {5, 6, 0.9, 0.885735},
	} {
		rule := Rule{Good: x.good, Of: x.of, Sides: EachSide}
		got, _ := passing(rule, x.chance, 2*x.of)
		want := x.tail * x.tail
		if math.Abs(got[0]-want) > 4*math.Sqrt(want*(1-want)/students) {
			t.Errorf("%d of %d at %.1f: %.4f; must be %.4f", x.good, x.of, x.chance, got, want)
		}
	}
}
