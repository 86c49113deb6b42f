package follow

import (
	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/stream"
	"halfturn/stream/phrase"
)

// A Single follows one station with one card. Its output depends only on samples and calls. It is not safe for
// concurrent use.
type Single struct {
	shared judge.Shared
	judge  *judge.Judge
}

// New follows with the plan of the options.
func New(o judge.Options) *Single {
	s := &Single{}
	s.judge = judge.New(&s.shared, o)
	return s
}

// Plan returns the plan that is followed.
func (s *Single) Plan() *plan.Plan { return s.judge.Plan() }

// Choose changes the plan. A leg under way is broken off, and an open series closed.
func (s *Single) Choose(p *plan.Plan) {
	s.Break(phrase.ChoiceChanged.Of())
	s.judge.Choose(p)
}

// Prompt sets how much is said in flight: one of [callout.Prompts].
func (s *Single) Prompt(how string) { s.judge.Prompt(how) }

// Practice has a drill flown until something is chosen.
func (s *Single) Practice(d judge.Drill) { s.judge.Practice(d) }

// Step takes the next sample, in order of time. It ignores one that lacks time, heading, pitch or bank, and returns
// false.
func (s *Single) Step(sample *stream.Sample) bool {
	if !s.shared.Step(sample) {
		return false
	}
	s.judge.Step(sample)
	return true
}

// Break ends what is under way, because the stream jumped or ended.
func (s *Single) Break(reason phrase.Phrase) {
	s.judge.Break(reason)
	s.shared.Clear()
}

// Take returns the events since the last call. The slice is valid until the next call.
func (s *Single) Take() []coach.Event { return s.judge.Take() }

// Frame returns the current state.
func (s *Single) Frame() *coach.Frame { return s.judge.Frame() }

// SetLine sets or clears the ground line as of the last sample. It returns an error for a heading, side or distance out
// of range, and when there is no heading to take over yet.
func (s *Single) SetLine(w coach.LineChoice) error { return s.shared.SetLine(w) }

// SetAbout chooses a point on the ground to fly about as of the last sample, or clears what was chosen. It returns an
// error for a choice out of range, and where there is no position and true heading to take it from.
func (s *Single) SetAbout(w coach.AboutChoice) error {
	w = s.judge.About(w)
	if err := s.shared.SetAbout(w, s.judge.UsualRadius()); err != nil {
		return err
	}
	s.judge.Rechoose(w.Clear)
	s.judge.Chose(w)
	return nil
}

// Sight returns the chosen ground line and reference point.
func (s *Single) Sight() ground.Sight { return s.shared.Sight }

// Succeed takes over the ground line and reference point of the previous follower of the station.
func (s *Single) Succeed(sight ground.Sight) { s.shared.Sight = sight }
