package message

import (
	"encoding/json"
	"slices"

	"halfturn/coach"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

// Version is that of this contract.
const Version = 1

// The links of a station that are made outside of the stream.
const (
	LinkGone      = "gone"      // the station has left
	LinkReplaying = "replaying" // a recorded session is played again
)

// A Station is one station as the server sees it.
type Station struct {
	Name     string        `json:"name"`
	Address  string        `json:"address"`
	Link     string        `json:"link"`     // "live", "paused", "silent" (nothing for 2 s), LinkGone, LinkReplaying
	Format   string        `json:"format"`   // as recognized, "" when not yet
	Advice   phrase.Phrase `json:"advice"`   // what to do about it when nothing can be read
	Rate     float64       `json:"rate"`     // samples per second
	Channels []string      `json:"channels"` // sent
	Derived  []string      `json:"derived"`  // computed here
	Missing  []string      `json:"missing"`  // needed by the chosen card and not there
	Maneuver string        `json:"maneuver"` // card name as chosen
	Auto     bool          `json:"auto"`     // the maneuver is found from what is flown: Maneuver is the last found
	Aircraft string        `json:"aircraft"` // "" when none is chosen
	Prompts  string        `json:"prompts"`  // how much is said in flight: "card", "all", "fade" or "off"

	Task *Task `json:"task,omitempty"` // what is practiced: a step of a course, or a drill; nil is neither

	Session   string `json:"session"`   // the session being flown, "" before anything was flown
	Student   string `json:"student"`   // who flies, "" when not known
	Ended     string `json:"ended"`     // the session before, ended by hand, until the next begins
	Recording string `json:"recording"` // "on", "off" (by the configuration), "failing", or Resting
	// what is wrong with it, and what to do; nothing when all is well
	RecordingWords phrase.Phrase `json:"recordingWords"`

	// Trouble is what went wrong here with the session before, until a leg is flown; nothing when all is well.
	Trouble phrase.Phrase `json:"trouble,omitzero"`

	Replay *Replaying `json:"replay,omitempty"` // of a recorded session played again
	Share  *Share     `json:"share,omitempty"`  // with another Halfturn; nil when it is not shared

	Demonstration bool `json:"demonstration,omitempty"` // the built-in aircraft flies, to show how it is done
	Private       bool `json:"private,omitempty"`       // its pilot shares it with nobody
}

func (*Station) kind() Type { return TypeStation }

// A Task is what is practiced at a station.
type Task struct {
	Title   string `json:"title"`           // of the step; "" of a drill
	Course  string `json:"course"`          // "" of a drill
	Step    string `json:"step"`            // its id
	State   string `json:"state"`           // how it stands, as package course says it
	Sides   []Side `json:"sides,omitempty"` // what counts toward passing it
	Cause   string `json:"cause,omitempty"` // that is drilled
	Row     int    `json:"row"`             // good legs in a row
	Want    int    `json:"want,omitempty"`  // that end a drill
	Prompts string `json:"prompts"`         // how much is said in the next leg
	Own     bool   `json:"own,omitempty"`   // a person has set that
}

// A Side is how many good tries count toward a step on one side.
type Side struct {
	Direction string `json:"direction"` // "" is either
	Good      int    `json:"good"`
	Need      int    `json:"need"`
}

// Same reports whether two say the same; nil is none.
func (t *Task) Same(o *Task) bool {
	if t == nil || o == nil {
		return t == o
	}
	step := t.Title == o.Title && t.Course == o.Course && t.Step == o.Step && t.State == o.State
	count := t.Row == o.Row && t.Want == o.Want && slices.Equal(t.Sides, o.Sides)
	return step && count && t.Cause == o.Cause && t.Prompts == o.Prompts && t.Own == o.Own
}

// Resting is the Recording of a station whose session was ended by hand: nothing is recorded until the next one
// begins.
const Resting = "resting"

// Replaying is where the replay of a recorded session stands.
type Replaying struct {
	Session  string  `json:"session"`
	Position float64 `json:"position"` // s since the first datagram of the recording
	Duration float64 `json:"duration"` // s, from the first to the last
	Pace     float64 `json:"pace"`     // seconds of flight per second
	Paused   bool    `json:"paused"`
	Over     bool    `json:"over"` // it stands at its end
}

// A Share is the link of a station to another Halfturn: at home to that of the school, and at the school to that at
// home.
type Share struct {
	With   string  `json:"with"`   // the host of the school; "" at the school
	As     string  `json:"as"`     // what the school calls the station
	Up     bool    `json:"up"`     // there is a link
	Behind float64 `json:"behind"` // s of which the school does not have the recording yet; 0 is none
	Clock  float64 `json:"clock"`  // s that the clock of the school is ahead of that at home
	// Why the school does not let the home in, or at the school that a session was ended without it; nothing when all
	// is well.
	Why phrase.Phrase `json:"why"`
}

// Same reports whether two say the same; nil is not shared.
func (s *Share) Same(o *Share) bool {
	if s == nil || o == nil {
		return s == o
	}
	numbers := s.Behind == o.Behind && s.Clock == o.Clock
	return s.With == o.With && s.As == o.As && s.Up == o.Up && numbers && s.Why.Equal(o.Why)
}

// A Session tells that a session of the station began or ended.
type Session struct {
	ID    string `json:"id"`
	State string `json:"state"` // SessionBegan, SessionEnded
	Legs  int    `json:"legs"`
}

// The states of a Session.
const (
	SessionBegan = "began"
	SessionEnded = "ended"
)

func (*Session) kind() Type { return TypeSession }

// An Act was asked for by a button box, and is for the pages of the station.
type Act struct {
	Act string `json:"act"` // ActMute
}

// ActMute turns the sound of the pages off, or on again.
const ActMute = "mute"

func (*Act) kind() Type { return TypeAct }

// A Hello is all a viewer needs to draw a station from nothing.
type Hello struct {
	Version  int              `json:"version"` // of this contract
	Server   string           `json:"server"`  // Halfturn's version
	Stations []string         `json:"stations"`
	Info     *Station         `json:"info"`     // null when there is no such station yet
	Plan     *Chart           `json:"plan"`     // null likewise
	Trace    []Flown          `json:"trace"`    // the leg being flown so far
	Last     *coach.Leg       `json:"last"`     // the leg before
	LastPlan *Chart           `json:"lastPlan"` // what it was flown of, when something else was chosen since; else null
	Other    *coach.Leg       `json:"other"`    // the latest leg to the other side, for comparison; null likewise
	Series   []*coach.Series  `json:"series"`
	Callouts []*coach.Callout `json:"callouts"` // the latest few, oldest first
	Run      string           `json:"run"`      // the numbering that seq is of; a viewer that comes back repeats both
	Frame    Snapshot         `json:"frame"`    // the latest

	Acted    *Acted    `json:"acted,omitempty"`    // the latest command; nil before any
	Watching *Watching `json:"watching,omitempty"` // nil while nobody else does
	You      who.Who   `json:"you,omitzero"`       // who the viewer is; nobody for the owner
	Private  bool      `json:"private,omitempty"`  // the station is private: there is nothing else in this Hello
}

func (*Hello) kind() Type { return TypeHello }

// A Flown is a point of the leg being flown, with the margins of its moment: a page that is opened in the middle of a
// leg draws the stall and the hard deck as one that saw all of it.
type Flown struct {
	coach.Trace
	Stall *float64 `json:"stall"` // kt above the stall at the load of the moment; null when not known
	Deck  *float64 `json:"deck"`  // ft above the hard deck; null when not known
}

// A Snapshot is a coach.Frame that is encoded already, as each is sent often; nil is none.
type Snapshot []byte

// MarshalJSON returns the snapshot as it is.
func (s Snapshot) MarshalJSON() ([]byte, error) { return json.RawMessage(s).MarshalJSON() }

// UnmarshalJSON keeps a frame as it is encoded, and refuses what is not one.
func (s *Snapshot) UnmarshalJSON(b []byte) error {
	*s = append(Snapshot(nil), b...)
	if string(b) == "null" {
		*s = nil
	}
	_, err := s.Frame()
	return err
}

// Frame decodes the snapshot; nil when there is none.
func (s Snapshot) Frame() (*coach.Frame, error) {
	if s == nil {
		return nil, nil
	}
	f := new(coach.Frame)
	return f, json.Unmarshal(s, f)
}
