package base

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A wrong call is told apart from a failure, and says what it said.
func TestUsage(t *testing.T) {
	wrong := Usagef(nil, "--legs is %d", 3)
	for _, c := range []struct {
		err  error
		want bool
	}{{wrong, true}, {errors.Join(errors.New("a"), wrong), true}, {Usage(fs.ErrExist), true}, {fs.ErrExist, false}} {
		var usage UsageError
		if errors.As(c.err, &usage) != c.want {
			t.Errorf("%v is a wrong call: %v", c.err, !c.want)
		}
	}
	if wrong.Error() != "--legs is 3" {
		t.Errorf("%v", wrong)
	}
}

// Flags override variables, which override the file, which overrides the defaults.
func TestLoad(t *testing.T) {
	file := filepath.Join(t.TempDir(), "halfturn.toml")
	text := "maneuver = 'lazy-eight'\nstandard = 'check'\naircraft = 'light-single'\ncards = ['one']\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	env := map[string]string{"HALFTURN_STANDARD": "practice", "HALFTURN_AIRCRAFT": "radial-trainer"}
	none := ""
	f := &Flags{Config: file, Aircraft: &none, Cards: []string{"two"}, Map: []string{"m.toml"}}
	c, err := Load(f, func(k string) (string, bool) { v, ok := env[k]; return v, ok })
	if err != nil {
		t.Fatal(err)
	}
	got := strings.Join(append([]string{c.Maneuver, c.Standard, c.Aircraft}, append(c.Cards, c.Maps...)...), " ")
	if want := "lazy-eight practice  one two m.toml"; got != want {
		t.Errorf("loaded %q; must be %q", got, want)
	}
	if !c.Chosen() {
		t.Error("the flag chose nothing")
	}
}

// A recording is judged by what the flags say, and by today's cards only where they name a folder.
func TestJudging(t *testing.T) {
	c, err := Load(&Flags{}, func(string) (string, bool) { return "", false })
	if err != nil {
		t.Fatal(err)
	}
	name := "wing-over"
	for _, f := range []*Flags{nil, {}, {Maneuver: &name}, {Standard: &name, Cards: []string{"mine"}}} {
		j := Judging(c, f)
		if f == nil {
			f = &Flags{}
		}
		if j.Asked.Maneuver != f.Maneuver || j.Asked.Standard != f.Standard || j.Asked.Aircraft != nil ||
			j.Today != (len(f.Cards) > 0) {
			t.Errorf("%+v: %+v", f, j)
		}
	}
	for flag, want := range map[string]string{"there": "there", "": "here"} {
		c.Data = "here"
		if got, err := DataDir(nil, c, flag); got != want || err != nil {
			t.Errorf("--data %q: %q, %v", flag, got, err)
		}
	}
	if got, err := DataDir(nil, c, "postgres://halfturn@db.example/halfturn"); err == nil {
		t.Errorf("the address of a database is the directory %q", got)
	}
}

func TestIndented(t *testing.T) {
	var b strings.Builder
	if err := Indented(&b, map[string]any{"a": []int{1}, "b": "<"}); err != nil ||
		b.String() != "{\n  \"a\": [\n    1\n  ],\n  \"b\": \"\\u003c\"\n}\n" {
		t.Errorf("%v: %s", err, b.String())
	}
	if err := Indented(&b, make(chan int)); err == nil {
		t.Error("a channel is JSON")
	}
}
