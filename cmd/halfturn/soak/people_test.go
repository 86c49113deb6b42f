package soak

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/message"
	"halfturn/web"
)

// pausing waits about as long as people do between two things. It returns false when the context ended first.
func (s *soak) pausing(ctx context.Context, random *rand.Rand) bool {
	return wait(ctx, time.Duration(float64(s.tempo)*(0.2+random.Float64()*random.Float64()*5)))
}

// A viewer opens a live socket, and closes it again.
type viewer struct {
	*soak
	random *rand.Rand
	seq    uint64 // of the last event
	run    string // of the server's numbering
	at     string // the station followed
}

// habits are what viewers do with a socket, for a while each time.
var habits = []func(v *viewer, ctx context.Context, conn *websocket.Conn){
	(*viewer).watch,
	(*viewer).stall,
}

// live has a viewer come and go until the round is over. Every other time it comes back for what it missed; some look
// at all stations.
func (v *viewer) live(ctx context.Context, does func(*viewer, context.Context, *websocket.Conn)) {
	for v.pausing(ctx, v.random) {
		query := "?"
		switch {
		case v.run != "" && v.random.IntN(2) == 0:
			query += fmt.Sprintf("station=%s&since=%d&run=%s", v.at, v.seq, v.run)
		case v.random.IntN(3) == 0:
			query += "wall=1"
			v.seq, v.run = 0, ""
		default:
			v.seq, v.run = 0, ""
		}
		url := "ws" + strings.TrimPrefix(v.house.pages(), "http") + "live" + query
		dialer := websocket.Dialer{ReadBufferSize: 512}
		conn, answer, err := dialer.DialContext(v.Context(), url, nil)
		if err != nil {
			v.Errorf("%s: %v %v", url, err, answer)
			return
		}
		staying, leave := context.WithTimeout(ctx, time.Duration(float64(v.tempo)*v.random.Float64()*10))
		does(v, staying, conn)
		leave()
		conn.Close() // without a word, as when a tablet is switched off
		v.counts.viewed()
		v.look()
	}
}

// watch reads, and holds the server to its numbers: events of a station come without a gap.
func (v *viewer) watch(ctx context.Context, conn *websocket.Conn) {
	defer context.AfterFunc(ctx, func() { conn.Close() })()
	for {
		_, b, err := conn.ReadMessage()
		if err != nil {
			return
		}
		m, err := message.Decode(b)
		if err != nil {
			v.Errorf("a message that cannot be read: %v: %.200s", err, b)
			return
		}
		switch body := m.Body.(type) {
		case *message.Hello:
			v.at, v.seq, v.run = m.Station, m.Seq, body.Run
			continue
		}
		if m.Seq == 0 || v.run == "" {
			continue
		}
		if m.Station == v.at && v.seq > 0 && m.Seq != v.seq+1 {
			v.Errorf("event %d of %s follows event %d: %.200s", m.Seq, m.Station, v.seq, b)
		}
		v.at, v.seq = m.Station, m.Seq
	}
}

// stall reads nothing.
func (v *viewer) stall(ctx context.Context, _ *websocket.Conn) { <-ctx.Done() }

// look opens one of the pages, or asks for what they show.
func (v *viewer) look() {
	path := pick(v.random, []string{"", "logbook.html", "metrics", "api/stations", "api/sessions", "api/cards",
		"api/brief?maneuver=wing-over", "healthz"})
	r, err := client().Get(v.house.pages() + path)
	if err != nil {
		v.Errorf("/%s: %v", path, err)
		return
	}
	defer r.Body.Close()
	if _, err := io.Copy(io.Discard, r.Body); err != nil || r.StatusCode >= 500 {
		v.Errorf("/%s: status %d, %v", path, r.StatusCode, err)
	}
}

