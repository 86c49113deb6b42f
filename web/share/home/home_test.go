package home

import (
	"encoding/json"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach/playback"
	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
	"halfturn/web/share/outbox"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

var noon = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)

// types lists the records of a batch: their first letters, and of each the bytes.
func types(b *link.Live) string {
	var s strings.Builder
	if b == nil {
		return ""
	}
	for _, r := range b.Records {
		text := string(r.Bytes)
		if r.Type == link.RecordOpening {
			text = "opening"
		}
		fmt.Fprintf(&s, "%c:%s ", "?ohcde"[r.Type], text)
	}
	return strings.TrimSpace(s.String())
}

// begun is a lane on which a session is flown.
func begun(open bool) *lane {
	l := &lane{open: open}
	l.begin(&practice.Beginning{
		Station: "seat",
		Opening: playback.Opening{Session: "s"},
		Head:    []practice.Datagram{{Bytes: []byte("head")}},
	})
	return l
}

// sent is a datagram with its comments.
func sent(b []byte, comments ...string) *practice.Datagram {
	return &practice.Datagram{Bytes: b, Received: noon, Comments: comments}
}

// TestLane: what is flown waits in its order; without a link nothing waits; and whoever connects later gets the
// opening, the head of the stream and all commands before what is new.
func TestLane(t *testing.T) {
	l := begun(true)
	l.datagram(sent([]byte("1"), "c1"))
	l.datagram(sent([]byte("2")))
	if got, want := types(l.take()), "o:opening h:head c:c1 d:1 d:2"; got != want {
		t.Errorf("%q; must be %q", got, want)
	}
	if l.take() != nil || l.size != 0 {
		t.Errorf("%d bytes are left", l.size)
	}
	l.connect(false)
	l.datagram(sent([]byte("3"), "c2"))
	if l.take() != nil {
		t.Error("something waits without a link")
	}
	l.connect(true)
	l.datagram(sent([]byte("4")))
	l.end()
	if got, want := types(l.take()), "o:opening h:head c:c1 c:c2 d:4 e:s"; got != want {
		t.Errorf("%q; must be %q", got, want)
	}
	l.connect(true)
	if l.take() != nil {
		t.Error("a session that is over is shown")
	}
}

// TestLaneBounded: however much comes, no more than the limit waits; what is left out is counted, and what follows can
// be understood without it.
func TestLaneBounded(t *testing.T) {
	l := begun(true)
	b := make([]byte, 10_000)
	for n := range 1000 {
		l.datagram(sent(b, fmt.Sprint("c", n)))
		if l.size > mostWaiting+mostHistory*64 || len(l.history) > mostHistory {
			t.Fatalf("%d bytes wait, and %d commands", l.size, len(l.history))
		}
	}
	got := types(l.take())
	if !strings.HasPrefix(got, "o:opening h:head c:c") || l.dropped == 0 {
		t.Errorf("%d are left out, and then comes %.80q", l.dropped, got)
	}
	for l.take() != nil {
	}
	if l.size != 0 {
		t.Errorf("%d bytes are left", l.size)
	}
}

// TestBatch: a batch is no longer than the limit, unless it is one record.
func TestBatch(t *testing.T) {
	l := begun(true)
	for range 100 {
		l.datagram(sent(make([]byte, 5000)))
	}
	l.datagram(sent(make([]byte, link.MostLive+1)))
	n := 0
	for b := l.take(); b != nil; b = l.take() {
		size := 0
		for i := range b.Records {
			size += b.Records[i].Size()
		}
		if size > link.MostLive && len(b.Records) > 1 {
			t.Errorf("%d records are %d bytes", len(b.Records), size)
		}
		n += len(b.Records)
	}
	if n != 103 {
		t.Errorf("%d records; must be 103", n)
	}
}

// TestShared: one station is shared, the first that flies or the one that is named, and none while it is private.
func TestShared(t *testing.T) {
	at, err := url.Parse("https://desk.example")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		named   string
		private bool
		shared  string // sessions
	}{
		{"", false, "a1 a2"},
		{"B", false, "b1"},
		{"C", false, ""},
		{"", true, ""},
	} {
		data := t.TempDir()
		s, err := New(Options{URL: at, Data: data, Station: c.named, Log: zerolog.Nop()}, noon)
		if err != nil {
			t.Fatal(err)
		}
		begin := func(station, session string) {
			s.Begin(practice.Beginning{
				Station: station,
				Opening: playback.Opening{Session: session, Private: c.private},
			})
		}
		begin("A", "a1")
		begin("B", "b1")
		s.End("a1")
		begin("A", "a2")
		s.save()
		text, err := os.ReadFile(filepath.Join(data, outbox.File))
		var list struct{ Sessions []string }
		if err := errors.Join(err, json.Unmarshal(text, &list)); err != nil {
			t.Fatal(err)
		}
		if got := strings.Join(list.Sessions, " "); got != c.shared {
			t.Errorf("named %q, private %v: shared are %q; must be %q", c.named, c.private, got, c.shared)
		}
		if (s.Shared("B") != nil) != (c.named == "B") {
			t.Errorf("named %q, private %v: of B is shown %+v", c.named, c.private, s.Shared("B"))
		}
	}
}
