package cause

import (
	"cmp"
	"slices"
	"strings"

	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// A Meaning is the text of a cause's id.
type Meaning struct {
	ID      string `json:"id"`
	Meaning string `json:"meaning"`
	Advice  string `json:"advice"`
}

// Meanings lists every cause there is, those of a leg first.
func Meanings() []Meaning {
	var list []Meaning
	for _, rules := range rules() {
		for _, r := range rules {
			list = append(list, Meaning{r.id, r.meaning, r.advice.English()})
		}
	}
	return list
}

// MeaningOf is a cause in words, as within a sentence; its id where this version has no such cause.
func MeaningOf(in *phrase.Language, id string) string {
	r := ruleNamed(id)
	if r == nil {
		return id
	}
	meaning := strings.TrimSuffix(in.Word(r.meaning), ".")
	if in == nil { // in others a noun may begin it
		meaning = phrase.Lower(meaning)
	}
	return meaning
}

// An Expected is a cause that a maneuver's checks can show: an error to expect.
type Expected struct {
	ID, Seen      string
	Title, Advice phrase.Phrase
	Weight        float64 // the greatest of the checks that show it: what it can cost; 0 of what ends a leg
}

// Expect lists the causes that can occur in a plan's maneuver and that a check of its card shows, those first that can
// cost most.
func Expect(p *plan.Plan) []Expected {
	weights := map[string]float64{}
	for i := range p.Card.Checks {
		weights[p.Card.Checks[i].ID] = p.Card.Checks[i].Weight
	}
	var list []Expected
	for _, rules := range rules() {
		for i := range rules {
			r := &rules[i]
			weight, shown := 0.0, len(r.on) == 0
			for _, word := range r.on {
				w, ok := weights[strings.TrimLeft(word, "+-")]
				weight, shown = max(weight, w), shown || ok
			}
			if shown && (r.in == nil || r.in(p.Card)) {
				say, advice := r.words(p)
				list = append(list, Expected{ID: r.id, Title: say, Seen: r.meaning, Advice: advice, Weight: weight})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b Expected) int { return cmp.Compare(b.Weight, a.Weight) })
	return list
}

// Shows lists the ids of the checks that show a cause of a leg or a series, and none for one that this version does not
// know.
func Shows(id string) (checks []string) {
	r := ruleNamed(id)
	if r == nil {
		return nil
	}
	for _, word := range slices.Concat(r.on, r.own) {
		if id := strings.TrimLeft(word, "+-"); !slices.Contains(checks, id) {
			checks = append(checks, id)
		}
	}
	return checks
}

// Change is what to change against a cause in a plan's maneuver, in a few words; nothing for one that this version does
// not know.
func Change(p *plan.Plan, id string) phrase.Phrase {
	r := ruleNamed(id)
	if r == nil {
		return phrase.Phrase{}
	}
	say, _ := r.words(p)
	return say
}

// Occurs reports whether a cause can occur in the maneuver of a card.
func Occurs(card *maneuver.Card, id string) bool {
	r := ruleNamed(id)
	return r != nil && (r.in == nil || r.in(card))
}

// Ends reports whether a cause is one that ends a leg before it is done.
func Ends(id string) bool {
	return slices.ContainsFunc(endings, func(r rule) bool { return r.id == id })
}
