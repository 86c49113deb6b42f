// Package command holds what can be done to a station, as data: a closed set of commands, each with an id, the station,
// who asks and when. A command enters the stream of the station in order with its datagrams. One that changes the
// coaching is recorded there, so that playing a recording gives what was live. The package is pure.
//
// To add a command: an Action with its three methods, a row in kinds, and a method of Target. The compiler then asks
// for that method where commands are carried out: for a live station (web/desk) and for a recording that is played
// (coach/playback).
package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/who"
)

// A Command is one thing that is done to a station.
type Command struct {
	ID      string  // unique without asking anyone; "" in recordings of earlier versions, as are those below
	Station string  // by its name
	By      who.Who // who asks
	At      time.Time
	Action  Action
}

// New makes a command. The id is one of its own, as package ids makes them.
func New(id string, at time.Time, station string, by who.Who, a Action) Command {
	return Command{ID: id, Station: station, By: by, At: at.UTC(), Action: a}
}

// A Kind names an action: the member of the JSON object that says it.
type Kind string

// An Action is what a command does. The set is closed: its types are those of this package.
type Action interface {
	kind() Kind
	do(t Target) error
	value() any // what is written
}

// A Target is what commands are done to. The words of its errors are shown to whoever asks.
type Target interface {
	// Choose sets what is flown from now on.
	Choose(c maneuver.Choice) error
	// Line sets or clears the ground line.
	Line(c coach.LineChoice) error
	// Prompt sets how much is said in flight: one of [callout.Prompts].
	Prompt(how string) error
	// Again says what was said last once more.
	Again() error
	// Student says who flies; "" is nobody named.
	Student(name string) error
	// End ends the session; the next one begins with the next maneuver.
	End() error
}

// The commands.
type (
	// Choose sets what is flown from now on.
	Choose struct{ maneuver.Choice }
	// Line sets or clears the ground line.
	Line struct{ coach.LineChoice }
	// Prompt sets how much is said in flight.
	Prompt struct{ How string }
	// Again says what was said last once more.
	Again struct{}
	// Student says who flies.
	Student struct{ Name string }
	// End ends the session.
	End struct{}
)

// The members that name the commands.
const (
	KindChoose  Kind = "choose"
	KindLine    Kind = "line"
	KindPrompt  Kind = "prompts"
	KindAgain   Kind = "again"
	KindStudent Kind = "student"
	KindEnd     Kind = "end"
)

func (Choose) kind() Kind  { return KindChoose }
func (Line) kind() Kind    { return KindLine }
func (Prompt) kind() Kind  { return KindPrompt }
func (Again) kind() Kind   { return KindAgain }
func (Student) kind() Kind { return KindStudent }
func (End) kind() Kind     { return KindEnd }

func (a Choose) do(t Target) error  { return t.Choose(a.Choice) }
func (a Line) do(t Target) error    { return t.Line(a.LineChoice) }
func (a Prompt) do(t Target) error  { return t.Prompt(a.How) }
func (Again) do(t Target) error     { return t.Again() }
func (a Student) do(t Target) error { return t.Student(a.Name) }
func (End) do(t Target) error       { return t.End() }

func (a Choose) value() any  { return a.Choice }
func (a Line) value() any    { return a.LineChoice }
func (a Prompt) value() any  { return a.How }
func (a Again) value() any   { return a }
func (a Student) value() any { return a.Name }
func (a End) value() any     { return a }

// A row is what is known of a kind of command.
type row struct {
	read     func([]byte) (Action, error)
	recorded bool // it changes what the recording of a session says
}

// kinds holds a row for each command.
var kinds = map[Kind]row{
	KindChoose:  {reader(func(a *Choose) any { return &a.Choice }), true},
	KindLine:    {reader(func(a *Line) any { return &a.LineChoice }), true},
	KindPrompt:  {reader(func(a *Prompt) any { return &a.How }), true},
	KindAgain:   {reader(func(a *Again) any { return a }), true},
	KindStudent: {reader(func(a *Student) any { return &a.Name }), true},
	KindEnd:     {reader(func(a *End) any { return a }), false}, // the recording ends there
}

// reader decodes what an action says into the part of it that value returns.
func reader[A Action](into func(*A) any) func([]byte) (Action, error) {
	return func(data []byte) (Action, error) {
		var a A
		err := json.Unmarshal(data, into(&a))
		return a, err
	}
}

// Kind returns the kind of the command, "" without an action.
func (c Command) Kind() Kind {
	if c.Action == nil {
		return ""
	}
	return c.Action.kind()
}

// Recorded reports whether the command stands in the recording of the session, for a replay to follow it.
func (c Command) Recorded() bool { return kinds[c.Kind()].recorded }

// Do carries the command out.
func (c Command) Do(t Target) error { return c.Action.do(t) }

// head is what is written of a command beside its action.
type head struct {
	ID      string    `json:"id,omitempty"`
	Station string    `json:"station,omitempty"`
	By      who.Who   `json:"by,omitzero"`
	At      time.Time `json:"at,omitzero"`
}

// MarshalJSON writes the command as one object: id, station, by and at, then one member that is named for the kind and
// holds what it says.
func (c Command) MarshalJSON() ([]byte, error) {
	if c.Action == nil {
		return nil, errors.New("the command has no action")
	}
	b, err := json.Marshal(head{ID: c.ID, Station: c.Station, By: c.By, At: c.At})
	if err != nil {
		return nil, err
	}
	action, err := json.Marshal(map[Kind]any{c.Kind(): c.Action.value()})
	if err != nil {
		return nil, err
	}
	if len(b) == len("{}") {
		return action, nil
	}
	b[len(b)-1] = ','
	return append(b, action[1:]...), nil
}

// ErrNone says that a JSON object holds no command: earlier versions and other programs write objects of other kinds.
var ErrNone = errors.New("it is no command")

// Decode reads a command as MarshalJSON writes it, and as earlier versions wrote it, without id, station, by and at.
// The error is ErrNone for an object that is something else.
func Decode(data []byte) (Command, error) {
	var h head
	if err := json.Unmarshal(data, &h); err != nil {
		return Command{}, err
	}
	var members map[Kind]json.RawMessage
	if err := json.Unmarshal(data, &members); err != nil {
		return Command{}, err
	}
	c := Command{ID: h.ID, Station: h.Station, By: h.By, At: h.At}
	for kind, row := range kinds {
		value, ok := members[kind]
		if !ok {
			continue
		}
		if c.Action != nil {
			return Command{}, fmt.Errorf("it is both %q and %q; must be one of them",
				min(kind, c.Kind()), max(kind, c.Kind()))
		}
		action, err := row.read(value)
		if err != nil {
			return Command{}, fmt.Errorf("%s: %w", kind, err)
		}
		c.Action = action
	}
	if c.Action == nil {
		return Command{}, ErrNone
	}
	return c, nil
}
