package command

import (
	"errors"
	"maps"
	"slices"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/coach/permit"
)

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
	for _, kind := range slices.Sorted(maps.Keys(kinds)) {
		names = append(names, string(kind))
	}
	return names
}

// RightOf returns the right that whoever asks for the command of a name needs at the station; nobody has that of a
// command that does not exist.
func RightOf(name string) permit.Right { return kinds[Kind(name)].right }

// Answer returns the answer to a form once its command was carried out: the form, and of a mark its id, by which its
// words can be given later.
func Answer(f Form, c Command) any {
	if m, ok := f.(*markForm); ok {
		return struct {
			ID string `json:"id"`
			*markForm
		}{c.ID, m}
	}
	return f
}

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
	aboutForm  struct{ coach.AboutChoice }
	promptForm struct {
		Prompts string `json:"prompts"`
	}
	againForm   struct{}
	studentForm struct {
		Student *string `json:"student"`
	}
	endForm struct{}
	sayForm struct {
		Say string `json:"say"`
	}
	markForm struct {
		Mark string `json:"mark"`
	}
	stopForm  struct{}
	startForm struct {
		Student *string `json:"student,omitempty"`
	}
	demonstrateForm struct{ maneuver.Choice }
	privateForm     struct {
		Private *bool `json:"private"`
	}
)

func (f *lineForm) Action() (Action, error) { return Line{f.LineChoice}, nil }

func (f *aboutForm) Action() (Action, error) { return About{f.AboutChoice}, nil }

func (f *promptForm) Action() (Action, error) { return Prompt{f.Prompts}, nil }

func (*againForm) Action() (Action, error) { return Again{}, nil }

func (f *studentForm) Action() (Action, error) {
	if f.Student == nil {
		return nil, errors.New("says nothing")
	}
	return Student{*f.Student}, nil
}

func (*endForm) Action() (Action, error) { return End{}, nil }

func (f *sayForm) Action() (Action, error) { return Say{f.Say}, nil }

func (f *markForm) Action() (Action, error) { return Mark{f.Mark}, nil }

func (*stopForm) Action() (Action, error) { return Stop{}, nil }

func (f *startForm) Action() (Action, error) { return Start{f.Student}, nil }

func (f *demonstrateForm) Action() (Action, error) { return Demonstrate{Choice: f.Choice}, nil }

func (f *privateForm) Action() (Action, error) {
	if f.Private == nil {
		return nil, errors.New("says nothing")
	}
	return Private{*f.Private}, nil
}
