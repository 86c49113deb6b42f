package desk

import (
	"net/netip"
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

// What is recorded of a command is the command: what was asked, by whom and when. One that was refused, and one that
// changes nothing in the recording, are not recorded.
func TestCommandsAreRecorded(t *testing.T) {
	at := netip.MustParseAddrPort("192.168.1.20:1")
	d, doing := newDesk(t)
	s := d.Station(at).(*station)
	doing.handlers[at] = s
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
		{command.End{}, false, false},
	} {
		s.controls = nil
		sent := commanded(at.String(), c.action)
		if err := d.Do(t.Context(), sent); (err != nil) != c.refused {
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
	if err := d.Do(t.Context(), commanded("nobody", command.End{})); err == nil {
		t.Error("a station that is not there is ended")
	}
}
