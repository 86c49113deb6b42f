package practice

import (
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/playback"
	"halfturn/coach/who"
)

// commanded is a command as a page sends it.
func commanded(station string, a command.Action) command.Command {
	now := time.Now()
	return command.New(ids.New(now), now, station, who.Owner(), a)
}

// do has something done to a station by the owner of the machine.
func do(p *Practice, a command.Action) error {
	_, err := p.Do(commanded(p.name, a), time.Now())
	return err
}

// What is recorded of a command is the command: what was asked, by whom and when. One that was refused, and one that
// changes nothing in the recording, are not recorded.
func TestCommandsAreRecorded(t *testing.T) {
	s := recordingOn(t, t.TempDir(), new(atomic.Bool)).station()
	s.Datagram([]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0}`), time.Now())
	heading := 400.0
	for _, c := range []struct {
		action            command.Action
		refused, recorded bool
	}{
		{command.Student{Name: "Ada Example"}, false, true},
		{command.Choose{Choice: maneuver.Choice{Maneuver: "lazy-eight", Standard: "check"}}, false, true},
		{command.Choose{Choice: maneuver.Choice{Maneuver: "none"}}, true, false},
		{command.Line{LineChoice: coach.LineChoice{Heading: &heading}}, true, false},
		{command.Prompt{How: "fade"}, false, true},
		{command.Prompt{How: "loud"}, true, false},
		{command.Again{}, false, true},
		{command.End{}, false, false},
	} {
		s.controls = nil
		sent := commanded(s.name, c.action)
		if _, err := s.Do(sent, time.Now()); (err != nil) != c.refused {
			t.Errorf("%s: %v", sent.Kind(), err)
		}
		var want []string
		if c.recorded {
			want = []string{playback.CommandComment(sent)}
		}
		if diff := cmp.Diff(want, s.controls); diff != "" {
			t.Errorf("%s is recorded otherwise (-sent +recorded):\n%s", sent.Kind(), diff)
		}
	}
	s.End(true)
}

// A drill is recorded where it is flown, which may be a building block, so that a recording needs no search for it. One
// that is refused leaves what was chosen.
func TestDrillIsRecordedWhereItIsFlown(t *testing.T) {
	s := recordingOn(t, t.TempDir(), new(atomic.Bool)).station()
	s.Datagram([]byte(`{"time": 1, "heading": 90, "pitch": 2, "bank": 0}`), time.Now())
	for _, c := range []struct{ maneuver, cause, where string }{
		{"wing-over", "overbanked", "wing-over-to-90"},
		{"wing-over", "rolled-out-late", "wing-over"},
		{"wing-over", "stalled", ""},
		{coach.AutoManeuver, "overbanked", ""},
		{"none", "overbanked", ""},
		{"wing-over-to-90", "overbanked", "wing-over-to-90"},
	} {
		s.controls = nil
		before := s.session.Coaching()
		sent := commanded(s.name, command.Drill{Choice: maneuver.Choice{Maneuver: c.maneuver}, Cause: c.cause})
		_, err := s.Do(sent, time.Now())
		if (err == nil) != (c.where != "") {
			t.Errorf("%s of %s: %v", c.cause, c.maneuver, err)
		}
		var want []string
		if c.where != "" {
			sent.Action = command.Drill{Choice: maneuver.Choice{Maneuver: c.where}, Cause: c.cause}
			want = []string{playback.CommandComment(sent)}
		} else if s.session.Coaching() != before {
			t.Errorf("%s of %s is refused, and another maneuver is flown", c.cause, c.maneuver)
		}
		if diff := cmp.Diff(want, s.controls); diff != "" {
			t.Errorf("%s of %s is recorded otherwise (-must be +recorded):\n%s", c.cause, c.maneuver, diff)
		}
	}
	s.End(true)
}
