package school_test

import (
	"encoding/json"
	"io"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/coach/command"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/phrase"
	"halfturn/web/share/link"
	"halfturn/web/share/school"
)

// knock opens a link with a header; the answer is that of a school that refuses.
func (p *pipes) knock(t *testing.T, header http.Header) (*websocket.Conn, *http.Response) {
	t.Helper()
	d := websocket.Dialer{NetDialContext: p.dial, HandshakeTimeout: 5 * time.Second}
	conn, answer, err := d.DialContext(t.Context(), "ws://127.0.0.1/api/link", header)
	if err != nil && answer == nil {
		t.Fatal(err)
	}
	return conn, answer
}

// bearer is the header with a key.
func bearer(key string) http.Header { return http.Header{"Authorization": {"Bearer " + key}} }

// A talker is the other end of a link, in the place of a home.
type talker struct {
	t    *testing.T
	conn *websocket.Conn
}

// talk opens a link with a key, and is welcome.
func (b *building) talk(t *testing.T, key string) *talker {
	t.Helper()
	conn, answer := b.doors.knock(t, bearer(key))
	if conn == nil {
		t.Fatalf("refused with %d", answer.StatusCode)
	}
	k := &talker{t, conn}
	k.say(&link.Hello{Version: link.Version})
	if _, ok := k.hear().(*link.Welcome); !ok {
		t.Fatal("no welcome")
	}
	return k
}

func (k *talker) say(m link.Message) {
	k.t.Helper()
	b, err := link.Encode(m)
	if err != nil {
		k.t.Fatal(err)
	}
	k.raw(websocket.BinaryMessage, b)
}

func (k *talker) raw(kind int, b []byte) {
	k.t.Helper()
	if err := k.conn.WriteMessage(kind, b); err != nil {
		k.t.Error(err)
	}
}

// hear returns the next message but for those about viewers; nil when the link has ended.
func (k *talker) hear() link.Message {
	k.t.Helper()
	for {
		_, b, err := k.conn.ReadMessage()
		if err != nil {
			return nil
		}
		m, err := link.Decode(b)
		if err != nil {
			k.t.Fatal(err)
		}
		if _, ok := m.(*link.Watching); !ok {
			return m
		}
	}
}

// entry is what a home says of a session.
func entry(t *testing.T) json.RawMessage {
	t.Helper()
	text, err := json.Marshal(logbook.Entry{Began: time.Now()})
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// TestDoor: who brings no key, a wrong one, or a page, is refused with the right status and in words; the key is in
// none of them.
func TestDoor(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		page := bearer("key-of-ada")
		page.Set("Origin", "http://127.0.0.1")
		for _, c := range []struct {
			what   string
			header http.Header
			status int
			code   string
		}{
			{"without a key", nil, http.StatusUnauthorized, "share.key-missing"},
			{"another scheme", http.Header{"Authorization": {"Basic a2V5"}}, http.StatusUnauthorized,
				"share.key-missing"},
			{"an empty key", bearer(" "), http.StatusUnauthorized, "share.key-missing"},
			{"a wrong key", bearer("key-of-eve"), http.StatusForbidden, "share.key-refused"},
			{"a long key", bearer(strings.Repeat("k", 5000)), http.StatusForbidden, "share.key-refused"},
			{"a page", page, http.StatusForbidden, "server.foreign-page"},
		} {
			conn, answer := b.doors.knock(t, c.header)
			if conn != nil {
				t.Fatalf("%s: it is let in", c.what)
			}
			text, err := io.ReadAll(answer.Body)
			var body struct{ Error, Code string }
			wrong := err != nil || json.Unmarshal(text, &body) != nil
			if wrong || answer.StatusCode != c.status || body.Code != c.code {
				t.Errorf("%s: %d %s, %v; must be %d %s", c.what, answer.StatusCode, text, err, c.status, c.code)
			}
			if strings.Contains(string(text), "eve") {
				t.Errorf("%s: the answer holds the key: %s", c.what, text)
			}
			answer.Body.Close()
		}
		b.close(t)
	})
}

