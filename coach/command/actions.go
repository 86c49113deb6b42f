package command

import (
	"encoding/json"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/permit"
	"halfturn/coach/session"
	"halfturn/coach/who"
)

// A Kind names an action: the member of the JSON object that says it, and the last part of the path that asks for it.
type Kind string

// An Action is what a command does. The set is closed: its types are those of this package.
type Action interface {
	kind() Kind
	do(t Target, c Command) error
	value() any // what is written
}

// A Target is what commands are done to. The words of its errors are shown to whoever asks.
type Target interface {
	// Session is what is coached, for commands that change what is flown. At a station that rests it is the next
	// session, which it begins.
	Session() *session.Session
	// Present is what is coached now; at a station that rests, what comes before the next session.
	Present() *session.Session
	// Choose sets what is flown from now on.
	Choose(c maneuver.Choice) error
	// Student says who flies, and who says so; "" is nobody named.
	Student(by who.Who, name string) error
	// Mark keeps that the moment was marked, with words or without.
	Mark(c Command, words string) error
	// Start ends the session, if there is one, and begins the next at once.
	Start(c Command) error
	// End ends the session; the next one begins with the next maneuver.
	End(c Command) error
}

// The commands.
type (
	// Choose sets what is flown from now on.
	Choose struct{ maneuver.Choice }
	// Line sets or clears the ground line.
	Line struct{ coach.LineChoice }
	// About chooses a point on the ground to fly about, or clears it.
	About struct{ coach.AboutChoice }
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
	KindAbout   Kind = "about"
	KindPrompt  Kind = "prompts"
	KindAgain   Kind = "again"
	KindStudent Kind = "student"
	KindEnd     Kind = "end"
)

func (Choose) kind() Kind  { return KindChoose }
func (Line) kind() Kind    { return KindLine }
func (About) kind() Kind   { return KindAbout }
func (Prompt) kind() Kind  { return KindPrompt }
func (Again) kind() Kind   { return KindAgain }
func (Student) kind() Kind { return KindStudent }
func (End) kind() Kind     { return KindEnd }

func (a Choose) do(t Target, _ Command) error { return t.Choose(a.Choice) }
func (a Line) do(t Target, _ Command) error   { return t.Session().SetLine(a.LineChoice) }
func (a About) do(t Target, _ Command) error  { return t.Session().SetAbout(a.AboutChoice) }
func (a Prompt) do(t Target, _ Command) error { return t.Session().Prompt(a.How) }
func (Again) do(t Target, _ Command) error {
	t.Session().Again()
	return nil
}
func (a Student) do(t Target, c Command) error { return t.Student(c.By, a.Name) }
func (End) do(t Target, c Command) error       { return t.End(c) }

func (a Choose) value() any  { return a.Choice }
func (a Line) value() any    { return a.LineChoice }
func (a About) value() any   { return a.AboutChoice }
func (a Prompt) value() any  { return a.How }
func (a Again) value() any   { return a }
func (a Student) value() any { return a.Name }
func (a End) value() any     { return a }

// A row is what is known of a kind of command.
type row struct {
	read     func([]byte) (Action, error)
	right    permit.Right // that whoever asks needs at the station
	recorded bool         // a replay follows it
	told     bool         // the pages are told of it as of a command: it says nothing of itself
	form     func() Form  // asks for it
	says     string       // the form, for error messages
}

// kinds holds a row for each command.
var kinds = map[Kind]row{
	KindChoose: {
		right:    permit.Fly,
		read:     reader(func(a *Choose) any { return &a.Choice }),
		recorded: true,
		told:     true,
		form:     func() Form { return new(ChooseForm) },
		says:     `{"maneuver": "NAME", "aircraft": "NAME or empty"}`,
	},
	KindLine: {
		right:    permit.Fly,
		read:     reader(func(a *Line) any { return &a.LineChoice }),
		recorded: true,
		told:     true,
		form:     func() Form { return new(lineForm) },
		says: `{"heading": DEGREES or null, "side": "right", "left" or "", "distance": NM or null}, ` +
			`or {"clear": true}`,
	},
	KindAbout: {
		right:    permit.Fly,
		read:     reader(func(a *About) any { return &a.AboutChoice }),
		recorded: true,
		told:     true,
		form:     func() Form { return new(aboutForm) },
		says:     `{"where": "here", "wing", "left" or "right", "distance": FEET or null}, or {"clear": true}`,
	},
	KindPrompt: {
		right:    permit.Fly,
		read:     reader(func(a *Prompt) any { return &a.How }),
		recorded: true,
		told:     true,
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
		told:     true,
		form:     func() Form { return new(studentForm) },
		says:     `{"student": "NAME or empty"}`,
	},
	KindEnd: { // whoever ends the session records it there
		right: permit.Fly,
		read:  reader(func(a *End) any { return a }),
		form:  func() Form { return new(endForm) },
		says:  "{}",
	},
	KindSay: {
		right:    permit.Instruct,
		read:     reader(func(a *Say) any { return &a.Words }),
		recorded: true,
		form:     func() Form { return new(sayForm) },
		says:     `{"say": "WORDS"}`,
	},
	KindMark: {
		right:    permit.Fly,
		read:     reader(func(a *Mark) any { return &a.Words }),
		recorded: true,
		form:     func() Form { return new(markForm) },
		says:     `{"mark": "WORDS or empty"}`,
	},
	KindStop: {
		right:    permit.Fly,
		read:     reader(func(a *Stop) any { return a }),
		recorded: true,
		form:     func() Form { return new(stopForm) },
		says:     "{}",
	},
	KindStart: {
		right:    permit.Fly,
		read:     reader(func(a *Start) any { return a }),
		recorded: true,
		form:     func() Form { return new(startForm) },
		says:     `{} or {"student": "NAME or empty"}`,
	},
	KindDemonstrate: {
		right:    permit.Fly,
		read:     reader(func(a *Demonstrate) any { return a }),
		recorded: true,
		form:     func() Form { return new(demonstrateForm) },
		says:     `{"maneuver": "NAME or empty", "standard": "NAME or empty", "aircraft": "NAME or empty"}`,
	},
	KindStep: {
		right:    permit.Fly,
		read:     reader(func(a *Step) any { return &a.Task }),
		recorded: true,
		told:     true,
		form:     func() Form { return new(stepForm) },
		says:     "a task, as the plan of a course has it",
	},
	KindDrill: {
		right:    permit.Fly,
		read:     reader(func(a *Drill) any { return a }),
		recorded: true,
		told:     true,
		form:     func() Form { return new(drillForm) },
		says:     `{"maneuver": "NAME", "standard": "NAME or empty", "aircraft": "NAME or empty", "cause": "NAME"}`,
	},
	KindPrivate: {
		right:    permit.Fly,
		read:     reader(func(a *Private) any { return &a.On }),
		recorded: true,
		told:     true,
		form:     func() Form { return new(privateForm) },
		says:     `{"private": true or false}`,
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
