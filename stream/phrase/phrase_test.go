package phrase_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/stream/phrase"
)

// sample returns a phrase of a sentence with arguments of each kind.
func sample(d *phrase.Definition) phrase.Phrase {
	var args []phrase.Arg
	for _, p := range placesOf(d) {
		switch p.kind {
		case "number":
			args = append(args, phrase.Number(p.name, 94.5, 1, "kt"))
		case "name":
			args = append(args, phrase.Name(p.name, `Ada "the" Example`))
		case "words":
			args = append(args, phrase.Words(p.name, "--udp"))
		case "phrase":
			args = append(args, phrase.Part(p.name, nested(d, p.name)))
		case "within":
			args = append(args, phrase.Within(p.name, phrase.Stopping.Of()))
		case "list":
			args = append(args, phrase.List(p.name, words("bank", "airspeed", "nose")...))
		}
	}
	return d.Of(args...)
}

// nested is a phrase for a place: one with a code where it may have one.
func nested(d *phrase.Definition, place string) phrase.Phrase {
	if place == "label" {
		return phrase.Plain("Bank, N1 held")
	}
	return phrase.Stopping.Of()
}

// words are phrases without a code.
func words(all ...string) (list []phrase.Phrase) {
	for _, w := range all {
		list = append(list, phrase.Plain(w))
	}
	return list
}

// forChannels is a phrase with a list and a phrase in it.
func forChannels(names ...string) phrase.Phrase {
	paused := phrase.Part("setting", phrase.StreamPaused.Of())
	return phrase.ForChannels.Of(phrase.List("channels", words(names...)...), paused)
}

func TestTable(t *testing.T) {
	code := regexp.MustCompile(`^[a-z]+(-[a-z]+)*\.[a-z]+(-[a-z]+)*$`)
	seen := map[string]bool{}
	for _, d := range phrase.All() {
		if !code.MatchString(d.Code()) || seen[d.Code()] {
			t.Errorf("the code %q is used twice, or is not area.name", d.Code())
		}
		seen[d.Code()] = true
		names := map[string]bool{}
		for _, p := range placesOf(d) {
			if names[p.name] {
				t.Errorf("%s: {%s} is there twice", d.Code(), p.name)
			}
			names[p.name] = true
		}
		if s := sample(d).String(); strings.ContainsAny(s, "{}") {
			t.Errorf("%s: %q", d.Code(), s)
		}
	}
	if len(seen) == 0 {
		t.Fatal("the table is empty")
	}
}

func TestEnglish(t *testing.T) {
	cause := phrase.Plain("disk full")
	for _, tt := range []struct {
		is   phrase.Phrase
		want string
	}{
		{phrase.Phrase{}, ""},
		{phrase.Plain("as it is"), "as it is"},
		{
			phrase.NoSuchLeg.Of(phrase.Int("legs", 5), phrase.Int("leg", 7)),
			"the session has 5 legs; there is none numbered 7",
		},
		{
			phrase.NoStation.Of(phrase.Name("name", "Seat\n3")),
			`there is no station "Seat\n3"; GET /api/stations lists those there are`,
		},
		{
			phrase.BadPlace.Of(phrase.Number("place", -0.25, -1, "s")),
			"the place is -0.25 s; it counts from 0, where the recording begins",
		},
		{
			phrase.BadRecording.Of(phrase.Part("why", cause, phrase.Stopping.Of())),
			"the recording cannot be read: disk full, the server is stopping",
		},
		{forChannels("a", "b", "c"), "For a, b and c: The simulator is paused. Let it run."},
		{forChannels("a", "b"), "For a and b: The simulator is paused. Let it run."},
		{forChannels("a"), "For a: The simulator is paused. Let it run."},
		{phrase.BadRecording.Of(), "the recording cannot be read: {why}"},
	} {
		if got := tt.is.String(); got != tt.want {
			t.Errorf("%q; must be %q", got, tt.want)
		}
		if tt.is.IsZero() != (tt.want == "") {
			t.Errorf("%q: IsZero is %t", tt.want, tt.is.IsZero())
		}
	}
	if p := phrase.Stopping.Of(); !p.Is(phrase.Stopping) || p.Is(phrase.Busy) || cause.Is(phrase.Stopping) {
		t.Error("Is tells sentences apart wrongly")
	}
}

