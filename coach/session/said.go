package session

import (
	"cmp"
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/message"
	"halfturn/stream/phrase"
)

// Prompt sets how much is said in flight: one of [callout.Prompts].
func (s *Session) Prompt(how string) error {
	if !slices.Contains(callout.Prompts(), how) {
		return phrase.PromptsUnknown.Error(phrase.Name("prompts", how))
	}
	s.opt.Coach.Prompts = how
	s.task.own = s.task.set() // from here on the pilot decides, not the step
	s.follow.Prompt(how)
	s.status.outdate()
	return nil
}

// Prompts returns how much is said in flight where neither a step nor a drill decides it.
func (s *Session) Prompts() string { return cmp.Or(s.opt.Coach.Prompts, callout.PromptsCard) }

// Again publishes what was said last once more, if anything was.
func (s *Session) Again() {
	if s.said == nil {
		return
	}
	k := *s.said
	k.Kind, k.ID, k.Tone, k.To, k.Due = coach.Again, s.said.Kind, "", nil, nil
	if !math.IsNaN(s.last) {
		k.Time = coach.Round(s.last, 3)
	}
	s.publish(message.Callout{Callout: &k})
}
