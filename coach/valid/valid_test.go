package valid_test

import (
	"testing"

	"halfturn/coach/valid"
	"halfturn/configs/strict"
)

// card is what the file of these tests decodes to.
type card struct {
	Name  string  `toml:"name"`
	Title string  `toml:"title"`
	Turn  float64 `toml:"turn"`
	Say   string  `toml:"say"`
}

const text = "name = 'Half turn'\ntitle = 'Half turn'\nturn = 400.5\nsay = 'a b c {heading}'\n"

// Each rule names file, line and key, what is wrong and what must be, and accepts what is right.
func TestRules(t *testing.T) {
	for _, c := range []struct {
		name string
		rule func(v *valid.Validator)
		want string // the error, "" for none
	}{
		{"a name", func(v *valid.Validator) { v.Name("name", "half-turn") }, ""},
		{
			"not a name",
			func(v *valid.Validator) { v.Name("name", "Half turn") },
			`x.toml:1: name: is "Half turn"; must be lower-case words joined by hyphens, such as wing-over`,
		},
		{"words", func(v *valid.Validator) { v.Words("title", "Half turn", 9) }, ""},
		{
			"too long",
			func(v *valid.Validator) { v.Words("title", "Half turn", 8) },
			`x.toml:2: title: is "Half turn"; must have 1 to 8 characters`,
		},
		{
			"missing",
			func(v *valid.Validator) { v.Words("summary", "", 8) },
			`x.toml: summary: is missing; must have 1 to 8 characters`,
		},
		{"within", func(v *valid.Validator) { v.Within("turn", 400.5, 400.5, 401) }, ""},
		{
			"beyond",
			func(v *valid.Validator) { v.Within("turn", 400.5, 30, 360) },
			`x.toml:3: turn: is 400.5; must be between 30 and 360`,
		},
		{"said", func(v *valid.Validator) { v.Spoken("say", "a b {heading}") }, ""},
		{"silence", func(v *valid.Validator) { v.Spoken("say", "") }, ""},
		{
			"a heading is three words",
			func(v *valid.Validator) { v.Spoken("say", "a b c {heading}") },
			`x.toml:4: say: has 6 words; must have at most 5, so that it can be said in time`,
		},
		{"one of", func(v *valid.Validator) { v.OneOf("name", "jet", "propeller", "jet") }, ""},
		{
			"none of",
			func(v *valid.Validator) { v.OneOf("name", "rocket", "propeller", "jet") },
			`x.toml:1: name: is "rocket"; must be propeller or jet`,
		},
		{
			"the first fault is kept",
			func(v *valid.Validator) {
				v.Source("turn", " ")
				v.Name("name", "Half turn")
			},
			`x.toml:3: turn: is missing; must say where the numbers come from, or be "common practice, no source"`,
		},
	} {
		f, err := strict.Decode("x.toml", []byte(text), &card{})
		if err != nil {
			t.Fatal(err)
		}
		v := valid.New(f)
		c.rule(v)
		got := ""
		if v.Err() != nil {
			got = v.Err().Error()
		}
		if got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestAny(t *testing.T) {
	for want, words := range map[string][]string{
		"":          nil,
		"a":         {"a"},
		"a or b":    {"a", "b"},
		"a, b or c": {"a", "b", "c"},
	} {
		if got := valid.Any(words); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
