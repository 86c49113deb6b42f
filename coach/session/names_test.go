package session_test

import (
	"testing"

	"halfturn/coach/command"
	"halfturn/coach/session"
)

// Names in a recording are as they are kept, whoever wrote it: nothing of them does anything to a terminal or a page.
func TestPlayNames(t *testing.T) {
	o, ours, err := session.ReadOpening(session.Opening{Station: "Seat\x1b[2J  3", Address: "a\r\nb\x07", Student: "Ada\u00a0 \u202eExample"}.Comment())
	if err != nil || !ours || o.Station != "Seat[2J 3" || o.Address != "a b" || o.Student != "Ada Example" {
		t.Errorf("%+v, %v, %v", o, ours, err)
	}
	s := session.New(options(t, "lazy-eight", "", nil))
	p := session.NewPlay(s, nil)
	for said, want := range map[string]string{"Bo Example": "Bo Example", " Bo\u2003Example\u009b": "Bo Example", "\x07": "", "": ""} {
		if err := p.Apply([]string{session.CommandComment(command.Command{Action: command.Student{Name: said}})}); err != nil || p.Student != want {
			t.Errorf("%q: %q, %v; want %q", said, p.Student, err, want)
		}
	}
}
