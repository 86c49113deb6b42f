package cause

import (
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// A rule is one cause: when it holds, and which checks would have been at their aim without it. It names a check by
// its id: "apex-speed" is off to either side, "+apex-speed" above its aim, "-apex-speed" below.
type rule struct {
	id      string
	meaning string
	in      func(*maneuver.Card) bool // the maneuvers it can occur in; nil is all
	// holds when one of these is near or missed; these are the cause's own checks
	on       []string
	own      []string                         // its own too when they are off, but not enough to show it
	drags    []string                         // what follows from it physically
	against  []string                         // causes with opposite advice: only the one that costs more is named
	when     func(*ledger) bool               // further conditions on the leg or series; nil is none
	evidence func(*ledger) phrase.Phrase      // evidence besides the numbers of its checks
	say      *phrase.Definition               // the correction, at most five words
	advice   *phrase.Definition               // the fact first, then what to do
	other    map[string][2]*phrase.Definition // say and advice by maneuver, where others are right
}

// words returns what to say and to advise in a maneuver.
func (r *rule) words(p *plan.Plan) (say, advice phrase.Phrase) {
	if p != nil && p.Card != nil {
		if w, ok := r.other[p.Card.Name]; ok {
			return w[0].Of(), w[1].Of()
		}
	}
	return r.say.Of(), r.advice.Of()
}

// rules are all rules, those of a leg first.
func rules() [][]rule { return [][]rule{legRules, seriesRules} }

// ruleNamed finds a rule by its id, nil when there is none.
func ruleNamed(id string) *rule {
	for _, list := range rules() {
		for i := range list {
			if list[i].id == id {
				return &list[i]
			}
		}
	}
	return nil
}
