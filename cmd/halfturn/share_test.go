package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/gorilla/websocket"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/message"
)

var cut = flag.Duration("cut", time.Second, "how long TestShared cuts the link, twice")

// flightTakes is how long the flight of the test takes at pace 1.
const flightTakes = 85 * time.Second

// A line is a connection to a server that can be cut: it passes on what comes to its address.
type line struct {
	net.Listener
	to   string
	wait sync.WaitGroup

	mu    sync.Mutex
	isCut bool
	open  []net.Conn
}

// newLine opens a line to a server, which ends with the test.
func newLine(t *testing.T, to string) *line {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	p := &line{Listener: l, to: to}
	p.wait.Go(p.accept)
	t.Cleanup(func() {
		_ = p.Close() // ends accept
		p.set(true)
		p.wait.Wait()
	})
	return p
}

func (l *line) accept() {
	for {
		here, err := l.Accept()
		if err != nil {
			return
		}
		there, err := net.Dial("tcp", l.to)
		if err != nil || !l.add(here, there) {
			_ = here.Close() // the line is cut
			continue
		}
		for from, to := range map[net.Conn]net.Conn{here: there, there: here} {
			l.wait.Go(func() {
				_, _ = io.Copy(to, from) // until the line is cut
				_ = to.Close()
				_ = from.Close()
			})
		}
	}
}

// add notes a connection; false while the line is cut.
func (l *line) add(ends ...net.Conn) bool {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.isCut {
		for _, c := range ends {
			_ = c.Close() // as all others
		}
		return false
	}
	l.open = append(l.open, ends...)
	return true
}

// set cuts the line, or mends it.
func (l *line) set(isCut bool) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.isCut = isCut; isCut {
		for _, c := range l.open {
			_ = c.Close() // whoever uses it sees that
		}
		l.open = nil
	}
}

// station is what a server shows of a station; nil when it is not there.
func (p *process) station(t *testing.T, name string) *message.Station {
	t.Helper()
	var list struct{ Stations []message.Station }
	answer, err := http.Get(p.pages + "api/stations")
	if err == nil {
		err = errors.Join(json.NewDecoder(answer.Body).Decode(&list), answer.Body.Close())
	}
	if err != nil {
		t.Fatal(err)
	}
	for i := range list.Stations {
		if list.Stations[i].Name == name {
			return &list.Stations[i]
		}
	}
	return nil
}

// shows waits until the live socket of a server tells of some words.
func (p *process) shows(t *testing.T, words string) {
	t.Helper()
	live := "ws" + strings.TrimPrefix(p.pages, "http") + "live"
	if p.station(t, seat) != nil {
		live += "?station=" + url.QueryEscape(seat)
	}
	conn, _, err := websocket.DefaultDialer.DialContext(t.Context(), live, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	if err := conn.SetReadDeadline(time.Now().Add(cmdtest.Patience)); err != nil {
		t.Fatal(err)
	}
	for {
		_, text, err := conn.ReadMessage()
		if err != nil {
			t.Fatalf("nothing tells of %q: %v", words, err)
		}
		if bytes.Contains(text, []byte(words)) {
			return
		}
	}
}

// ask asks for a command at a station, and returns the status and the answer.
func (p *process) ask(t *testing.T, station, command, body string) (status int, said string) {
	t.Helper()
	answer, err := http.Post(p.pages+"api/stations/"+url.PathEscape(station)+"/"+command, "application/json",
		strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(text)
}

// uncompressed leaves recordings as they are written, so that their bytes can be compared.
func uncompressed(c *exec.Cmd) { c.Env = append(c.Env, "HALFTURN_RECORDING_COMPRESS=false") }

// recordingsIn reads the recordings in a data directory, by session and file.
func recordingsIn(t *testing.T, data string) map[string][]byte {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(data, "sessions", "*", "stream-*"))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][]byte{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Join(filepath.Base(filepath.Dir(name)), filepath.Base(name))] = text
	}
	return all
}

