package phrase_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/stream/phrase"
)

func TestTemplate(t *testing.T) {
	bank, speed := phrase.Number("bank", 59.6, 0, ""), phrase.Number("speed", 130, 0, "kt")
	for _, tt := range []struct {
		text string
		args []phrase.Arg
		want string
		json string
	}{
		{"Roll out now", []phrase.Arg{bank}, "Roll out now", `"Roll out now"`},
		{
			"Bank {bank}, nose level", []phrase.Arg{speed, bank}, "Bank 60, nose level",
			`{"code":"Bank {bank}, nose level","args":{"bank":{"value":60}},"text":"Bank 60, nose level"}`,
		},
		{
			"{speed}, {bank}, {speed}", []phrase.Arg{bank, speed}, "130 kt, 60, 130 kt",
			`{"code":"{speed}, {bank}, {speed}",` +
				`"args":{"speed":{"value":130,"unit":"kt"},"bank":{"value":60}},"text":"130 kt, 60, 130 kt"}`,
		},
		{
			"Level on {heading}", []phrase.Arg{phrase.Words("heading", "2 7 0")}, "Level on 2 7 0",
			`{"code":"Level on {heading}","args":{"heading":"2 7 0"},"text":"Level on 2 7 0"}`,
		},
		{
			"Level on {heading}", []phrase.Arg{phrase.Part("heading", phrase.NewHeading.Of())},
			"Level on the new heading",
			`{"code":"Level on {heading}","args":{"heading":[{"code":"heading.new","text":"the new heading"}]},` +
				`"text":"Level on the new heading"}`,
		},
		{
			"Bank {bank}", nil, "Bank {bank}",
			`{"code":"Bank {bank}","text":"Bank {bank}"}`,
		},
	} {
		is := phrase.Template(tt.text, tt.args...)
		data, err := json.Marshal(is)
		if is.String() != tt.want || string(data) != tt.json || err != nil {
			t.Errorf("%q becomes %q, %s, %v; must be %q, %s", tt.text, is, data, err, tt.want, tt.json)
		}
		var back phrase.Phrase
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		again, err := json.Marshal(back)
		if d := cmp.Diff(string(data), string(again)); d != "" || err != nil {
			t.Errorf("%q comes back otherwise: %s %v", tt.text, d, err)
		}
	}
}

// What is sent to a page or read from a file may be anything: an argument of another kind leaves the words.
func TestTemplateOfOthers(t *testing.T) {
	for _, in := range []string{
		`{"code":"Bank {bank}","args":{"bank":{"value":"x"}},"text":"Bank 60"}`,
		`{"code":"Bank {bank}","args":{"bank":[7]},"text":"Bank 60"}`,
		`{"code":"Bank {bank}","args":{"bank":7},"text":"Bank 60"}`,
	} {
		var p phrase.Phrase
		if err := json.Unmarshal([]byte(in), &p); err != nil || p.Code() != "" || p.String() != "Bank 60" {
			t.Errorf("%s becomes %q, %q, %v", in, p.Code(), p, err)
		}
	}
}
