package school_test

import (
	"bytes"
	"crypto/sha1"
	"encoding/base64"
	"fmt"
	"io"
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

// answers answers with a page.
func answers(status int, page string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		w.WriteHeader(status)
		_, _ = io.WriteString(w, page) // to one that may have left
	}
}

// sendsText answers a link with a message of text.
func sendsText(text string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		u := websocket.Upgrader{}
		conn, err := u.Upgrade(w, r, nil)
		if err != nil {
			return
		}
		defer conn.Close()
		if _, _, err := conn.ReadMessage(); err != nil {
			return
		}
		if conn.WriteMessage(websocket.TextMessage, []byte(text)) == nil {
			_, _, _ = conn.ReadMessage() // until it ends
		}
	}
}

// hijacks answers with bytes and closes the connection. %s in them stands for the key that RFC 6455, 4.2.2 asks for.
func hijacks(text string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		conn, _, err := http.NewResponseController(w).Hijack()
		if err != nil {
			return
		}
		defer conn.Close()
		sum := sha1.Sum([]byte(r.Header.Get("Sec-WebSocket-Key") + "258EAFA5-E914-47DA-95CA-C5AB0DC85B11"))
		accept := base64.StdEncoding.EncodeToString(sum[:])
		_, _ = io.WriteString(conn, strings.ReplaceAll(text, "%s", accept)) // to one that may have left
		if text != "" {
			_, _ = conn.Read(make([]byte, 4096)) // the hello: a pipe has no room for it
		}
		if strings.HasSuffix(text, "\xff") {
			_, _ = io.Copy(io.Discard, conn) // until the home has had enough
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

// TestNeverWelcomed: a school that takes links and never welcomes is tried about every half minute, the 15 s that an
// attempt lasts and as long a pause, and told of once.
func TestNeverWelcomed(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		doors, log := &pipes{}, &journal{}
		tries := 0
		server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			tries++
			<-time.After(100 * time.Millisecond) // of the way there
			sends()(w, r)
		})}
		listener := doors.listen()
		var wait sync.WaitGroup
		wait.Go(func() { _ = server.Serve(listener) }) // ends with Close
		h := newHouseLogging(t, t.TempDir(), "key-of-ada", doors, none, zerolog.New(log))
		<-time.After(time.Hour)
		h.close(t)
		doors.set(true)
		if err := server.Close(); err != nil {
			t.Error(err)
		}
		wait.Wait()
		if tries < 90 || tries > 150 {
			t.Errorf("it is tried %d times in an hour", tries)
		}
		if n := strings.Count(log.String(), "there is no link to the school"); n != 1 {
			t.Errorf("it is said %d times", n)
		}
	})
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
		"a page": {answers(http.StatusOK, "<!doctype html><title>Welcome</title>"),
			"http://127.0.0.1 answers 200, as no Halfturn does; check share.url", false},
		"a redirect": {http.RedirectHandler("https://elsewhere.example/", http.StatusFound).ServeHTTP,
			"http://127.0.0.1 sends its visitors to another address; set share.url to that of the school", false},
		"text": {sendsText(`{"hello":"there"}`),
			"http://127.0.0.1 sends text; must be binary messages; check share.url, and that both run", false},
		"a huge message": {sends(make([]byte, link.MostBytes+1)),
			fmt.Sprintf("http://127.0.0.1 sends a message of more than %d bytes; check", link.MostBytes), false},
		"garbage behind the handshake": {hijacks("HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\n" +
			"Connection: Upgrade\r\nSec-WebSocket-Accept: %s\r\n\r\n" + strings.Repeat("\xff", 100)),
			"http://127.0.0.1 sends what is no message of a link; check share.url, and what stands between", false},
		"garbage": {hijacks("220 mail.example ready\r\n"),
			"http://127.0.0.1 answers with what is no HTTP; check share.url", false},
		"the end at once": {hijacks(""),
			"the way to http://127.0.0.1 is closed before it answers; check share.url and the network", false},
		"the end after the handshake": {hijacks("HTTP/1.1 101 Switching Protocols\r\nUpgrade: websocket\r\n" +
			"Connection: Upgrade\r\nSec-WebSocket-Accept: %s\r\n\r\n"),
			"http://127.0.0.1 closed the link, or the network did; check the network, and that the school runs", false},
		"never a welcome": {sends(),
			"http://127.0.0.1 was silent for 15s; check the network, and that the school runs", false},
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
			h := newHouseLogging(t, t.TempDir(), "key-of-ada", doors, none, zerolog.New(log).Level(zerolog.InfoLevel))
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
			for _, foreign := range []string{"websocket:", "EOF", "malformed", "i/o", "Welcome", "elsewhere"} {
				if strings.Contains(log.String(), foreign) {
					t.Errorf("%s: the log has words of others (%q):\n%s", what, foreign, log.String())
				}
			}
			if c.slow && tries > 2 || !c.slow && (tries < 3 || tries > 60) {
				t.Errorf("%s: it is tried %d times", what, tries)
			}
		})
	}
}
