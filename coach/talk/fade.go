package talk

import (
	"halfturn/coach"
	"halfturn/coach/maneuver"
)

// fadesAfter is in how many legs in a row a point must be met for its cue to fall silent. Fading guidance is kept
// better than guidance in every try (Winstein and Schmidt 1990; Aoyagi et al. 2019); the number is common practice, no
// source.
const fadesAfter = 2

// A fade keeps in how many legs in a row each checkpoint was met.
type fade struct {
	card  string
	posts []float64
	met   []int
}

// begin sets the card. What was met is kept when it is that of before, by whatever standard.
func (f *fade) begin(card *maneuver.Card) {
	if f.card == card.Name && len(f.posts) == len(card.Checkpoints) {
		return
	}
	*f = fade{card: card.Name, met: make([]int, len(card.Checkpoints))}
	for _, p := range card.Checkpoints {
		f.posts = append(f.posts, p.Turn)
	}
}

// post returns the checkpoint that a turn angle belongs to: the first that is not before it.
func (f *fade) post(turn float64) int {
	for i, at := range f.posts {
		if at >= turn {
			return i
		}
	}
	return len(f.posts) - 1
}

// faded reports whether the cue of a turn angle has fallen silent.
func (f *fade) faded(turn float64) bool { return f.met[f.post(turn)] >= fadesAfter }

// take counts the checkpoints of a leg. One that was missed brings its cue back at once.
func (f *fade) take(l *coach.Leg) {
	measured, missed := make([]bool, len(f.posts)), make([]bool, len(f.posts))
	for i := range l.Checks {
		k := &l.Checks[i]
		if k.Post == nil || *k.Post == 0 || k.Verdict == coach.NotMeasured {
			continue // of the leg as a whole, or of the entry
		}
		at := f.post(*k.Post)
		measured[at] = true
		missed[at] = missed[at] || k.Verdict == coach.Missed
	}
	for i := range f.met {
		switch {
		case missed[i]:
			f.met[i] = 0
		case measured[i]:
			f.met[i]++
		}
	}
}