// commands are what is asked of stations, with the bodies.
var commands = []struct{ name, body string }{
	{"choose", `{"maneuver": "auto"}`},
	{"choose", `{"maneuver": "chandelle-civil", "aircraft": ""}`},
	{"choose", `{"maneuver": "lazy-eight", "aircraft": "radial-trainer"}`},
	{"choose", `{"maneuver": "no such"}`},
	{"line", `{"heading": null, "side": "right", "distance": null}`},
	{"line", `{"clear": true}`},
	{"prompts", `{"prompts": "fade"}`},
	{"prompts", `{"prompts": "all"}`},
	{"again", `{}`},
	{"student", `{"student": "Iris Quill"}`},
	{"student", `{"student": ""}`},
	{"end", `{}`},
	{"say", `{"say": "Look at the horizon"}`},
	{"mark", `{"mark": ""}`},
	{"stop", `{}`},
	{"start", `{"student": "Odo Fenn"}`},
	{"private", `{"private": true}`},
	{"private", `{"private": false}`},
	{"demonstrate", `{"maneuver": "", "standard": "", "aircraft": ""}`},
}

// command has somebody do things to stations until the round is over. What cannot be done just then is refused with a
// reason.
func (s *soak) command(ctx context.Context, random *rand.Rand) {
	defer s.endDemonstration()
	for s.pausing(ctx, random) {
		var names []string
		for _, st := range s.stations() {
			if isFaulty(st.Name) {
				names = append(names, st.Name)
			}
		}
		if len(names) == 0 {
			continue
		}
		c, at := pick(random, commands), pick(random, names)
		r, err := client().Post(s.house.pages()+"api/stations/"+at+"/"+c.name, "application/json",
			bytes.NewBufferString(c.body))
		if err != nil {
			s.Errorf("%s to %s: %v", c.name, at, err)
			continue
		}
		words, _ := io.ReadAll(r.Body) // for the message
		r.Body.Close()
		switch r.StatusCode {
		case http.StatusOK, http.StatusNotFound, http.StatusConflict, http.StatusUnprocessableEntity,
			http.StatusForbidden:
			s.counts.commanded()
		default:
			s.Errorf("%s %s to %s: status %d: %s", c.name, c.body, at, r.StatusCode, words)
		}
	}
}

// endDemonstration ends what the built-in aircraft flies: nobody is left who watches.
func (s *soak) endDemonstration() {
	r, err := http.NewRequestWithContext(s.Context(), http.MethodDelete, s.house.pages()+"api/demonstration", nil)
	if err != nil {
		s.Error(err)
		return
	}
	answer, err := client().Do(r)
	if err != nil {
		s.Error(err)
		return
	}
	answer.Body.Close()
}

// stations are those that the pages show.
func (s *soak) stations() []message.Station {
	var list web.StationList
	r, err := client().Get(s.house.pages() + "api/stations")
	if err != nil {
		s.Error(err)
		return nil
	}
	defer r.Body.Close()
	if err := json.NewDecoder(r.Body).Decode(&list); err != nil {
		s.Error(err)
	}
	return list.Stations
}

// takeAway takes the folder of sessions away now and then, and puts it back: a disk that was unplugged. What is written
// to open files goes on; nothing can be made.
func (s *soak) takeAway(ctx context.Context, random *rand.Rand) {
	folder := filepath.Join(s.house.data(), "sessions")
	for s.pausing(ctx, random) {
		for !s.disk.TryLock() { // to wait in Lock would keep back whoever is to read next
			if !wait(ctx, s.tempo/20) {
				return
			}
		}
		err := os.Rename(folder, folder+" away")
		if err == nil {
			err = os.WriteFile(folder, nil, 0o600)
			wait(ctx, s.tempo)
			err = errors.Join(err, os.Remove(folder), os.Rename(folder+" away", folder))
		}
		if err != nil {
			s.Error(err)
		}
		s.counts.took()
		s.disk.Unlock()
	}
}

// reload has the configuration read again, one time right, the next time wrong.
func (s *soak) reload(ctx context.Context, random *rand.Rand) {
	for s.pausing(ctx, random) {
		text, right := s.configuration(pick(random, []string{"info", "warn", "debug"})), random.IntN(2) == 0
		if !right {
			text += pick(random, []string{"max-rate = 'fast'\n", "[", "no-such-key = 1\n", "max-stations = -1\n"})
		}
		if took := s.house.reload(s.T, text); took != right {
			s.Errorf("a configuration was taken: %v; it was right: %v:\n%s", took, right, text)
		}
		s.counts.read()
	}
}
