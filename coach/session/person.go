package session

import (
	"math"
	"time"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/names"
	"halfturn/coach/who"
)

// Say has the words of a person said to the pilot. The error says what is wrong with them; see [names.Spoken].
func (s *Session) Say(by who.Who, words string) error {
	words, err := names.Spoken(words)
	if err != nil {
		return err
	}
	s.follow.Tell(names.Tidy(by.Name), words)
	s.drain()
	return nil
}

// Stop has the pilot stopped by a person. A leg that is flown ends with that, ungraded. The owner of the machine, who
// may be the pilot, goes by no name.
func (s *Session) Stop(by who.Who) {
	name := names.Tidy(by.Name)
	if by.ID == "" && by.Name == who.Owner().Name {
		name = ""
	}
	s.follow.Stop(name)
	s.drain()
}

// Mark publishes that a person marked the moment.
func (s *Session) Mark(id string, by who.Who, at time.Time, words string) {
	m := &message.Mark{ID: id, By: by, At: at, Words: names.TidyWords(words)}
	if !math.IsNaN(s.last) {
		m.Time = coach.Round(s.last, 3)
	}
	if turn, ok := s.follow.Turn(); ok {
		m.Turn = new(coach.Round(turn, 1))
	}
	s.publish(m)
}

// HandOver publishes that a demonstration is flown for the pilot at a station of its own.
func (s *Session) HandOver(by who.Who, c maneuver.Choice, station string) {
	s.publish(&message.Handover{By: by, Choice: c, Station: station})
}

// Flying reports whether a leg is being flown.
func (s *Session) Flying() bool {
	_, flying := s.follow.Turn()
	return flying
}

// Private reports whether the pilot shares the station with nobody.
func (s *Session) Private() bool { return s.status.known.private }

// SetPrivate sets whether the pilot shares the station with nobody.
func (s *Session) SetPrivate(on bool) {
	s.status.known.private = on
	s.status.outdate()
}
