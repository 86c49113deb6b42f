package playback_test

import (
	"testing"

	"halfturn/coach/command"
	"halfturn/coach/playback"
)

// Names are cleaned when a recording is read, since any program may have written it: no control character in them
// reaches a terminal or a page.
func TestPlayNames(t *testing.T) {
	written := playback.Opening{
		Station: "Seat\x1b[2J  3",
		Address: "a\r\nb\x07",
		Student: "Ada\u00a0 \u202eExample",
	}
	o, ours, err := playback.ReadOpening(written.Comment())
	if err != nil || !ours || o.Station != "Seat[2J 3" || o.Address != "a b" || o.Student != "Ada Example" {
		t.Errorf("%+v, %v, %v", o, ours, err)
	}
	p := playback.New(newSession(t), nil)
	for said, want := range map[string]string{
		"Bo Example":             "Bo Example",
		" Bo\u2003Example\u009b": "Bo Example",
		"\x07":                   "",
		"":                       "",
	} {
		text := playback.CommandComment(command.Command{Action: command.Student{Name: said}})
		if err := p.Apply([]string{text}); err != nil || p.Student != want {
			t.Errorf("%q: %q, %v; must be %q", said, p.Student, err, want)
		}
	}
}
