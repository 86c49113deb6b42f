package main

import (
	"encoding/json"
	"fmt"
	"net"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach"
	"halfturn/coach/session"
	"halfturn/stream/record"
	"halfturn/stream/streamtest"
	"halfturn/web"
)

// TestLegUnderWay: while a session is being flown, the leg under way is no leg yet, and none broken off: not in the
// pictures, nor over the API, nor in text, nor in an export. Once it is over it is there.
func TestLegUnderWay(t *testing.T) {
	t.Parallel()
	maneuver := "wing-over"
	all := streamtest.Payloads(t, recordedFlight)
	cfg, err := base.Load(&base.Flags{Maneuver: &maneuver}, noVariables)
	if err != nil {
		t.Fatal(err)
	}
	opt, err := cfg.Session()
	if err != nil {
		t.Fatal(err)
	}
	var over []int // after how many datagrams each leg is
	for i, aside := 0, session.New(opt); i < len(all); i++ {
		aside.Feed(all[i], float64(i)/60)
		for aside.Legs() > len(over) {
			over = append(over, i+1)
		}
	}
	if len(over) != 2 {
		t.Fatalf("%d legs", len(over))
	}
	within := over[0] + (over[1]-over[0])*3/4
	data := t.TempDir()
	s := beginServer(t, nil, data, "--maneuver", maneuver)
	conn, err := net.DialUDP("udp", nil, s.udp)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	name, sent := conn.LocalAddr().String(), 0
	send := func(to int) {
		t.Helper()
		for ; sent < to; sent++ {
			if _, err := conn.Write(all[sent]); err != nil {
				t.Fatal(err)
			}
			if sent%50 == 0 || sent == to-1 {
				cmdtest.Until(t, func() bool { return s.taken(t) > sent },
					func() string { return fmt.Sprintf("%d of %d datagrams were taken", s.taken(t), sent+1) })
			}
		}
	}
	send(within)
	var list web.StationList
	stations := cmdtest.Get(t, s.pages+"api/stations")
	if err := json.Unmarshal([]byte(stations), &list); err != nil || len(list.Stations) != 1 {
		t.Fatalf("%+v, %v", list, err)
	}
	id := list.Stations[0].Session
	dir := filepath.Join(data, "sessions", id)
	cmdtest.Until(t, func() bool { return datagramsIn(t, dir) == within },
		func() string { return fmt.Sprintf("%d of %d datagrams are recorded", datagramsIn(t, dir), within) })
	pictures := cmdtest.Get(t, s.pages+"api/sessions/"+id+"/legs")
	station := cmdtest.Get(t, s.pages+"api/stations/"+name+"/legs")
	_, text, _ := call(t, nil, "sessions", "show", id, "--data", data)
	_, export, _ := call(t, nil, "sessions", "export", id, "--data", data, "--format", "json")
	for what, words := range map[string]string{"pictures": pictures, "station": station, "text": text,
		"export": export} {
		if strings.Contains(words, coach.BrokenOff) {
			t.Errorf("%s: the leg under way is told as broken off: %.2000s", what, words)
		}
		if n := strings.Count(words, `"outcome"`); what != "text" && what != "station" && n != 1 {
			t.Errorf("%s: %d legs, want that which is over", what, n)
		}
		if what == "text" && (!strings.Contains(words, "is being flown now") || strings.Count(words, "\n  Leg ") != 1) {
			t.Errorf("the text says %s", words)
		}
	}
	send(len(all))
	s.stop(t)
	if _, words, _ := call(t, nil, "sessions", "export", id, "--data", data, "--format", "json"); strings.Count(words,
		`"outcome": "finished"`) != 2 {
		t.Errorf("when it is over: %.2000s", words)
	}
}

// datagramsIn counts those of a session's recording so far.
func datagramsIn(t *testing.T, dir string) (n int) {
	t.Helper()
	parts, err := record.Parts(dir)
	if err != nil {
		t.Fatal(err)
	}
	r := record.Read(parts)
	defer r.Close()
	for {
		if _, err := r.Next(); err != nil {
			return n
		}
		n++
	}
}