func TestJSON(t *testing.T) {
	for _, tt := range []struct {
		is   phrase.Phrase
		want string
	}{
		{phrase.Phrase{}, `""`},
		{phrase.Plain("disk full"), `"disk full"`},
		{phrase.Stopping.Of(), `{"code":"server.stopping","text":"the server is stopping"}`},
		{
			phrase.BadPlace.Of(phrase.Number("place", -0.25, 2, "s")),
			`{"code":"replay.place","args":{"place":{"value":-0.25,"unit":"s","digits":2}},` +
				`"text":"the place is -0.25 s; it counts from 0, where the recording begins"}`,
		},
		{
			phrase.BadPlace.Of(phrase.Number("place", math.NaN(), -1, "")),
			`{"code":"replay.place","args":{"place":"NaN"},` +
				`"text":"the place is NaN; it counts from 0, where the recording begins"}`,
		},
		{
			phrase.BadRecording.Of(phrase.Part("why", phrase.Plain("cut"))),
			`{"code":"recording.unreadable","args":{"why":["cut"]},` +
				`"text":"the recording cannot be read: cut"}`,
		},
	} {
		data, err := json.Marshal(tt.is)
		if d := cmp.Diff(tt.want, string(data)); d != "" || err != nil {
			t.Error(d, err)
		}
	}
}

// FuzzJSON holds what is written to what encoding/json writes of the same strings and numbers.
func FuzzJSON(f *testing.F) {
	for i, value := range []float64{0, 94.5, -0.25, 1e21, 1e-7, -5e-324, math.MaxFloat64, math.Copysign(0, -1)} {
		name := []string{"", "kt", "<b>&\u2028", "a\xffb\xfe", "\x00\x1f\"\\", "Ünïcode 🙂"}[i%6]
		f.Add(name, value)
	}
	f.Fuzz(func(t *testing.T, name string, value float64) {
		if math.IsNaN(value) || math.IsInf(value, 0) {
			t.Skip("has no number in JSON")
		}
		const exact = -1 // as many digits as the number has
		reference := func(v any) string {
			data, err := json.Marshal(v)
			if err != nil {
				t.Fatal(err)
			}
			return string(data)
		}
		if got, want := inJSON(t, phrase.Plain(name)), reference(name); got != want {
			t.Errorf("%q is written as %s; must be %s", name, got, want)
		}
		type quantity struct {
			Value  float64 `json:"value"`
			Unit   string  `json:"unit,omitempty"`
			Digits int     `json:"digits,omitempty"`
		}
		type place struct {
			Place quantity `json:"place"`
		}
		is := phrase.BadPlace.Of(phrase.Number("place", value, exact, name))
		want := reference(struct {
			Code string `json:"code"`
			Args place  `json:"args"`
			Text string `json:"text"`
		}{phrase.BadPlace.Code(), place{quantity{value + 0, name, exact}}, is.String()}) // −0 is 0
		if got := inJSON(t, is); got != want {
			t.Errorf("%g %q is written as %s; must be %s", value, name, got, want)
		}
	})
}

// TestRoundTrip: every sentence comes back from JSON, and from its English alone, as versions that had no codes wrote
// it.
func TestRoundTrip(t *testing.T) {
	for _, d := range phrase.All() {
		is := sample(d)
		data, err := json.Marshal(is)
		if err != nil {
			t.Fatal(err)
		}
		var back phrase.Phrase
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		for from, got := range map[string]phrase.Phrase{"JSON": back, "English": phrase.Read(is.String())} {
			again, err := json.Marshal(got)
			if diff := cmp.Diff(string(data), string(again)); diff != "" || err != nil {
				t.Errorf("%s, from its %s: %s %v", d.Code(), from, diff, err)
			}
		}
	}
}

func inJSON(t *testing.T, p phrase.Phrase) string {
	t.Helper()
	data, err := json.Marshal(p)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestErrors(t *testing.T) {
	hidden := phrase.NameTooLong.Error(phrase.Int("letters", 81), phrase.Int("most", 80))
	for _, tt := range []struct {
		is   error
		code string
	}{
		{hidden, "name.too-long"},
		{errors.Join(hidden), "name.too-long"},
		{errors.New(hidden.Error()), "name.too-long"}, // as a layer that keeps only the text reports it
		{fmt.Errorf("student: %w", hidden), ""},
		{errors.New("disk full"), ""},
	} {
		if p := phrase.OfError(tt.is); p.Code() != tt.code || p.String() != tt.is.Error() {
			t.Errorf("%v: %q, %q; must be %q", tt.is, p.Code(), p.String(), tt.code)
		}
	}
}

func TestReadOthers(t *testing.T) {
	for in, code := range map[string]string{
		`"the server is stopping"`: "server.stopping",
		`"what no sentence says"`:  "",
		`""`:                       "",
		`{"code":"of.tomorrow","args":{},"text":"the server is stopping"}`: "server.stopping",
		`{"code":"replay.place","text":"the place is 7 s; it counts"}`:     "",
	} {
		var p phrase.Phrase
		if err := json.Unmarshal([]byte(in), &p); err != nil || p.Code() != code {
			t.Errorf("%s: the code %q, %v", in, p.Code(), err)
		}
	}
	var p phrase.Phrase
	if err := json.Unmarshal([]byte(`7`), &p); err == nil {
		t.Error("a number was read as a phrase")
	}
}
