// Package message is the contract of the live socket: the closed set of messages that a station's session sends to
// its viewers, with an encoder and a decoder for each. Everything that carries messages (hub, speaker, replay, pages,
// tests) goes through this package. It is pure.
//
// To add a message: a body type with a method kind, a Type and a row in kinds. The tests of this package find a
// body without a row; the golden file of package web holds the pages' types to it.
package message

import (
	"encoding/json"
	"fmt"

	"halfturn/coach"
)

// A Type names a kind of message: the value of the member "type".
type Type string

// The types of message.
const (
	TypeHello   Type = "hello"   // first on a socket: a Hello
	TypeStation Type = "station" // a station appeared, changed or went: a Station
	TypeFrame   Type = "frame"   // a Frame; coalesced, the latest wins, no sequence number
	TypePlan    Type = "plan"    // maneuver, standard or aircraft changed: a Chart
	TypeSetup   Type = "setup"   // a Setup
	TypePhase   Type = "phase"   // a Phase
	TypeCallout Type = "callout" // a Callout
	TypeLeg     Type = "leg"     // a Leg, at its end
	TypeSeries  Type = "series"  // a Series, at its end
	TypeSession Type = "session" // a session began or ended: a Session
	TypeAct     Type = "act"     // an act for the pages of the station: an Act
	TypeMark    Type = "mark"    // a moment was marked: a Mark
	TypeActed   Type = "acted"   // a command was carried out: an Acted

	TypeHole     Type = "hole"     // this machine lost datagrams of the stream: a Hole
	TypeHandover Type = "handover" // a demonstration is flown for the pilot: a Handover
	TypeWatching Type = "watching" // who else watches; no sequence number, the latest wins: a Watching
	TypeWall     Type = "wall"     // what changed at many stations, for a wall of them: a Wall
)

// A Body is what a message says. The set is closed: its types are those of this package.
type Body interface{ kind() Type }

// kinds holds the decoder of each type of message.
var kinds = map[Type]func([]byte) (Body, error){
	TypeHello:   decoder(func() *Hello { return new(Hello) }),
	TypeStation: decoder(func() *Station { return new(Station) }),
	TypeFrame:   decoder(func() Frame { return Frame{new(coach.Frame)} }),
	TypePlan:    decoder(func() *Chart { return new(Chart) }),
	TypeSetup:   decoder(func() Setup { return Setup{new(coach.Setup)} }),
	TypePhase:   decoder(func() Phase { return Phase{new(coach.Phase)} }),
	TypeCallout: decoder(func() Callout { return Callout{new(coach.Callout)} }),
	TypeLeg:     decoder(func() Leg { return Leg{new(coach.Leg)} }),
	TypeSeries:  decoder(func() Series { return Series{new(coach.Series)} }),
	TypeSession: decoder(func() *Session { return new(Session) }),
	TypeAct:     decoder(func() *Act { return new(Act) }),
	TypeMark:    decoder(func() *Mark { return new(Mark) }),
	TypeActed:   decoder(func() *Acted { return new(Acted) }),

	TypeHole:     decoder(func() Hole { return Hole{new(coach.Hole)} }),
	TypeHandover: decoder(func() *Handover { return new(Handover) }),
	TypeWatching: decoder(func() *Watching { return new(Watching) }),
	TypeWall:     decoder(func() *Wall { return new(Wall) }),
}

// decoder decodes into an empty body.
func decoder[B Body](empty func() B) func([]byte) (Body, error) {
	return func(data []byte) (Body, error) {
		body := empty()
		err := json.Unmarshal(data, &body)
		return body, err
	}
}

// A Message is one line of the live socket. Events are numbered from 1 without gaps, per station; a message without
// a number has Seq 0.
type Message struct {
	Station string
	Seq     uint64
	Body    Body
}

// Type returns the type of the message, "" without a body.
func (m Message) Type() Type {
	if m.Body == nil {
		return ""
	}
	return m.Body.kind()
}

// head is what every message begins with. The members of the body follow in the same JSON object.
type head struct {
	Type    Type   `json:"type"`
	Station string `json:"station"`
	Seq     uint64 `json:"seq,omitempty"`
}

// MarshalJSON writes the message as one object: type, station and seq, then the members of the body.
func (m Message) MarshalJSON() ([]byte, error) {
	b, err := Head(m.Type(), m.Station, m.Seq)
	if err != nil || m.Body == nil {
		return b, err
	}
	body, err := json.Marshal(m.Body)
	if err != nil {
		return nil, err
	}
	if len(body) < 2 || body[0] != '{' {
		return nil, fmt.Errorf("message %s: the body is not an object", m.Type())
	}
	if len(body) == 2 {
		return b, nil
	}
	b[len(b)-1] = ','
	return append(b, body[1:]...), nil
}

// Head returns the object that a message begins with, for encoders that append the members of the body themselves.
// seq 0 is left out.
func Head(t Type, station string, seq uint64) ([]byte, error) {
	return json.Marshal(head{Type: t, Station: station, Seq: seq})
}

// Decode reads a message as MarshalJSON writes it. Members it does not know are skipped, as a newer server may send
// them; a type it does not know is an error.
func Decode(b []byte) (Message, error) {
	var h head
	if err := json.Unmarshal(b, &h); err != nil {
		return Message{}, fmt.Errorf("the message cannot be read: %w", err)
	}
	decode, ok := kinds[h.Type]
	if !ok {
		return Message{}, fmt.Errorf("the message is of type %q, which this version does not know", h.Type)
	}
	body, err := decode(b)
	if err != nil {
		return Message{}, fmt.Errorf("the message of type %q cannot be read: %w", h.Type, err)
	}
	return Message{Station: h.Station, Seq: h.Seq, Body: body}, nil
}
