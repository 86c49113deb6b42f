// Package command holds what can be done to a station, as data: a closed set of commands, each with an id, the station,
// who asks and when. A command enters the stream of the station in order with its datagrams. One that changes the
// coaching is recorded there, so that playing a recording gives what was live. The package is pure.
//
// To add a command: an Action with its methods and a row in kinds, in actions.go. It changes the session directly
// ([Target.Session]), live and when a recording is played, and can be asked for at once by a request to
// /api/stations/{name}/{kind}, whose body is the form in the row. Only a command that also changes something outside
// the session needs a method of Target; the compiler then asks for it where commands are carried out: for a live
// station (web/desk/practice) and for a recording (coach/playback). The row also says which right it takes: permit.Fly
// is for whoever sits at the station, permit.Instruct for those who teach there.
package command

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

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

// Kind returns the kind of the command, "" without an action.
func (c Command) Kind() Kind {
	if c.Action == nil {
		return ""
	}
	return c.Action.kind()
}

// Recorded reports whether the command stands in the recording of the session, for a replay to follow it.
func (c Command) Recorded() bool { return kinds[c.Kind()].recorded }

// Do carries the command out, and tells the pages of the station whose it was. Commands of earlier versions were
// nobody's.
func (c Command) Do(t Target) error {
	if err := c.Action.do(t, c); err != nil {
		return err
	}
	if kinds[c.Kind()].told && c.By != (who.Who{}) {
		t.Present().Publish(c.Acted())
	}
	return nil
}

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
