// Package doctor says in plain words what on this machine stands in the way of Halfturn. It looks (see [Look]), and
// each examination is a pure function of what was seen, so that tests can show it every trouble. It changes nothing: no
// setting, no file, no firewall.
package doctor

import (
	"context"
	"errors"
	"fmt"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/layout"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
)

// A State is how an examination ended.
type State string

// How an examination ends.
const (
	OK      State = "ok"
	Note    State = "note"    // worth knowing; nothing stands in the way
	Trouble State = "trouble" // something stands in the way
)

// A Finding is the result of one examination.
type Finding struct {
	Name  string `json:"name"`
	State State  `json:"state"`
	What  string `json:"what"`         // what it means
	Do    string `json:"do,omitempty"` // what to do
}

// A Report is all findings.
type Report struct {
	OK       bool      `json:"ok"` // nothing stands in the way
	Findings []Finding `json:"findings"`
}

// Examine makes all examinations of what was seen, in a language; nil is English.
func Examine(m *Machine, in *phrase.Language) Report {
	r := Report{OK: true}
	for _, e := range examinations {
		f := e.of(m, in)
		if f.State == "" {
			continue // there is nothing to examine
		}
		f.Name = in.Word(e.name)
		r.OK = r.OK && f.State != Trouble
		r.Findings = append(r.Findings, f)
	}
	return r
}

// Command is halfturn doctor.
type Command struct {
	base.Flags
	HTTP *string  `help:"Address of the pages: HOST:PORT." placeholder:"ADDR" name:"http"`
	UDP  []string `help:"Address that simulators send to: HOST:PORT; repeatable." placeholder:"ADDR" name:"udp"`
	Data *string  `help:"Where sessions are kept." placeholder:"DIR" type:"path"`
	JSON bool     `help:"Print the findings as JSON, in English." name:"json"`
}

// Help says what is examined.
func (Command) Help() string {
	return "Examines the configuration, the ports, whether datagrams arrive, the receive buffer, the data directory " +
		"and its disk, the clock, the limit of open files and the speech program, and says what each finding means " +
		"and what to do. It changes nothing. The exit status is 1 when something stands in the way. Give it the " +
		"flags that halfturn serve is given."
}

// apply puts the flags over the rest of the configuration.
func (c *Command) apply(to *settings.Config) {
	settings.Set(to, "http", &to.HTTP, c.HTTP)
	settings.Set(to, "data", &to.Data, c.Data)
	to.ListenOn(c.UDP)
}

// Run examines the machine.
func (c *Command) Run(ctx context.Context, io base.Streams) error {
	cfg, wrong := base.Load(&c.Flags, io.Env, c.apply)
	if wrong != nil { // what else may be in the way is seen with the defaults
		none := func(string) (string, bool) { return "", false }
		var err error
		if cfg, err = settings.Load("", none); err != nil {
			return err
		}
	}
	in := io.Language
	if c.JSON {
		in = nil
	}
	r := Examine(Look(ctx, cfg, wrong), in)
	var err error
	if c.JSON {
		err = base.Indented(io.Out, &r)
	} else {
		page := layout.NewPage(io.Out)
		r.print(page, in)
		err = page.Err()
	}
	if err == nil && !r.OK {
		err = errors.New(in.Word("something stands in the way; what to do stands with each finding"))
	}
	return err
}

// print writes the findings for people.
func (r *Report) print(page *layout.Page, in *phrase.Language) {
	words := map[State]string{OK: in.Word("ok"), Note: in.Word("note"), Trouble: in.Word("TROUBLE")}
	for _, f := range r.Findings {
		fmt.Fprintf(page, "%s: %s\n  %s\n", f.Name, words[f.State], f.What)
		if f.Do != "" {
			fmt.Fprintf(page, "  → %s\n", f.Do)
		}
	}
	if r.OK {
		fmt.Fprintf(page, "\n%s\n", in.Word("Nothing stands in the way."))
	}
}
