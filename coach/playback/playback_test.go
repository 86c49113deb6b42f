package playback_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/command"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/playback"
	"halfturn/coach/session"
	"halfturn/coach/who"
	"halfturn/configs"
	"halfturn/stream/pipeline"
)

// plans finds the shipped cards.
func plans(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		return nil, nil, err
	}
	card, err := lib.Card(c.Maneuver)
	if err != nil {
		return nil, nil, err
	}
	a, err := lib.AircraftNamed(c.Aircraft)
	if err != nil {
		return nil, nil, err
	}
	return plan.New(card, a), nil, nil
}

func newSession(t *testing.T) *session.Session {
	t.Helper()
	p, _, err := plans(maneuver.Choice{Maneuver: "lazy-eight"})
	if err != nil {
		t.Fatal(err)
	}
	return session.New(session.Options{Name: "Station 3", Address: "127.0.0.1:1", Coach: judge.Options{Plan: p}})
}

// What an opening states comes back as options.
func TestOpening(t *testing.T) {
	base := session.Options{
		Station: pipeline.Options{BankSign: pipeline.Reversed, GroundSpeedAsAirspeed: true},
		Coach:   judge.Options{Deck: 1500, Voice: callout.Options{Rate: 3, Reaction: 0.4}},
	}
	written := playback.Opening{
		Program:  "1.2.3",
		Session:  "01J",
		Station:  "Station 3",
		Part:     2,
		Choice:   maneuver.Choice{Maneuver: "wing-over", Standard: "training", Aircraft: "light-single"},
		Settings: playback.SettingsOf(&base, "abc"),
	}
	read, ours, err := playback.ReadOpening(written.Comment())
	written.Version = 1
	if err != nil || !ours || read != written {
		t.Fatalf("%+v, %v, %v; must be %+v", read, ours, err, written)
	}
	got, err := read.Options(session.Options{}, plans)
	if err != nil {
		t.Fatal(err)
	}
	if again := playback.SettingsOf(&got, "abc"); again != written.Settings {
		t.Errorf("settings %+v; must be %+v", again, written.Settings)
	}
	if p := got.Coach.Plan; p.Card.Name != "wing-over" || p.Aircraft.Name != "light-single" {
		t.Errorf("plan %+v", p.Choice())
	}
}

func TestOpeningThatCannotBeRead(t *testing.T) {
	for text, want := range map[string]string{
		"halfturn {":                           "cannot be read",
		`halfturn {"version":9}`:               "version 9",
		"halfturn []":                          "cannot be read",
		`halfturn {"version":"1"}`:             "cannot be read",
		`halfturn {"version":0,"program":"x"}`: `"x"`,
	} {
		if _, ours, err := playback.ReadOpening(text); !ours || err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, %v; must hold %q", text, ours, err, want)
		}
	}
	for _, text := range []string{"", "halfturn", "another program"} {
		if _, ours, err := playback.ReadOpening(text); ours || err != nil {
			t.Errorf("%q: %v, %v", text, ours, err)
		}
	}
	for _, o := range []playback.Opening{
		{Settings: playback.Settings{BankSign: "up", PitchSign: "auto"}},
		{Settings: playback.Settings{BankSign: "auto", PitchSign: "up"}},
		{
			Settings: playback.Settings{BankSign: "auto", PitchSign: "auto"},
			Choice:   maneuver.Choice{Maneuver: "none such"},
		},
	} {
		if _, err := o.Options(session.Options{}, plans); err == nil {
			t.Errorf("%+v has no error", o)
		}
	}
}

func comment(a command.Action) string {
	return playback.CommandComment(command.New("01J", time.Unix(0, 0), "Station 3", who.Owner(), a))
}

// Commands in the comments of a recording take effect, in their order; other comments do nothing.
func TestCommandsAreFollowed(t *testing.T) {
	s := newSession(t)
	p := playback.New(s, plans)
	_, err := p.Feed([]byte("x"), 1, []string{
		"another program",
		comment(command.Choose{Choice: maneuver.Choice{Maneuver: "chandelle-civil", Aircraft: "light-single"}}),
		comment(command.Student{Name: "Ada Example"}),
		playback.LostComment(3),
		playback.LostComment(4),
		playback.HoleComment(2, 57),
		`halfturn {"other":1}`,
	})
	if err != nil {
		t.Fatal(err)
	}
	if c := s.Coaching().Choice(); c.Maneuver != "chandelle-civil" || c.Aircraft != "light-single" {
		t.Errorf("chosen %+v", c)
	}
	if h := s.Report().Holes; len(h) != 1 || h[0].Own != 2 || h[0].Shared != 57 {
		t.Errorf("holes %+v", h)
	}
	if p.Lost != 7 || p.Student != "Ada Example" || s.Info(1).Student != "Ada Example" {
		t.Errorf("%d lost, student %q, %q", p.Lost, p.Student, s.Info(1).Student)
	}
	if got := s.Station().Stats().Datagrams; got != 1 {
		t.Errorf("%d datagrams", got)
	}
}

// Without plans a session is judged by its own cards.
func TestChoiceIsIgnoredWithoutPlans(t *testing.T) {
	s := newSession(t)
	text := comment(command.Choose{Choice: maneuver.Choice{Maneuver: "none such"}})
	if err := playback.New(s, nil).Apply([]string{text}); err != nil {
		t.Error(err)
	}
	if c := s.Coaching().Choice(); c.Maneuver != "lazy-eight" {
		t.Errorf("chosen %+v", c)
	}
}

// A command that cannot be followed is reported, and the next one is followed all the same.
func TestCommandsThatFail(t *testing.T) {
	for _, text := range []string{
		"halfturn {",
		`halfturn {"student":3}`,
		comment(command.Choose{Choice: maneuver.Choice{Maneuver: "none such"}}),
		comment(command.Line{LineChoice: coach.LineChoice{Heading: new(1000.0)}}),
	} {
		p := playback.New(newSession(t), plans)
		if err := p.End([]string{text, comment(command.Student{Name: "Bo Example"})}); err == nil {
			t.Errorf("%s has no error", text)
		}
		if p.Student != "Bo Example" {
			t.Errorf("%s: the next command has no effect", text)
		}
	}
	gone := errors.New("the card is gone")
	missing := func(maneuver.Choice) (*plan.Plan, []*plan.Plan, error) { return nil, nil, gone }
	err := playback.New(newSession(t), missing).Apply([]string{comment(command.Choose{})})
	if !errors.Is(err, gone) {
		t.Errorf("%v; must be %v", err, gone)
	}
}

// Of the parts before what is played, the commands count, and nothing that was lost there.
func TestPrecede(t *testing.T) {
	s := newSession(t)
	p := playback.New(s, plans)
	err := p.Precede([]string{
		playback.LostComment(3),
		comment(command.Student{Name: "Ada Example"}),
		playback.HoleComment(0, 57),
	})
	if err != nil || p.Lost != 0 || p.Student != "Ada Example" || len(s.Report().Holes) != 0 {
		t.Errorf("%v, %d lost, student %q, holes %+v", err, p.Lost, p.Student, s.Report().Holes)
	}
}
