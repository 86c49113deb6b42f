package school_test

import (
	"bytes"
	"net/http"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gorilla/websocket"
	"github.com/rs/zerolog"

	"halfturn/stream/phrase"
	"halfturn/web/guard"
	"halfturn/web/share/link"
)

// A journal is what is logged.
type journal struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (j *journal) Write(b []byte) (int, error) {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.Write(b)
}

func (j *journal) String() string {
	j.mu.Lock()
	defer j.mu.Unlock()
	return j.text.String()
}

// sends answers a link with messages, and waits for its end.
func sends(messages ...[]byte) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		u := websocket.Upgrader{}
		conn, err := u.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer conn.Close()
		if _, _, err := conn.ReadMessage(); err != nil { // the hello: a pipe has no room for two that write
			return
		}
		for _, b := range messages {
			if conn.WriteMessage(websocket.BinaryMessage, b) != nil {
				return
			}
		}
		for {
			if _, _, err := conn.ReadMessage(); err != nil {
				return
			}
		}
	}
}

func encoded(t *testing.T, m link.Message) []byte {
	t.Helper()
	b, err := link.Encode(m)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// TestSchoolOfNonsense: whatever a school answers, the flight at home is coached and recorded; the reason is logged
// once, without the key; and it is tried again, seldom where that is useless.
func TestSchoolOfNonsense(t *testing.T) {
	welcome := encoded(t, &link.Welcome{Version: link.Version, Station: "x"})
	flood := [][]byte{welcome}
	for range 100 {
		flood = append(flood, encoded(t, &link.Command{ID: "c", Command: []byte(`{"again":{}}`)}))
	}
	for what, c := range map[string]struct {
		school http.HandlerFunc
		says   string
		slow   bool
	}{
		"another program": {http.NotFound, "as no Halfturn does", false},
		"it fails": {func(w http.ResponseWriter, _ *http.Request) {
			w.WriteHeader(http.StatusInternalServerError)
		}, "answers 500", false},
		"a wrong key": {func(w http.ResponseWriter, _ *http.Request) {
			guard.WriteProblem(w, &guard.Problem{Status: http.StatusForbidden, Phrase: phrase.ShareKeyRefused.Of()})
		}, "is not known here", true},
		"an endless answer": {func(w http.ResponseWriter, _ *http.Request) {
			for w != nil {
				if _, err := w.Write(make([]byte, 4096)); err != nil {
					return
				}
			}
		}, "as no Halfturn does", false},
		"never a welcome":   {sends(), "timeout", false},
		"no message":        {sends([]byte("\xffhello")), "of kind 255", false},
		"no welcome":        {sends(encoded(t, &link.Have{})), "must be a welcome", false},
		"a goodbye":         {sends(encoded(t, &link.Bye{Why: phrase.Stopping.Of()})), "is stopping", false},
		"a message of ours": {sends(welcome, encoded(t, &link.Hello{})), "is for schools", false},
		"too many":          {sends(flood...), "faster than they can be done", false},
		"of no session": {sends(welcome, encoded(t, &link.Have{Session: "none", Known: true, Part: 1 << 30, Size: -5}),
			encoded(t, &link.Result{ID: "c"})), "is for schools", false},
	} {
		synctest.Test(t, func(t *testing.T) {
			doors, log := &pipes{}, &journal{}
			tries := 0
			server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				tries++
				c.school(w, r)
			})}
			listener := doors.listen()
			var wait sync.WaitGroup
			wait.Go(func() { _ = server.Serve(listener) }) // ends with Close
			h := newHouseLogging(t, t.TempDir(), "key-of-ada", doors, none, zerolog.New(log))
			f := h.fly(t, 1)
			f.goOn(10 * time.Second)
			<-time.After(2 * time.Minute)
			f.handler.End()
			session := h.only(t)
			h.close(t)
			doors.set(true)
			if err := server.Close(); err != nil {
				t.Error(err)
			}
			wait.Wait()
			if n := len(h.files(t, session)); n == 0 {
				t.Errorf("%s: nothing is recorded", what)
			}
			if said := log.String(); strings.Count(said, c.says) != 1 || strings.Contains(said, "key-of-ada") {
				t.Errorf("%s: the log must say once %q, and not the key:\n%s", what, c.says, said)
			}
			if c.slow && tries > 2 || !c.slow && (tries < 3 || tries > 60) {
				t.Errorf("%s: it is tried %d times", what, tries)
			}
		})
	}
}
