package live

import (
	"bytes"
	"encoding/json"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach"
	"halfturn/coach/archive/lock"
	"halfturn/coach/command"
	"halfturn/coach/debrief"
	"halfturn/coach/ids"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/stored"
	"halfturn/coach/who"
	"halfturn/stream/record"
	"halfturn/stream/streamtest"
)

// A session in which maneuver, line and student are changed on the way, and in which the server is
// stopped and started again, is one session; graded again from its recording it is what it was live,
// byte for byte.
func TestSessionGoesOn(t *testing.T) {
	data := t.TempDir()
	list := streamtest.Payloads(t, brokenOff)
	conn, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	name := conn.LocalAddr().String()
	var live *debrief.Report
	sent := 0
	send := func(s *server, n int) {
		t.Helper()
		to := net.UDPAddrFromAddrPort(s.Addresses()[0])
		for i := range n {
			if _, err := conn.WriteToUDP(list[sent], to); err != nil {
				t.Fatal(err)
			}
			sent++
			if i%50 == 0 || i == n-1 {
				s.await(t, name, sent)
			}
		}
	}
	ended := func(r *debrief.Report) { live = r }
	s := serveWith(t, config(t, "", data), ended)
	send(s, len(list)/10)
	do := func(a command.Action) error {
		return s.desk.Do(t.Context(), command.New(ids.New(time.Now()), time.Now(), name, who.Owner(), a))
	}
	east := 90.0
	for _, err := range []error{
		do(command.Line{LineChoice: coach.LineChoice{Heading: &east, Side: "right"}}),
		do(command.About{AboutChoice: coach.AboutChoice{Where: "right"}}),
		do(command.Student{Name: "Ada"}),
		do(command.Choose{Choice: maneuver.Choice{Maneuver: "chandelle-civil"}}),
		do(command.Choose{Choice: maneuver.Choice{Maneuver: "wing-over", Standard: "course"}}),
		do(command.Choose{Choice: maneuver.Choice{Maneuver: coach.AutoManeuver, Standard: "practice"}}),
	} {
		if err != nil {
			t.Fatal(err)
		}
	}
	send(s, len(list)/3)
	s.stop()
	id := live.Session.ID
	if !record.Unfinished(filepath.Join(data, "sessions", id)) {
		t.Error("a session that was interrupted by Ctrl-C is over")
	}
	s = serveWith(t, config(t, "", data), ended)
	_, err = lock.Own(data)
	if err == nil || !strings.Contains(err.Error(), data) || !strings.Contains(err.Error(), "--data") {
		t.Errorf("a second server: %v", err)
	}
	send(s, len(list)-sent)
	info := stationOf(t, s, name)
	if info.Session != id || !info.Auto || info.Student != "Ada" || info.Recording != "on" {
		t.Errorf("the station says %+v", info)
	}
	if err := do(command.End{}); err != nil { // a touch
		t.Fatal(err)
	}
	if live.Session.ID != id {
		t.Fatalf("the session went on as %s, not %s", live.Session.ID, id)
	}
	if err := do(command.End{}); err == nil {
		t.Error("a session that was not begun is ended")
	}
	s.stop()
	if record.Unfinished(filepath.Join(data, "sessions", id)) {
		t.Error("the session is not over")
	}
	graded := regrade(t, data, id)
	if len(graded.Differences) > 0 || !graded.Compared {
		t.Errorf("differences %v", graded.Differences)
	}
	want, _ := json.Marshal(live.Files[0].Stations[0])
	got, _ := json.Marshal(graded.Report.Files[0].Stations[0])
	if !bytes.Equal(want, got) {
		t.Errorf("live\n%s\ngraded again\n%s", want, got)
	}
	byPractice := func(s coach.Series) bool { return s.Standard == "practice" }
	if !slices.ContainsFunc(live.Files[0].Stations[0].Series, byPractice) {
		t.Error("nothing was flown by the standard chosen")
	}
	if parts, err := record.Parts(filepath.Join(data, "sessions", id)); err != nil || len(parts) != 2 {
		t.Errorf("the recording is %v, %v", parts, err)
	}
}

// regrade grades a session again from its recording.
func regrade(t *testing.T, data, id string) *stored.Regraded {
	t.Helper()
	rec, err := stored.Find(t.Context(), data, id)
	if err != nil {
		t.Fatal(err)
	}
	by := judge(only(config(t, "", data)))
	by.Today = true
	out, err := (&stored.Regrade{Judge: by, By: who.Owner()}).Run(t.Context(), rec)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// What cannot be recorded is coached all the same, and the panel says so.
func TestNothingRecorded(t *testing.T) {
	data := t.TempDir()
	s := serveWith(t, config(t, "", data), nil)
	sessions := filepath.Join(data, "sessions")
	if err := os.RemoveAll(sessions); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(sessions, nil, 0o600); err != nil { // a file where the folder was: nothing can be made in it
		t.Fatal(err)
	}
	name := s.send(t, streamtest.Payloads(t, brokenOff)[:600])
	var info message.Station
	cmdtest.Until(t, func() bool {
		info = stationOf(t, s, name)
		return info.Recording == "failing"
	}, func() string { return fmt.Sprintf("the recording is %q, not failing", info.Recording) })
	if info.RecordingWords.IsZero() || info.Session == "" {
		t.Errorf("the station says %+v", info)
	}
	health, says := "", "degraded\nRecordings lack "
	cmdtest.Until(t, func() bool {
		health = cmdtest.Get(t, s.URL()+"healthz")
		return strings.HasPrefix(health, says)
	}, func() string { return fmt.Sprintf("the health is %q; must begin with %q", health, says) })
	_, list := s.ask(t, "GET", "api/stations", "", nil)
	if !bytes.Contains(list, []byte(`"lacking":[{"code":"overload.recording"`)) {
		t.Errorf("the stations: %s", list)
	}
	s.stop()
}
