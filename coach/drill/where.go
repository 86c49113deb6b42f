package drill

import (
	"slices"

	"halfturn/coach/cause"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
)

// Where is the maneuver in which a cause of a whole one is drilled, by the cards of a library: the building block in
// which most of the checks that show it count and look at the same place by the same aim, the shortest of equals; else
// the whole itself.
func Where(lib *maneuver.Library, whole, standard, id string) string {
	card, err := lib.Judged(whole, standard)
	if err != nil {
		return whole
	}
	best, most, turn := whole, 0, 0.0
	for _, c := range lib.Cards() {
		if c.Block != whole || !cause.Occurs(c, id) {
			continue
		}
		block, err := lib.Judged(c.Name, standard)
		if err != nil {
			continue
		}
		part, ok := PartOf(block, id)
		if n := shared(card, block, part.Checks); ok && (n > most || n > 0 && n == most && c.Turn < turn) {
			best, most, turn = c.Name, n, c.Turn
		}
	}
	return best
}

// shared counts the checks of two cards that count in both and look at the same.
func shared(whole, block *maneuver.Card, ids []string) (n int) {
	for _, id := range ids {
		of := func(k check.Spec) bool { return k.ID == id }
		i, j := slices.IndexFunc(whole.Checks, of), slices.IndexFunc(block.Checks, of)
		if i < 0 || whole.Checks[i].Weight == 0 || block.Checks[j].Weight == 0 {
			continue
		}
		if alike(whole, &whole.Checks[i], block, &block.Checks[j]) {
			n++
		}
	}
	return n
}

// alike reports whether two checks look at the same place by the same aim. What looks over all of a turn does, too, in
// a shorter one; what looks at the exit does where it is at the same turn angle.
func alike(card *maneuver.Card, k *check.Spec, block *maneuver.Card, other *check.Spec) bool {
	equal := func(a, b *float64) bool { return a == b || a != nil && b != nil && *a == *b }
	toTheEnd := k.To != nil && other.To != nil && *k.To >= card.Turn && *other.To >= block.Turn
	atExit := k.At != "" || kinds.Of(k).Looks == check.AfterExit ||
		kinds.Of(k).Looks == check.AtPlace && k.Turn == nil
	return k.Kind == other.Kind && k.Channel == other.Channel && equal(k.Aim, other.Aim) &&
		equal(k.Turn, other.Turn) && equal(k.From, other.From) && (equal(k.To, other.To) || toTheEnd) &&
		(!atExit || card.Turn == block.Turn)
}
