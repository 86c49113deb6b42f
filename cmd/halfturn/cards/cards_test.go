package cards

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/grading"
	"halfturn/coach/kinds"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

// streams writes to a buffer, with an environment that has no variables.
func streams() (base.Streams, *bytes.Buffer) {
	var out bytes.Buffer
	return base.Streams{Out: &out, Err: &out, Env: func(string) (string, bool) { return "", false }}, &out
}

// The lists name every card of the library and every kind of check.
func TestListsAreComplete(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, c := range lib.Cards() {
		names = append(names, c.Name, c.Title)
	}
	for _, s := range lib.Standards() {
		names = append(names, s.Name, s.Summary)
	}
	for _, a := range lib.Aircraft() {
		names = append(names, a.Name, a.Title)
	}
	for _, c := range []struct {
		run  func(base.Streams) error
		want []string
	}{{(&listCmd{}).Run, names}, {kindsCmd{}.Run, kinds.Names()}} {
		io, out := streams()
		if err := c.run(io); err != nil {
			t.Fatal(err)
		}
		for _, name := range c.want {
			if !strings.Contains(out.String(), name) {
				t.Errorf("%q is missing in\n%s", name, out)
			}
		}
	}
}

// A wrong name is a wrong call, and the error says what to do instead.
func TestWrongNames(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.toml")
	for _, c := range []struct {
		run  func(base.Streams) error
		want string
	}{
		{(&copyCmd{Name: "loop", Dir: t.TempDir()}).Run, `there is no card "loop"; halfturn cards lists them`},
		{(&newCmd{From: "loop", File: file}).Run, `there is no card "loop"; halfturn cards lists them`},
		{(&explainCmd{Name: "wing-over"}).Run, "which check is meant is missing; there are: "},
		{(&explainCmd{Name: "wing-over", Check: "loop"}).Run, `there is no check "loop"; there are: `},
	} {
		io, _ := streams()
		err := c.run(io)
		var usage base.UsageError
		if !errors.As(err, &usage) || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%v; must begin with %s", err, c.want)
		}
	}
	if _, err := os.Stat(file); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a file was written: %v", err)
	}
}

// Card and check may be given in either order, and explain the same.
func TestExplainTakesEitherOrder(t *testing.T) {
	var texts []string
	for _, c := range []explainCmd{{Name: "wing-over", Check: "bank-at-90"}, {Name: "bank-at-90", Check: "wing-over"}} {
		io, out := streams()
		if err := c.Run(io); err != nil {
			t.Fatal(err)
		}
		texts = append(texts, out.String())
	}
	if texts[0] != texts[1] || !strings.Contains(texts[0], "90°") {
		t.Errorf("%s\nand\n%s", texts[0], texts[1])
	}
}

// A copied card is good, and no command writes over a file that exists.
func TestCopyKeepsFiles(t *testing.T) {
	dir := t.TempDir()
	c := &copyCmd{Name: "wing-over", Dir: dir}
	io, _ := streams()
	if err := c.Run(io); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "maneuvers", "wing-over.toml")
	io, out := streams()
	if err := (&checkCmd{Files: []string{path}}).Run(t.Context(), io); err != nil ||
		out.String() != path+": a good maneuver card\n" {
		t.Errorf("%q, %v", out, err)
	}
	const mine = "# mine\n"
	if err := os.WriteFile(path, []byte(mine), 0o600); err != nil {
		t.Fatal(err)
	}
	for what, run := range map[string]func(base.Streams) error{
		"copy": c.Run,
		"new":  (&newCmd{From: "wing-over", File: path}).Run,
	} {
		io, _ := streams()
		if err := run(io); !errors.Is(err, os.ErrExist) {
			t.Errorf("%s: %v; must say that the file exists", what, err)
		}
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != mine {
		t.Errorf("it holds %q, %v", text, err)
	}
}

// Every file is checked, whatever is wrong with those before it, until the program is interrupted.
func TestCheckContinues(t *testing.T) {
	dir := t.TempDir()
	bad, none := filepath.Join(dir, "bad.toml"), filepath.Join(dir, "none.toml")
	if err := os.WriteFile(bad, []byte("colour = 1\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	io, _ := streams()
	if err := (&copyCmd{Name: "light-single", Dir: dir}).Run(io); err != nil {
		t.Fatal(err)
	}
	good := filepath.Join(dir, "aircraft", "light-single.toml")
	c := &checkCmd{Files: []string{bad, none, good}}
	io, out := streams()
	err := c.Run(t.Context(), io)
	if err == nil || !strings.Contains(err.Error(), bad) || !strings.Contains(err.Error(), none) ||
		out.String() != good+": a good aircraft card\n" {
		t.Errorf("%q, %v", out, err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := c.Run(ctx, io); !errors.Is(err, grading.ErrInterrupted) {
		t.Errorf("interrupted: %v", err)
	}
}
