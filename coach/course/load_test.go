package course

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/stream/phrase"
)

// Each fault of a card is said with its place, what is wrong and what must be.
func TestFaults(t *testing.T) {
	for _, x := range []struct{ from, to, want string }{
		{`name = "small"`, `name = "Small"`, `small.toml:2: name: is "Small"; must be lower-case words`},
		{`title = "Small"`, ``, `small.toml: title: is missing; must have 1 to 40 characters`},
		{"[pass]\ngood = 2", "[pass]\ngood = 4", `small.toml:7: pass.good: is 4; must be between 1 and 3`},
		{"of = 3", "of = 30", `small.toml:8: pass.of: is 30; must be between 1 and 20`},
		{`sides = "each"`, `sides = "both"`, `small.toml:9: pass.sides: is "both"; must be each or either`},
		{"missed = 2\nsource", "missed = 2\nwhy",
			`small.toml:13: slip.why: is not a known key; must be missed or source`},
		{"missed = 2", "missed = 0", `small.toml:12: slip.missed: is 0; must be between 1 and 20`},
		{`id = "whole"`, `id = "part"`, `small.toml:21: step[0].unlocks[0]: is "whole"; must be the id`},
		{`id = "check"`, `id = "whole"`, `small.toml:29: step[1].unlocks[0]: is "check"; must be the id of a step`},
		{`unlocks = ["check"]`, `unlocks = []`, ``},
		{`title = "Whole"`, `title = ""`, `small.toml:25: step[1].title: is ""; must have 1 to 40 characters`},
		{`maneuver = "wing-over"`, `maneuver = "loop"`,
			`small.toml:17: step[0].maneuver: is "loop"; must be chandelle-civil, chandelle-traditional,`},
		{`"bank-at-45", `, `"bank-at-46", `,
			`small.toml:18: step[0].checks[0]: is "bank-at-46"; must be the id of a check of wing-over`},
		{`"bank-at-45", `, `"even-nose", `,
			`small.toml:18: step[0].checks[0]: is "even-nose"; must be the id of a check`},
		{`"bank-at-45", "highest-nose"`, `"area-cleared"`,
			`small.toml:18: step[0].checks: have no weight by the standard`},
		{`standard = "practice"`, `standard = "easy"`,
			`small.toml:19: step[0].standard: is "easy"; must be practice, check or course`},
		{`prompts = "all"`, `prompts = "card"`, `small.toml:20: step[0].prompts: is "card"; must be all, fade or off`},
		{`unlocks = ["check"]`, `unlocks = ["part"]`,
			`small.toml:29: step[1].unlocks[0]: is "part"; must be the id of a step further down`},
		{`unlocks = ["check"]`, `unlocks = ["check", "check"]`,
			`small.toml:29: step[1].unlocks[1]: is "check", which stands there already`},
		{`prompts = "off"`, `prompts = "fade"`,
			`small.toml:36: step[2].prompts: is "fade"; must be "off", since a check flight is silent`},
		{`check-flight = true`, "check-flight = true\nchecks = ['bank-at-45']",
			`small.toml:37: step[2].check-flight: is true, but the step is a part`},
		{`check-flight = true`, "check-flight = true\npass = { good = 1, of = 2, sides = 'each', source = 'a' }",
			`small.toml:38: step[2].pass: must be left out of a check flight`},
		{`source = "common practice, no source"` + "\n[pass]", "built-from = 'luck'\nsource = 'a'\n[pass]",
			`small.toml:5: built-from: is "luck"; must be cause`},
		{`source = "common practice, no source"` + "\n[pass]", "built-from = 'cause'\nsource = 'a'\n[pass]",
			`small.toml:18: step[0].maneuver: is "wing-over"; must be left out`},
		{`checks = ["bank-at-45", "highest-nose"]`, `part = "cause"`,
			`small.toml:18: step[0].part: is "cause"; must be left out`},
		{small[strings.Index(small, "[[step]]"):], "",
			`small.toml: step: is missing; a course must have at least one step`},
		{small[strings.Index(small, "[[step]]"):], strings.Repeat("[[step]]\n", 61),
			`small.toml:74: step[60]: is one of 61; a course must have at most 60 steps`},
	} {
		if strings.Count(small, x.from) == 0 {
			t.Fatalf("%q is not there", x.from)
		}
		_, err := Load("small.toml", []byte(strings.Replace(small, x.from, x.to, 1)), shipped(t).Cards())
		if x.want == "" && err == nil {
			continue
		}
		if err == nil || x.want == "" || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%q: %v; must be %s", x.to, err, x.want)
		}
	}
	twice := strings.Replace(strings.Replace(small, `unlocks = ["whole"]`, "", 1), `id = "whole"`, `id = "part"`, 1)
	_, err := Load("small.toml", []byte(twice), nil)
	if want := `small.toml:24: step[1].id: is "part", like that of a step before`; err == nil ||
		!strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v; must be %s", err, want)
	}
}