// TestNonsense: a home that sends what no home sends is told so and loses its link; others keep theirs.
func TestNonsense(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		other := b.talk(t, "key-of-bo")
		begin := &link.Begin{Session: "s", Entry: entry(t)}
		for what, c := range map[string]struct {
			says string
			say  func(k *talker)
		}{
			"text":       {"must be binary", func(k *talker) { k.raw(websocket.TextMessage, []byte("{}")) }},
			"nothing":    {"is empty", func(k *talker) { k.raw(websocket.BinaryMessage, nil) }},
			"unknown":    {"kind 200", func(k *talker) { k.raw(websocket.BinaryMessage, []byte{200}) }},
			"of schools": {"is for homes", func(k *talker) { k.say(&link.Welcome{}) }},
			"a second":   {"is for homes", func(k *talker) { k.say(&link.Hello{Version: link.Version}) }},
			"no record": {"of type 77", func(k *talker) {
				k.raw(websocket.BinaryMessage, []byte("\x04\x4d00000000\x00"))
			}},
			"no entry": {"the entry of a session", func(k *talker) {
				k.say(&link.Begin{Session: "t", Entry: json.RawMessage("[]")})
			}},
			"a long piece": {"the piece is", func(k *talker) {
				k.raw(websocket.BinaryMessage, append([]byte("\x07\x01s\x01\x00"), make([]byte, link.MostPiece+1)...))
			}},
			"beyond the longest": {"GB", func(k *talker) {
				k.say(begin)
				k.say(&link.Piece{Session: "s", Part: 1, Offset: 9 << 30, Bytes: []byte("x")})
			}},
		} {
			k := b.talk(t, "key-of-ada")
			c.say(k)
			var bye *link.Bye
			for m := k.hear(); m != nil; m = k.hear() {
				if said, ok := m.(*link.Bye); ok {
					bye = said
				}
			}
			if bye == nil || !strings.Contains(bye.Why.String(), c.says) || !bye.Slow {
				t.Errorf("%s: the home is told %+v; must say %q", what, bye, c.says)
			}
			k.conn.Close()
		}
		other.say(&link.Offer{Session: "none"})
		if h, ok := other.hear().(*link.Have); !ok || h.Known {
			t.Error("the other home has lost its link")
		}
		other.conn.Close()
		b.close(t)
	})
}

// TestOtherVersion: a home of another version is told which it must be.
func TestOtherVersion(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		for what, first := range map[string]link.Message{
			"version 9; must be 1":        &link.Hello{Version: 9},
			"the first message is of kin": &link.Offer{Session: "s"},
		} {
			conn, _ := b.doors.knock(t, bearer("key-of-ada"))
			k := &talker{t, conn}
			k.say(first)
			if bye, ok := k.hear().(*link.Bye); !ok || !strings.Contains(bye.Why.String(), what) {
				t.Errorf("%+v: %+v", first, bye)
			}
			conn.Close()
		}
		b.close(t)
	})
}

// TestForeign: no name leads out of the data directory, and no home reaches the session of another, or one that was
// flown at the school.
func TestForeign(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		ada, bo := b.talk(t, "key-of-ada"), b.talk(t, "key-of-bo")
		for _, name := range []string{"", "..", "../../x", "a/b", `a\b`, strings.Repeat("a", 201)} {
			bo.say(&link.Offer{Session: name})
			if h, ok := bo.hear().(*link.Have); !ok || h.Known {
				t.Errorf("%q is known", name)
			}
		}
		ada.say(&link.Begin{Session: "s", Entry: entry(t)})
		if h, ok := ada.hear().(*link.Have); !ok || !h.Known {
			t.Fatal("the session is not begun")
		}
		ada.say(&link.Piece{Session: "s", Part: 1, Bytes: []byte("of ada")})
		if h, ok := ada.hear().(*link.Have); !ok || h.Size != 6 {
			t.Fatalf("there is %+v", h)
		}
		bo.say(&link.Offer{Session: "s"})
		if h, ok := bo.hear().(*link.Have); !ok || h.Known || h.Size > 0 {
			t.Errorf("the session of another is known: %+v", h)
		}
		bo.say(&link.Begin{Session: "s", Entry: entry(t)})
		if h, ok := bo.hear().(*link.Have); !ok || !h.Known || h.Size > 0 {
			t.Errorf("it is begun as %+v", h)
		}
		bo.say(&link.Piece{Session: "s", Part: 1, Bytes: []byte("of bo")})
		bo.hear()
		const file = "stream-0001.pcapng"
		if a, o := b.files(t, "s")[file], b.files(t, "s_2")[file]; a != "of ada" || o != "of bo" {
			t.Errorf("there are %q and %q", a, o)
		}
		ada.conn.Close()
		bo.conn.Close()
		b.close(t)
	})
}