// regraded grades a session again, and returns the legs as JSON.
func regraded(t *testing.T, data, session string) any {
	t.Helper()
	status, out, said := call(t, nil, "sessions", "regrade", session, "--data", data, "--format", "json")
	var r struct {
		Differences []any
		Report      struct {
			Files []struct {
				Stations []struct{ Series any }
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &r); err != nil || status != 0 || len(r.Report.Files) != 1 {
		t.Fatalf("%d, %v\n%s%s", status, err, out, said)
	}
	if len(r.Differences) > 0 {
		t.Errorf("graded again it differs: %v", r.Differences)
	}
	return r.Report.Files[0].Stations[0].Series
}

// seat is what the school calls the station at home.
const seat = "Ada's seat"

// TestShared plays a lesson with two programs: one student flies at home, whose station is shared with the school, and
// another one in the school. The link is cut twice in the middle. The instructor, at the school, names the student,
// says something, marks a moment and ends the session; all of it is done at home. Then the school has the recording to
// the byte, grades it as it is graded at home, and both grade it alike again.
func TestShared(t *testing.T) {
	t.Parallel()
	at, there := t.TempDir(), t.TempDir()
	key := filepath.Join(at, "seat.key")
	if status, _, said := call(t, nil, "stations", "add", seat, "--key-file", key, "--data", there); status != 0 {
		t.Fatal(said)
	}
	school := beginServer(t, uncompressed, there)
	link := newLine(t, strings.TrimSuffix(strings.TrimPrefix(school.pages, "http://"), "/"))
	home := beginServer(t, uncompressed, at, "--share", "http://"+link.Addr().String(), "--station-key", key)
	school.says(t, "the station at home is here")
	pace := fmt.Sprint(min(8, flightTakes.Seconds()/(4*cut.Seconds()+8)))
	ada := begin(t, nil, "fly", "--to", home.udp.String(), "--maneuver", "wing-over", "--pace", pace)
	bo := begin(t, nil, "fly", "--to", school.udp.String(), "--maneuver", "steep-turn", "--pace", pace)
	flies := func(link bool) func() bool {
		return func() bool {
			s := school.station(t, seat)
			return s != nil && s.Share.Up == link && (!link || s.Link == "live")
		}
	}
	said := func() string { return home.words() + "\n" + school.words() }
	cmdtest.Until(t, flies(true), said)
	for range 2 {
		link.set(true)
		cmdtest.Until(t, flies(false), said)
		<-time.After(*cut)
		if status, words := school.ask(t, seat, "again", "{}"); status != http.StatusUnprocessableEntity ||
			!strings.Contains(words, "share.no-link") {
			t.Errorf("without a link a command is answered %d %s", status, words)
		}
		link.set(false)
		cmdtest.Until(t, flies(true), said)
	}
	for _, c := range [][2]string{
		{"student", `{"student": "Ada Example"}`},
		{"say", `{"say": "Eyes outside"}`},
		{"mark", `{"mark": "Late with the foot"}`},
	} {
		if status, words := school.ask(t, seat, c[0], c[1]); status != http.StatusOK {
			t.Errorf("%s: %d %s", c[0], status, words)
		}
	}
	for _, p := range []*process{home, school} {
		p.shows(t, "Eyes outside")
	}
	status, words := school.ask(t, seat, "prompts", `{"prompts": "loud"}`)
	if status != http.StatusUnprocessableEntity || !strings.Contains(words, "must be card") {
		t.Errorf("what the home refuses is answered %d %s", status, words)
	}
	for _, p := range []*process{ada, bo} {
		if p.endsWithin(t, 2*flightTakes+4**cut) != 0 {
			t.Errorf("it says %s", p.words())
		}
	}
	if status, words := school.ask(t, seat, "end", "{}"); status != http.StatusOK {
		t.Errorf("%d %s", status, words)
	}
	school.says(t, `"message":"the session is complete"`)
	home.stop(t)
	school.stop(t)
	compareRecordings(t, at, there)
}

// compareRecordings holds the one session at home to that at the school, which has another one.
func compareRecordings(t *testing.T, at, there string) {
	t.Helper()
	own, all := recordingsIn(t, at), recordingsIn(t, there)
	if len(own) == 0 || len(all) <= len(own) {
		t.Fatalf("%d files at home, %d at the school", len(own), len(all))
	}
	session := ""
	for name, text := range own {
		session = filepath.Dir(name)
		if !bytes.Equal(text, all[name]) {
			t.Errorf("%s has %d bytes at home and %d at the school, and differs", name, len(text), len(all[name]))
		}
		for _, command := range []string{
			`"student":"Ada Example"`, `"say":"Eyes outside"`, `"mark":"Late with the foot"`,
		} {
			if !bytes.Contains(text, []byte(command)) {
				t.Errorf("%s does not hold the command %s of the instructor", name, command)
			}
		}
	}
	if d := cmp.Diff(regraded(t, at, session), regraded(t, there, session)); d != "" {
		t.Errorf("graded again (-home +school):\n%s", d)
	}
	_, row, _ := call(t, nil, "sessions", "show", session, "--data", there)
	for _, words := range []string{seat, "Ada Example", "Late with the foot"} {
		if !strings.Contains(row, words) {
			t.Errorf("the school's logbook does not say %q:\n%s", words, row)
		}
	}
}