// What the shipped courses are: those of the name, whose steps all lead to their check flights.
func TestShipped(t *testing.T) {
	var names []string
	for _, c := range shipped(t).Courses() {
		names = append(names, c.Name)
		checks := 0
		for i := range c.Steps {
			s := &c.Steps[i]
			if s.Check {
				checks++
			} else if len(s.Unlocks) == 0 {
				t.Errorf("%s: %s leads nowhere", c.Name, s.ID)
			}
			if s.Pass.Sides != EachSide {
				t.Errorf("%s: %s is passed by one side", c.Name, s.ID)
			}
		}
		if checks == 0 {
			t.Errorf("%s has no check flight", c.Name)
		}
	}
	if want := []string{"first", "performance", "weakness"}; !slices.Equal(names, want) {
		t.Errorf("courses are %v; must be %v", names, want)
	}
}

// The first course has wing-over and chandelle: building blocks, parts, wholes, and a silent check of each.
func TestFirst(t *testing.T) {
	c := named(t, "first")
	for _, card := range []string{"wing-over", "chandelle-civil"} {
		blocks, parts, wholes, checks := 0, 0, 0, 0
		for i := range c.Steps {
			s := &c.Steps[i]
			flown, err := shipped(t).Cards().Card(s.Maneuver)
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case flown.Block == card:
				blocks++
			case s.Maneuver != card:
			case s.Check && s.Standard == "check":
				checks++
			case s.IsPart():
				parts++
			default:
				wholes++
			}
		}
		if blocks == 0 || parts == 0 || wholes < 2 || checks != 1 {
			t.Errorf("%s: blocks %d, parts %d, wholes %d, checks %d", card, blocks, parts, wholes, checks)
		}
	}
}

// FAA-S-ACS-7 area V: every task of it that there is a card for is a step and a check flight of the course, in its
// order. The tasks stand in the standard "check", which another test holds to the document.
func TestPerformance(t *testing.T) {
	c := named(t, "performance")
	var asked []string // task and maneuver
	for _, s := range shipped(t).Cards().Standards() {
		for _, task := range s.Tasks {
			if task.Document == "FAA-S-ACS-7" && strings.HasPrefix(task.Name, "CA.V.") {
				asked = append(asked, task.Name+" "+task.Maneuver)
			}
		}
	}
	slices.Sort(asked)
	if len(asked) < 3 {
		t.Fatalf("only %v are asked for", asked)
	}
	var practiced, checked []string
	for i := range c.Steps {
		s := &c.Steps[i]
		at := slices.IndexFunc(asked, func(a string) bool { return strings.HasSuffix(a, " "+s.Maneuver) })
		if at < 0 {
			t.Errorf("%s is not in the document", s.Maneuver)
			continue
		}
		if s.Check {
			checked = append(checked, asked[at])
		} else {
			practiced = append(practiced, asked[at])
		}
	}
	if !slices.Equal(practiced, asked) || !slices.Equal(checked, asked) {
		t.Errorf("steps are %v, check flights %v; must be %v", practiced, checked, asked)
	}
}