// TestPieces: a piece that comes twice, too early, or overlaps what is there leaves each byte written once.
func TestPieces(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		k := b.talk(t, "key-of-ada")
		k.say(&link.Begin{Session: "s", Entry: entry(t)})
		k.hear()
		for _, c := range []struct {
			offset int64
			bytes  string
			size   int64 // that the school has then
			rewind bool
		}{
			{0, "abc", 3, false},
			{0, "abc", 3, false}, // again
			{1, "bcde", 5, false},
			{7, "hij", 5, true},
			{5, "fg", 7, false},
			{2, "XX", 7, false}, // what is there stays
		} {
			k.say(&link.Piece{Session: "s", Part: 1, Offset: c.offset, Bytes: []byte(c.bytes)})
			if h, ok := k.hear().(*link.Have); !ok || h.Size != c.size || h.Rewind != c.rewind || h.Part != 1 {
				t.Errorf("after %q at %d: %+v", c.bytes, c.offset, h)
			}
		}
		k.say(&link.Whole{Session: "s", Part: 1, Size: 7, SHA256: "00"})
		if h, ok := k.hear().(*link.Have); !ok || h.Size != 0 || !h.Rewind {
			t.Errorf("a wrong hash: %+v", h)
		}
		if f := b.files(t, "s"); f["stream-0001.pcapng"] != "" {
			t.Errorf("what differs stays: %q", f)
		}
		k.conn.Close()
		b.close(t)
	})
}

// TestKeyTwice: the newer link of a key replaces the older one, which is told.
func TestKeyTwice(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		old := b.talk(t, "key-of-ada")
		told := make(chan link.Message, 1)
		go func() { told <- old.hear() }()
		newer := b.talk(t, "key-of-ada")
		if bye, ok := (<-told).(*link.Bye); !ok || bye.Why.Code() != phrase.ShareKeyElsewhere.Of().Code() || !bye.Slow {
			t.Errorf("the older one is told %+v", bye)
		}
		newer.say(&link.Offer{Session: "none"})
		if _, ok := newer.hear().(*link.Have); !ok {
			t.Error("the newer one has no link")
		}
		old.conn.Close()
		newer.conn.Close()
		b.close(t)
	})
}

// TestNeverReads: a home that never reads loses its link, and holds up nobody.
func TestNeverReads(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		deaf, other := b.talk(t, "key-of-ada"), b.talk(t, "key-of-bo")
		desk := school.Desk{Desk: b.desk, Server: b.server}
		c := command.New("c", time.Now(), "Ada's seat", who.Owner(), command.Again{})
		began := time.Now()
		if err := desk.Do(t.Context(), c); phrase.OfError(err).Code() != phrase.StationMute.Of().Code() {
			t.Errorf("a command is answered: %v", err)
		}
		if took := time.Since(began); took > 10*time.Second {
			t.Errorf("whoever asks waits for %v", took)
		}
		other.say(&link.Offer{Session: "none"})
		if _, ok := other.hear().(*link.Have); !ok {
			t.Error("the other home has lost its link")
		}
		<-time.After(time.Minute)
		synctest.Wait()
		if err := desk.Do(t.Context(), c); phrase.OfError(err).Code() != phrase.ShareNoLink.Of().Code() {
			t.Errorf("after a minute: %v", err)
		}
		deaf.conn.Close()
		other.conn.Close()
		b.close(t)
	})
}

// TestClock: times are those of the home, however wrong its clock is; by how much is shown.
func TestClock(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		b := newBuilding(t, t.TempDir(), keys, &pipes{})
		h := newHouse(t, t.TempDir(), "key-of-ada", b.doors, none)
		f := h.fly(t, 1)
		f.ahead = -5 * time.Hour
		f.goOn(5 * time.Second)
		s := b.info("Ada's seat")
		if s == nil || s.Link != "live" {
			t.Fatalf("the school shows %+v", s)
		}
		f.handler.End()
		h.close(t)
		k := b.talk(t, "key-of-ada")
		k.say(&link.State{At: time.Now().Add(-3 * time.Hour)})
		<-time.After(time.Second)
		synctest.Wait()
		if s = b.info("Ada's seat"); s == nil || s.Share == nil || s.Share.Clock != 3*3600 {
			t.Errorf("the clock is shown as %+v", s)
		}
		k.conn.Close()
		b.close(t)
	})
}
