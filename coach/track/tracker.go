package track

import (
	"halfturn/coach"
	"halfturn/coach/ground"
	"halfturn/stream"
)

// needed are the channels without which nothing can be tracked.
const needed = stream.Set(1<<stream.Time | 1<<stream.Heading | 1<<stream.Pitch | 1<<stream.Bank)

// A Tracker follows one station, independent of any card. Any number of judges read it. The zero value is ready for
// use.
type Tracker struct {
	Past    Ring          // the last 20 s or more
	Ground  ground.Path   // the flight over the ground
	Sight   ground.Sight  // the chosen ground line and reference point
	Now     float64       // stream time, s
	Heading float64       // °, as sent
	Turned  float64       // ° of heading since the stream began, unwrapped
	Last    stream.Sample // the current sample
	Begun   bool          // a sample has come since the last Clear
}

// Step takes the next sample, in order of time. It ignores one that lacks time, heading, pitch or bank, and returns
// false.
func (t *Tracker) Step(s *stream.Sample) bool {
	if s.Has&needed != needed {
		return false
	}
	h := s.Value(stream.Heading)
	if t.Begun {
		t.Turned += stream.Wrap180(h - t.Heading)
	}
	t.Heading, t.Now, t.Begun = h, s.Value(stream.Time), true
	t.Past.add(s, t.Turned)
	t.Ground.Add(s, t.Turned)
	t.Last = *s
	return true
}

// Clear forgets the past after the stream jumped or ended. The wind and the chosen line stay.
func (t *Tracker) Clear() {
	t.Past.clear()
	t.Ground.Clear()
	t.Begun = false
}

// Pose returns where the airplane is and where it points.
func (t *Tracker) Pose() ground.Pose {
	return ground.Pose{Known: t.Begun, Heading: t.Heading, Place: ground.PlaceOf(&t.Last)}
}

// SetLine sets or clears the ground line as of the last sample. It returns an error for a heading, side or distance
// out of range, and when there is no heading to take over yet.
func (t *Tracker) SetLine(w coach.LineChoice) error {
	now := t.Pose()
	return t.Sight.Set(w, &t.Ground, &now)
}

// SetAbout chooses a point on the ground to fly about as of the last sample, or clears what was chosen; usual is how
// far to the side it is meant to be, ft, 0 where that is not known. It returns an error for a choice out of range, and
// where there is no position and true heading to take it from.
func (t *Tracker) SetAbout(w coach.AboutChoice, usual float64) error {
	now := t.Pose()
	return t.Sight.Choose(w, &t.Ground, &now, &t.Last, usual)
}
