package course

import "halfturn/coach/callout"

// steadyAfter is how many good tries in a row at a step that is not passed have less said in the next. Guidance that
// fades is kept better than guidance in every try (Winstein and Schmidt 1990; Aoyagi et al. 2019); the number is common
// practice, no source, and that after which package talk drops the cue of a point.
const steadyAfter = 2

// Say is how much is said in the next try at a step that is in a state, after a row of good tries; below 0 of such as
// were not good. All of it is said at first; less after two good ones, and one level less than the card has once the
// step was passed. A miss brings back what the card has; a step that has slipped is told everything until two are good
// again. A check flight is silent in every state.
func (s *Step) Say(state string, row int) string {
	switch {
	case s.Check || s.Prompts == callout.PromptsOff:
		return callout.PromptsOff
	case state == Passed && row >= 0:
		return less(s.Prompts)
	case state == Slipped && row < steadyAfter:
		return callout.PromptsAll
	case (state == Open || state == Slipped) && row >= steadyAfter:
		return callout.PromptsFade
	}
	return s.Prompts
}

// less is one level below another.
func less(how string) string {
	if how == callout.PromptsAll {
		return callout.PromptsFade
	}
	return callout.PromptsOff
}
