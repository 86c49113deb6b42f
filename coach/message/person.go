package message

import (
	"time"

	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// A Mark is a moment that somebody marked, to come back to it.
type Mark struct {
	ID    string    `json:"id"` // of the command; the remark that is kept has the same
	By    who.Who   `json:"by"`
	At    time.Time `json:"at"`
	Time  float64   `json:"time"`  // of the stream, s
	Turn  *float64  `json:"turn"`  // turn angle, °; null between legs
	Words string    `json:"words"` // what was remarked, "" for nothing yet
}

func (*Mark) kind() Type { return TypeMark }

// An Acted tells of a command that was carried out at the station, and by whom.
type Acted struct {
	ID      string           `json:"id"`      // of the command
	Command string           `json:"command"` // its kind
	By      who.Who          `json:"by"`
	At      time.Time        `json:"at"`
	Choice  *maneuver.Choice `json:"choice,omitempty"`  // what was chosen
	Student *string          `json:"student,omitempty"` // who was named
}

func (*Acted) kind() Type { return TypeActed }

// A Handover tells that the built-in aircraft flies a maneuver for the pilot, as a demonstration. The pages of the
// station show it, and come back when it is over. Replayed, nothing is flown.
type Handover struct {
	By      who.Who         `json:"by"`
	Station string          `json:"shown"` // the station of the demonstration
	Choice  maneuver.Choice `json:"choice"`
}

func (*Handover) kind() Type { return TypeHandover }

// Watching lists who else watches a station.
type Watching struct {
	Watchers []who.Who `json:"watchers"` // those with a name, in the order of the names
	Nameless int       `json:"nameless"` // how many have none
}

func (*Watching) kind() Type { return TypeWatching }
