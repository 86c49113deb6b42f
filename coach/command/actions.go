package command

import (
	"encoding/json"
	"errors"
	"slices"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/permit"
	"halfturn/coach/session"
)

// A Kind names an action: the member of the JSON object that says it, and the last part of the path that asks for it.
type Kind string

// An Action is what a command does. The set is closed: its types are those of this package.
type Action interface {
	kind() Kind
	do(t Target) error
	value() any // what is written
}

// A Target is what commands are done to. The words of its errors are shown to whoever asks.
type Target interface {
	// Session is what is coached, for commands that change nothing else. At a station that rests it is the next
	// session, which it begins.
	Session() *session.Session
	// Choose sets what is flown from now on.
	Choose(c maneuver.Choice) error
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

func (a Choose) do(t Target) error { return t.Choose(a.Choice) }
func (a Line) do(t Target) error   { return t.Session().SetLine(a.LineChoice) }
func (a Prompt) do(t Target) error { return t.Session().Prompt(a.How) }
func (Again) do(t Target) error {
	t.Session().Again()
	return nil
}
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
	right    permit.Right // that whoever asks needs at the station
	recorded bool         // it changes what the recording of a session says
	form     func() Form  // asks for it
	says     string       // the form, for error messages
}

// kinds holds a row for each command.
var kinds = map[Kind]row{
	KindChoose: {
		right:    permit.Fly,
		read:     reader(func(a *Choose) any { return &a.Choice }),
		recorded: true,
		form:     func() Form { return new(ChooseForm) },
		says:     `{"maneuver": "NAME", "aircraft": "NAME or empty"}`,
	},
	KindLine: {
		right:    permit.Fly,
		read:     reader(func(a *Line) any { return &a.LineChoice }),
		recorded: true,
		form:     func() Form { return new(lineForm) },
		says: `{"heading": DEGREES or null, "side": "right", "left" or "", "distance": NM or null}, ` +
			`or {"clear": true}`,
	},
	KindPrompt: {
		right:    permit.Fly,
		read:     reader(func(a *Prompt) any { return &a.How }),
		recorded: true,
		form:     func() Form { return new(promptForm) },
		says:     `{"prompts": "card", "all", "fade" or "off"}`,
	},
	KindAgain: {
		right:    permit.Fly,
		read:     reader(func(a *Again) any { return a }),
		recorded: true,
		form:     func() Form { return new(againForm) },
		says:     "{}",
	},
	KindStudent: {
		right:    permit.Fly,
		read:     reader(func(a *Student) any { return &a.Name }),
		recorded: true,
		form:     func() Form { return new(studentForm) },
		says:     `{"student": "NAME or empty"}`,
	},
	KindEnd: {
		right: permit.Fly,
		read:  reader(func(a *End) any { return a }), // not recorded: the recording ends there
		form:  func() Form { return new(endForm) },
		says:  "{}",
	},
}

// reader decodes what an action says into the part of it that value returns.
func reader[A Action](into func(*A) any) func([]byte) (Action, error) {
	return func(data []byte) (Action, error) {
		var a A
		err := json.Unmarshal(data, into(&a))
		return a, err
	}
}

// A Form is the JSON by which a person asks for a command. It is decoded strictly, and sent back as the answer.
type Form interface {
	// Action returns what is asked for. The error continues the words "the body", and says what is missing.
	Action() (Action, error)
}

// FormOf returns an empty form for the command of a name, and what it must say, for error messages; false when there is
// no such command.
func FormOf(name string) (f Form, says string, ok bool) {
	r, ok := kinds[Kind(name)]
	if !ok {
		return nil, "", false
	}
	return r.form(), r.says, true
}

// Names lists the names of the commands, in the order of the alphabet.
func Names() []string {
	var names []string
	for kind := range kinds {
		names = append(names, string(kind))
	}
	slices.Sort(names)
	return names
}

// RightOf returns the right that whoever asks for the command of a name needs at the station; nobody has that of a
// command that does not exist.
func RightOf(name string) permit.Right { return kinds[Kind(name)].right }

// ChooseForm asks for what is flown from now on.
type ChooseForm struct {
	Maneuver string `json:"maneuver"`
	Standard string `json:"standard"`
	Aircraft string `json:"aircraft"`
}

// Action returns the choice.
func (f *ChooseForm) Action() (Action, error) {
	if f.Maneuver == "" {
		return nil, errors.New("names no maneuver")
	}
	return Choose{maneuver.Choice(*f)}, nil
}

type (
	lineForm   struct{ coach.LineChoice }
	promptForm struct {
		Prompts string `json:"prompts"`
	}
	againForm   struct{}
	studentForm struct {
		Student *string `json:"student"`
	}
	endForm struct{}
)

func (f *lineForm) Action() (Action, error) { return Line{f.LineChoice}, nil }

func (f *promptForm) Action() (Action, error) { return Prompt{f.Prompts}, nil }

func (*againForm) Action() (Action, error) { return Again{}, nil }

func (f *studentForm) Action() (Action, error) {
	if f.Student == nil {
		return nil, errors.New("says nothing")
	}
	return Student{*f.Student}, nil
}

func (*endForm) Action() (Action, error) { return End{}, nil }
