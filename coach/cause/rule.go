package cause

import (
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// A rule is one cause: when it holds, and which checks would have been at their aim without it. It names a check by
// its id: "apex-speed" is off to either side, "+apex-speed" above its aim, "-apex-speed" below. Rules never ask for the
// name of a card, only for what its maneuver is: see facts.go.
type rule struct {
	id      string
	meaning string
	in      func(*maneuver.Card) bool // the maneuvers it can occur in; nil is all
	// holds when one of these is near or missed; these are the cause's own checks
	on       []string
	own      []string                       // its own too when they are off, but not enough to show it
	drags    []string                       // what follows from it physically
	against  []string                       // causes with opposite advice: only the one that costs more is named
	when     func(*ledger) bool             // further conditions on the leg or series; nil is none
	all      func(*ledger) bool             // it explains all that was lost, whatever the checks say; nil is never
	evidence func(*ledger) phrase.Phrase    // evidence besides the numbers of its checks
	say      *phrase.Definition             // the correction, at most five words
	advice   *phrase.Definition             // the fact first, then what to do
	other    []variant                      // what to say and to advise instead, the first that applies
	numbers  func(*plan.Plan) phrase.Phrase // the advice with numbers of the card; nothing where it gives none
}

// A variant is the words of a cause where the usual ones would be wrong.
type variant struct {
	in          func(*plan.Plan) bool
	say, advice *phrase.Definition
}

// words returns what to say and to advise in a maneuver.
func (r *rule) words(p *plan.Plan) (say, advice phrase.Phrase) {
	for _, v := range r.other {
		if v.in(p) {
			return v.say.Of(), v.advice.Of()
		}
	}
	if r.numbers != nil {
		if n := r.numbers(p); !n.IsZero() {
			return r.say.Of(), n
		}
	}
	return r.say.Of(), r.advice.Of()
}

// whole reports whether a rule explains all that was lost.
func (r *rule) whole(f *ledger) bool { return len(r.on) == 0 || r.all != nil && r.all(f) }

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
