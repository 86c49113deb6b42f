package debrief

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/score"
)

// Causes finds why a leg or a series lost score. It is a pure function of what it is handed,
// safe for concurrent use, and leaves everything but Causes and Change alone.
type Causes struct{}

// What a cause must bring back, points of the score. All common practice, no source.
const (
	worthTelling = 1.0  // where nothing was missed; less is scatter
	worthListing = 0.3  // where something was missed
	minorGain    = 3.0  // a cause that brings back less is minor
	closeCall    = 90.0 // a check below this came close to its limit
	causesToTell = 3
	pull         = 2.0 // what follows from a cause counts up to so many times its own loss
)

// A rule is one cause: when it holds, and which checks would have read as aimed without it. A
// check is named by its id, with + when it must lie above its aim, − as "-" below.
type rule struct {
	id      string
	meaning string
	on      []string // holds when one of these is near or missed; these are the cause's own
	own     []string // its own too when they are off to that side, but they don't show it alone
	drags   []string // what follows from it physically
	against []string // causes whose advice is the opposite: of the two the one that costs less is not told
	when    func(*flown) bool
	in      func(*maneuver.Card) bool // the maneuvers it can be of, as when tells of a leg; nil is all
	told    func(*flown) string       // evidence beside the checks', "" for none
	say     string                    // the correction, at most five words
	advice  string                    // the fact first, then what to do
	other   map[string][2]string      // say and advice for a maneuver in which others are right
}

// words returns what to say and to advise in a maneuver.
func (r *rule) words(p *plan.Plan) (say, advice string) {
	if p != nil && p.Card != nil {
		if w, ok := r.other[p.Card.Name]; ok {
			return w[0], w[1]
		}
	}
	return r.say, r.advice
}

// flown is a leg or a series with the score each check still has to explain.
type flown struct {
	plan    *plan.Plan
	leg     *coach.Leg    // nil for a series
	series  *coach.Series // nil for a leg
	keen    bool          // nothing was missed: what came close to a limit counts too
	checks  map[string]*coach.Check
	loss    map[string]float64 // weight times lost score, what no cause has explained yet
	weight  float64            // of all that was measured
	part    float64            // of the score that these checks make up
	missing float64            // points lost altogether
}

func newFlown(p *plan.Plan, l *coach.Leg, checks []coach.Check) *flown {
	f := &flown{plan: p, leg: l, checks: map[string]*coach.Check{}, loss: map[string]float64{}, part: 1}
	for i := range checks {
		k := &checks[i]
		if k.Value == nil || k.Verdict == coach.NotMeasured || k.Weight == 0 {
			continue
		}
		f.checks[k.ID] = k
		f.loss[k.ID] = k.Weight * (100 - k.Score)
		f.weight += k.Weight
	}
	return f
}

// named finds a check by a rule's word for it; nil when it lies on the other side of its aim.
func (f *flown) named(word string) *coach.Check {
	id := strings.TrimLeft(word, "+-")
	k := f.checks[id]
	if k == nil {
		return nil
	}
	switch high := above(k); {
	case word[0] == '+' && !high, word[0] == '-' && high:
		return nil
	}
	return k
}

// above tells whether a value lies above its aim, or above the middle of what is wanted.
func above(k *coach.Check) bool {
	switch low, high := k.Met[0], k.Met[1]; {
	case k.Aim != nil:
		return *k.Value > *k.Aim
	case low != nil && high != nil:
		return *k.Value > (*low+*high)/2
	default:
		return high != nil && *k.Value > *high
	}
}

// off tells whether a check is near or missed, to the side its word says.
func (f *flown) off(word string) bool {
	k := f.named(word)
	return k != nil && (k.Verdict == coach.Near || k.Verdict == coach.Missed)
}

func (f *flown) missed(word string) bool {
	k := f.named(word)
	return k != nil && k.Verdict == coach.Missed
}

// A finding is a rule that holds: what it would bring back, by check, and in points.
type finding struct {
	rule  *rule
	frees map[string]float64
	gain  float64
}

// weigh scores again with the cause removed: its own checks as if at their aim, and what
// follows from it too, as far as it can be strong enough for that.
func (f *flown) weigh(r *rule) (finding, bool) {
	found := finding{rule: r, frees: map[string]float64{}}
	if r.when != nil && !r.when(f) {
		return found, false
	}
	holds := len(r.on) == 0
	for _, word := range r.on {
		k := f.named(word)
		holds = holds || f.off(word) || f.keen && k != nil && k.Score < closeCall
	}
	if !holds {
		return found, false
	}
	own := f.free(found.frees, r.on, 1) + f.free(found.frees, r.own, 1)
	if len(r.on) == 0 {
		for id, loss := range f.loss {
			found.frees[id] = loss
			own += loss
		}
	}
	var all float64
	for _, word := range r.drags {
		if k := f.named(word); k != nil && found.frees[k.ID] == 0 {
			all += f.loss[k.ID]
		}
	}
	total := own
	if all > 0 {
		total += f.free(found.frees, r.drags, math.Min(1, pull*own/all))
	}
	found.gain = f.part * total / f.weight
	return found, own > 0
}

// free adds a share of the loss of the named checks and returns how much that is.
func (f *flown) free(frees map[string]float64, words []string, share float64) (sum float64) {
	for _, word := range words {
		if k := f.named(word); k != nil && frees[k.ID] == 0 {
			frees[k.ID] = share * f.loss[k.ID]
			sum += frees[k.ID]
		}
	}
	return sum
}

