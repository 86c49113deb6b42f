package live

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/ids"
	"halfturn/coach/logbook"
	"halfturn/coach/storage"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/stream/streamtest"
)

// TestDatabaseAway: a server starts while the database of logbook and people does not answer. It coaches and records;
// the pages say what waits, and that questions cannot be answered. It is stopped before the database is back: the next
// program enters what was flown, with the student and the grades.
func TestDatabaseAway(t *testing.T) {
	data := t.TempDir()
	// Port 1 is that of a service that is long gone (RFC 1078).
	nowhere := storage.At("host=127.0.0.1 port=1 user=app dbname=x sslmode=disable")
	cfg := config(t, "", data)
	cfg.Access.HomeIsOwner = true // else nobody is let in: who there is cannot be asked
	s := serveWith(t, cfg, nil, func(o *Options) { o.Storage = &nowhere })
	if list := s.lacking(); len(list) != 1 || !list[0].Is(phrase.LogbookAway) {
		t.Errorf("before anything is flown it lacks %v", list)
	}
	name := s.send(t, streamtest.Payloads(t, brokenOff))
	do := func(a command.Action) {
		t.Helper()
		c := command.New(ids.New(time.Now()), time.Now(), name, who.Owner(), a)
		if err := s.desk.Do(t.Context(), c); err != nil {
			t.Error(err)
		}
	}
	do(command.Student{Name: "Ada Example"})
	if st := stationOf(t, s, name); st.Recording != "on" || st.Session == "" {
		t.Errorf("the station shows %+v", st)
	}
	id := stationOf(t, s, name).Session
	do(command.End{})
	if status, text := s.ask(t, http.MethodGet, "api/sessions", "", nil); status != http.StatusServiceUnavailable ||
		!strings.Contains(string(text), "127.0.0.1:1") {
		t.Errorf("asked for sessions it says %d, %s", status, text)
	}
	s.stop()
	s = serveWith(t, config(t, "", data), nil)
	defer s.stop()
	var list *logbook.SessionList
	for range 400 {
		var err error
		if list, err = s.book.List(t.Context(), logbook.Filter{}); err != nil {
			t.Fatal(err)
		}
		if len(list.Sessions) == 1 && list.Sessions[0].Ended != "" && list.Sessions[0].Student != "" {
			break
		}
		<-time.After(50 * time.Millisecond)
	}
	if len(list.Sessions) != 1 || list.Sessions[0].ID != id || list.Sessions[0].Student != "Ada Example" ||
		list.Sessions[0].Legs == 0 || list.Sessions[0].Ended == "" {
		t.Errorf("the logbook has %+v", list.Sessions)
	}
}
