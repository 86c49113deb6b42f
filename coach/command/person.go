package command

import (
	"unicode/utf8"

	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/names"
	"halfturn/stream/phrase"
)

// What an instructor does to a station, and what its pilot does about instructors.
type (
	// Say has a few words said to the pilot.
	Say struct{ Words string }
	// Mark marks the moment, to come back to it; the words may come later.
	Mark struct{ Words string }
	// Stop stops the pilot, and with that the leg that is flown.
	Stop struct{}
	// Start begins a session at once, and ends the one there is.
	Start struct {
		Student *string `json:"student,omitempty"` // who flies; nil is whoever did
	}
	// Demonstrate has the built-in aircraft fly a maneuver for the pilot.
	Demonstrate struct {
		maneuver.Choice
		Shown string `json:"shown"` // the station at which it flies
	}
	// Private sets whether the pilot shares the station with nobody.
	Private struct{ On bool }
)

// The members that name them.
const (
	KindSay         Kind = "say"
	KindMark        Kind = "mark"
	KindStop        Kind = "stop"
	KindStart       Kind = "start"
	KindDemonstrate Kind = "demonstrate"
	KindPrivate     Kind = "private"
)

func (Say) kind() Kind         { return KindSay }
func (Mark) kind() Kind        { return KindMark }
func (Stop) kind() Kind        { return KindStop }
func (Start) kind() Kind       { return KindStart }
func (Demonstrate) kind() Kind { return KindDemonstrate }
func (Private) kind() Kind     { return KindPrivate }

func (a Say) do(t Target, c Command) error { return t.Present().Say(c.By, a.Words) }

// longestMark is how many letters the words of a mark may have; a remark may have more.
const longestMark = 400

func (a Mark) do(t Target, c Command) error {
	words, err := names.Words(a.Words)
	if err != nil {
		return err
	}
	if n := utf8.RuneCountInString(words); n > longestMark {
		return phrase.RemarkTooLong.Error(phrase.Int("letters", n), phrase.Int("most", longestMark))
	}
	t.Present().Mark(c.ID, c.By, c.At, words)
	return t.Mark(c, words)
}

func (Stop) do(t Target, c Command) error {
	t.Present().Stop(c.By)
	return nil
}

func (Start) do(t Target, c Command) error { return t.Start(c) }

func (a Demonstrate) do(t Target, c Command) error {
	s := t.Present()
	if s.Flying() {
		return phrase.HandOverInLeg.Error(phrase.Name("station", c.Station))
	}
	s.HandOver(c.By, a.Choice, a.Shown)
	return nil
}

func (a Private) do(t Target, _ Command) error {
	t.Present().SetPrivate(a.On)
	return nil
}

func (a Say) value() any         { return a.Words }
func (a Mark) value() any        { return a.Words }
func (a Stop) value() any        { return a }
func (a Start) value() any       { return a }
func (a Demonstrate) value() any { return a }
func (a Private) value() any     { return a.On }

// Acted is what the pages are told of a command that was carried out.
func (c Command) Acted() *message.Acted {
	m := &message.Acted{ID: c.ID, Command: string(c.Kind()), By: c.By, At: c.At}
	switch a := c.Action.(type) {
	case Choose:
		m.Choice = &a.Choice
	case Step:
		m.Choice = &a.Choice
	case Drill:
		m.Choice = &a.Choice
	case Student:
		m.Student = &a.Name
	case Start:
		m.Student = a.Student
	}
	return m
}
