// Package session turns one sender's datagrams into coached flight: it decodes, keeps the
// time base, coaches, keeps what was flown, and hands messages to its output. It has no
// clock, no socket and no file: live stations and recordings run through the same code.
package session

import (
	"encoding/json"
	"fmt"

	"halfturn/coach"
)

// The types of message on the live socket, the value of the member "type" of each.
const (
	TypeHello   = "hello"   // first on a socket: a State
	TypeStation = "station" // a station appeared, changed or went: a Station
	TypeFrame   = "frame"   // coach.Frame; coalesced, the latest wins, no sequence number
	TypePlan    = "plan"    // maneuver, standard or aircraft changed: a Plan
	TypeSetup   = "setup"   // coach.Setup
	TypePhase   = "phase"   // coach.Phase
	TypeCallout = "callout" // coach.Callout
	TypeLeg     = "leg"     // coach.Leg, at its end
	TypeSeries  = "series"  // coach.Series, at its end
	TypeSession = "session" // a sitting began or ended: a Sitting
)

// A Message is one line of the live socket. The members of Body stand beside these in the
// JSON object. Events are numbered from 1 without gaps, per station.
type Message struct {
	Type    string `json:"type"`
	Station string `json:"station"`
	Seq     uint64 `json:"seq,omitempty"`
	Body    any    `json:"-"`
}

// A Station is one simulator seat as the server sees it.
type Station struct {
	Name     string   `json:"name"`
	Address  string   `json:"address"`
	Link     string   `json:"link"`     // "live", "paused", "silent" (nothing for 2 s), "gone", "replaying"
	Format   string   `json:"format"`   // as recognized, "" when not yet
	Advice   string   `json:"advice"`   // what to do about it when nothing can be read
	Rate     float64  `json:"rate"`     // samples a second
	Channels []string `json:"channels"` // sent
	Derived  []string `json:"derived"`  // computed here
	Missing  []string `json:"missing"`  // wanted by the chosen card and not there
	Maneuver string   `json:"maneuver"` // card names as chosen
	Auto     bool     `json:"auto"`     // the maneuver is found from what is flown: Maneuver is the last found
	Aircraft string   `json:"aircraft"` // "" when none is chosen

	Session        string `json:"session"`        // that is flown, "" before anything was
	Student        string `json:"student"`        // who flies, "" when not said
	Ended          string `json:"ended"`          // the session before, when it was ended by a touch and the next has not begun
	Recording      string `json:"recording"`      // "on", "off" (by the configuration), "failing", or Resting
	RecordingWords string `json:"recordingWords"` // what is wrong with it, and what to do; "" when all is well

	Replay *Replaying `json:"replay,omitempty"` // of a recorded session played again
}

// Resting is the Recording of a station whose session was ended by a touch: nothing is recorded until the
// next one begins.
const Resting = "resting"

// Replaying says where a recorded session that is played again stands. Its station's link
// is "replaying".
type Replaying struct {
	Session  string  `json:"session"`
	Position float64 `json:"position"` // s since the first datagram of the recording
	Duration float64 `json:"duration"` // s, from the first to the last
	Pace     float64 `json:"pace"`     // seconds of flight a second
	Paused   bool    `json:"paused"`
	Over     bool    `json:"over"` // it stands at its end
}

// A Plan is what is to be flown, as a picture over the turn angle.
type Plan struct {
	Maneuver    string       `json:"maneuver"` // card name
	Title       string       `json:"title"`    // "Wing-over"
	Standard    string       `json:"standard"`
	Aircraft    string       `json:"aircraft"` // title, "" when none
	Turn        float64      `json:"turn"`     // 180 or 360
	Legs        int          `json:"legs"`     // in a series
	Checkpoints []Checkpoint `json:"checkpoints"`
	Lanes       []Lane       `json:"lanes"`
	Cautions    []string     `json:"cautions"`
}

// A Checkpoint is a post on the ribbon.
type Checkpoint struct {
	Turn  float64 `json:"turn"`
	Label string  `json:"label"` // "45°", "out"
	Words string  `json:"words"`
	Want  string  `json:"want"`
}

// A Lane is one strip of the ribbon: channel "bank", "pitch", "airspeed" or "height" (the
// change of altitude since entry).
type Lane struct {
	Channel  string     `json:"channel"`
	Title    string     `json:"title"`
	Unit     string     `json:"unit"`
	Low      float64    `json:"low"`  // what the strip spans
	High     float64    `json:"high"` //
	Ticks    []float64  `json:"ticks"`
	Corridor []Corridor `json:"corridor"` // in order of turn; empty when nothing is known
}

// Corridor is what is allowed at one turn angle.
type Corridor struct {
	Turn float64 `json:"turn"`
	Low  float64 `json:"low"`
	Aim  float64 `json:"aim"`
	High float64 `json:"high"`
}

// A Sitting is the session of a station as a message.
type Sitting struct {
	ID    string `json:"id"`
	State string `json:"state"` // "began", "ended"
	Legs  int    `json:"legs"`
}

// A State is all a viewer needs to draw a station from nothing.
type State struct {
	Version  int              `json:"version"` // of this contract: 1
	Server   string           `json:"server"`  // Halfturn's version
	Stations []string         `json:"stations"`
	Info     *Station         `json:"info"`  // null when there is no such station yet
	Plan     *Plan            `json:"plan"`  // null likewise
	Frame    *coach.Frame     `json:"frame"` // the latest
	Trace    []coach.Trace    `json:"trace"` // the leg being flown so far
	Last     *coach.Leg       `json:"last"`  // the leg before
	Other    *coach.Leg       `json:"other"` // before that the latest to the other side, to lay over it; null likewise
	Series   []*coach.Series  `json:"series"`
	Callouts []*coach.Callout `json:"callouts"` // the latest few, oldest first
}

// An Output takes what a station's session produces. Calls for one station come from one
// goroutine, in order. What it is handed is valid only during the call, except the bodies
// of messages, which are never changed afterwards.
type Output interface {
	// Event takes a message that nobody may miss.
	Event(m Message)
	// Frame takes the state of now; only the latest counts.
	Frame(station string, f *coach.Frame)
	// Watched tells whether frames of the station are wanted at all.
	Watched(station string) bool
}

// MarshalJSON writes the message as one object: type, station and seq, then the members
// of the body.
func (m Message) MarshalJSON() ([]byte, error) {
	type head Message
	b, err := json.Marshal(head(m))
	if err != nil || m.Body == nil {
		return b, err
	}
	body, err := json.Marshal(m.Body)
	if err != nil {
		return nil, err
	}
	if len(body) < 2 || body[0] != '{' {
		return nil, fmt.Errorf("message %s: the body is not an object", m.Type)
	}
	if len(body) == 2 {
		return b, nil
	}
	b[len(b)-1] = ','
	return append(b, body[1:]...), nil
}