// rank takes the cause that brings back most, then the one that brings back most of what is
// left. Of two that bring back the same, the one earlier in the list is the root.
func (f *flown) rank(rules []rule, least float64) []finding {
	var list []finding
	for len(list) < causesToTell {
		var best finding
		for i := range rules {
			if slices.ContainsFunc(list, func(told finding) bool { return opposite(told.rule, &rules[i]) }) {
				continue
			}
			if x, ok := f.weigh(&rules[i]); ok && x.gain > best.gain+1e-9 {
				best = x
			}
		}
		if best.rule == nil || best.gain < least {
			break
		}
		for id, x := range best.frees {
			f.loss[id] -= x
		}
		list = append(list, best)
	}
	return list
}

// opposite tells whether who follows the one advice acts against the other.
func opposite(a, b *rule) bool {
	return slices.Contains(a.against, b.id) || slices.Contains(b.against, a.id)
}

// ExplainLeg fills in the causes of a leg, at most three, and the one thing to change.
func (Causes) ExplainLeg(p *plan.Plan, l *coach.Leg) {
	f := newFlown(p, l, l.Checks)
	f.missing = 100 - l.Score
	least, minor := worthListing, false
	if l.Verdict != coach.Missed {
		least, minor, f.keen = worthTelling, true, true
	}
	l.Causes = []coach.Cause{}
	if f.weight == 0 {
		return
	}
	found := f.rank(legRules, least)
	for i := range found {
		c := f.record(&found[i], l.Number)
		c.Minor = minor || l.Outcome == coach.Finished && found[i].gain < minorGain
		l.Causes = append(l.Causes, c)
	}
	if len(found) > 0 {
		l.Change, _ = found[0].rule.words(p)
	}
}

// record puts a finding into words.
func (f *flown) record(x *finding, leg int) coach.Cause {
	share := 1.0
	if f.missing > 0 {
		share = math.Min(1, x.gain/f.missing)
	}
	_, advice := x.rule.words(f.plan)
	return coach.Cause{ID: x.rule.id, Leg: leg, Share: math.Round(share*1000) / 1000, Evidence: f.evidence(x), Advice: advice}
}

// ownPart is the share of a series' score that comes from what only the legs together show.
const ownPart = 0.2

// ExplainSeries fills in what only the legs together show, and the one thing to change: the
// cause that costs the series most, of a leg or of the legs together.
func (Causes) ExplainSeries(p *plan.Plan, s *coach.Series) {
	f := newFlown(p, nil, score.Scored(s))
	f.part, f.missing, f.series = ownPart, 100-s.Score, s
	minor := s.Verdict != coach.Missed
	s.Causes = []coach.Cause{}
	if f.weight > 0 {
		found := f.rank(seriesRules, worthListing)
		for i := range found {
			c := f.record(&found[i], 0)
			c.Minor = minor || found[i].gain < minorGain
			s.Causes = append(s.Causes, c)
		}
	}
	s.Change = dearest(p, s)
}

// dearest gives the correction of the cause that costs most over the legs and the series.
func dearest(p *plan.Plan, s *coach.Series) string {
	cost, order := map[string]float64{}, []string{}
	add := func(c *coach.Cause, points float64) {
		if _, ok := cost[c.ID]; !ok {
			order = append(order, c.ID)
		}
		cost[c.ID] += points
	}
	for i := range s.Causes {
		add(&s.Causes[i], s.Causes[i].Share*(100-s.Score))
	}
	for i := range s.Legs {
		l := &s.Legs[i]
		for j := range l.Causes {
			add(&l.Causes[j], l.Causes[j].Share*(100-l.Score)*(1-ownPart)/float64(len(s.Legs)))
		}
	}
	most, words := 0.0, ""
	for _, id := range order {
		if r := ruleNamed(id); r != nil && cost[id] > most+1e-9 {
			most = cost[id]
			words, _ = r.words(p)
		}
	}
	return words
}

func ruleNamed(id string) *rule {
	for _, list := range [][]rule{legRules, seriesRules} {
		for i := range list {
			if list[i].id == id {
				return &list[i]
			}
		}
	}
	return nil
}

// A Meaning is what a cause's id stands for.
type Meaning struct {
	ID      string `json:"id"`
	Meaning string `json:"meaning"`
	Advice  string `json:"advice"`
}

// Meanings lists every cause there is, those of a leg first.
func Meanings() []Meaning {
	var list []Meaning
	for _, rules := range [][]rule{legRules, seriesRules} {
		for _, r := range rules {
			list = append(list, Meaning{r.id, r.meaning, r.advice})
		}
	}
	return list
}

// meaningOf is a cause in words, as within a sentence; the id of one that this version does not know.
func meaningOf(id string) string {
	for _, m := range Meanings() {
		if m.ID == id {
			return lower(strings.TrimSuffix(m.Meaning, "."))
		}
	}
	return id
}

// An Expected is a cause that a maneuver's checks can show: an error to expect.
type Expected struct {
	ID, Title, Seen, Advice string
	Weight                  float64 // the greatest of the checks that show it: what it can cost; 0 of what ends a leg
}

// Expect lists the causes that belong to a plan, those first that can cost most: those with a
// check of its card that shows them, in a maneuver they can be of.
func Expect(p *plan.Plan) []Expected {
	weights := map[string]float64{}
	for i := range p.Card.Checks {
		weights[p.Card.Checks[i].ID] = p.Card.Checks[i].Weight
	}
	var list []Expected
	for _, rules := range [][]rule{legRules, seriesRules} {
		for i := range rules {
			r := &rules[i]
			weight, shown := 0.0, len(r.on) == 0
			for _, word := range r.on {
				w, ok := weights[strings.TrimLeft(word, "+-")]
				weight, shown = max(weight, w), shown || ok
			}
			if shown && (r.in == nil || r.in(p.Card)) {
				say, advice := r.words(p)
				list = append(list, Expected{r.id, say, r.meaning, advice, weight})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Expected) int { return cmp.Compare(b.Weight, a.Weight) })
	return list
}