// A course against a weakness has the maneuver in which it was found, and the checks that show it.
func TestAgainst(t *testing.T) {
	l := shipped(t)
	c, err := l.Against(named(t, "weakness"), "nose-too-high", "wing-over")
	if err != nil {
		t.Fatal(err)
	}
	if s := &c.Steps[0]; c.Cause != "nose-too-high" || !slices.Equal(s.Checks, []string{"highest-nose"}) ||
		s.Maneuver !=
			"wing-over" || s.Part != "" || !s.IsPart() || c.Steps[1].IsPart() || c.Steps[1].Maneuver != "wing-over" {
		t.Errorf("%+v", c)
	}
	if was := named(t, "weakness"); was.Steps[0].Maneuver != "" || was.Cause != "" {
		t.Error("the card was changed")
	}
	for _, x := range []struct{ cause, flown, want string }{
		{"no-such", "wing-over", `no check of a leg of "wing-over" shows "no-such"`},
		{"same-direction", "wing-over", `no check of a leg of "wing-over" shows "same-direction"`}, // of a series
		{"nose-too-high", "steep-turn", `no check of a leg of "steep-turn" shows "nose-too-high"`},
		{"nose-too-high", "loop", `there is no maneuver card "loop"`},
	} {
		_, err := l.Against(named(t, "weakness"), x.cause, x.flown)
		if err == nil || !strings.HasPrefix(err.Error(), x.want) {
			t.Errorf("%s in %s: %v; must be %s", x.cause, x.flown, err, x.want)
		}
	}
}

// A user's folder adds courses, and replaces shipped ones; a wrong one names its file.
func TestFolders(t *testing.T) {
	cards := shipped(t).Cards()
	own := func(name, text string) maneuver.Folder {
		return maneuver.Folder{FS: fstest.MapFS{"courses/" + name: {Data: []byte(text)}}, Path: "mine"}
	}
	l, err := LoadLibrary(cards, configs.FS, own("small.toml", small))
	if err != nil || len(l.Courses()) != 4 {
		t.Fatalf("%v, %v", l, err)
	}
	if o, ok := l.Origin("small"); !ok || o.File != "mine/courses/small.toml" || string(o.Text) != small {
		t.Errorf("%+v, %v", o, ok)
	}
	mine := strings.Replace(small, `name = "small"`, `name = "first"`, 1)
	if l, err = LoadLibrary(cards, configs.FS, own("first.toml", mine)); err != nil || len(l.Courses()) != 3 {
		t.Fatalf("%v, %v", l, err)
	}
	if c, err := l.Named("first"); err != nil || len(c.Steps) != 3 {
		t.Errorf("%v, %v", c, err)
	}
	if _, err = l.Named("second"); err == nil || !phrase.OfError(err).Is(phrase.NoCourse) {
		t.Errorf("%v", err)
	}
	for file, text := range map[string]string{"other.toml": small, "bad.toml": "name = 3"} {
		if _, err := LoadLibrary(cards, own(file, text)); err == nil ||
			!strings.HasPrefix(err.Error(), "mine/courses/"+file+":") {
			t.Errorf("%s: %v", file, err)
		}
	}
}

// Whatever a file holds, it is a course or an error that names it.
func FuzzLoad(f *testing.F) {
	l := shipped(f)
	for _, c := range l.Courses() {
		o, _ := l.Origin(c.Name)
		f.Add(string(o.Text))
	}
	f.Add(small)
	f.Add("[[step]]\nunlocks = ['a']\n[step.pass]\ngood = 1")
	f.Fuzz(func(t *testing.T, text string) {
		c, err := Load("x.toml", []byte(text), l.Cards())
		if err != nil {
			if !strings.HasPrefix(err.Error(), "x.toml") {
				t.Errorf("%v", err)
			}
			return
		}
		p := Follow(c, nil)
		if p.Now == "" || len(p.Steps) != len(c.Steps) {
			t.Errorf("%+v", p)
		}
	})
}
