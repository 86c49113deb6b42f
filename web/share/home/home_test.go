package home

import (
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach/archive/folder"
	"halfturn/coach/playback"
	"halfturn/stream/record"
	"halfturn/web/share/link"
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
	l.begin("seat", playback.Opening{Session: "s"}, [][]byte{[]byte("head")})
	return l
}

// TestLane: what is flown waits in its order; without a link nothing waits; and whoever connects later gets the
// opening, the head of the stream and all commands before what is new.
func TestLane(t *testing.T) {
	l := begun(true)
	l.datagram([]byte("1"), noon, []string{"c1"})
	l.datagram([]byte("2"), noon, nil)
	if got, want := types(l.take()), "o:opening h:head c:c1 d:1 d:2"; got != want {
		t.Errorf("%q; must be %q", got, want)
	}
	if l.take() != nil || l.size != 0 {
		t.Errorf("%d bytes are left", l.size)
	}
	l.connect(false)
	l.datagram([]byte("3"), noon, []string{"c2"})
	if l.take() != nil {
		t.Error("something waits without a link")
	}
	l.connect(true)
	l.datagram([]byte("4"), noon, nil)
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
		l.datagram(b, noon, []string{fmt.Sprint("c", n)})
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
		l.datagram(make([]byte, 5000), noon, nil)
	}
	l.datagram(make([]byte, link.MostLive+1), noon, nil)
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

// folderOf makes the folder of a session with files of these sizes.
func folderOf(t *testing.T, data, id string, sizes ...int) string {
	t.Helper()
	dir := filepath.Join(folder.Sessions(data), id)
	if err := os.MkdirAll(dir, 0o750); err != nil {
		t.Fatal(err)
	}
	notes := fmt.Sprintf(
		`{"version":2,"id":%q,"key":"k","station":"seat","began":%q,"ended":%q,"cards":[],"regrades":[]}`, id,
		noon.Format(time.RFC3339), noon.Add(time.Hour).Format(time.RFC3339))
	if err := os.WriteFile(filepath.Join(dir, folder.NotesFile), []byte(notes), 0o600); err != nil {
		t.Fatal(err)
	}
	for i, n := range sizes {
		name := filepath.Join(dir, record.PartName(i+1))
		if err := os.WriteFile(name, []byte(strings.Repeat(fmt.Sprint(i), n)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// opened is an outbox.
func opened(t *testing.T, data string) *outbox {
	t.Helper()
	o, err := openOutbox(data, "https://desk.example", noon)
	if err != nil {
		t.Fatal(err)
	}
	o.settle()
	return o
}

// all is what an outbox sends until it waits, in words.
func (o *outbox) all(t *testing.T) (said []string) {
	t.Helper()
	for {
		m, err := o.next()
		if err != nil {
			t.Fatal(err)
		}
		switch m := m.(type) {
		case nil:
			return said
		case *link.Piece:
			said = append(said, fmt.Sprintf("piece %s %d %d+%d", m.Session, m.Part, m.Offset, len(m.Bytes)))
		case *link.Whole:
			said = append(said, fmt.Sprintf("whole %s %d %d", m.Session, m.Part, m.Size))
		default:
			said = append(said, fmt.Sprintf("%T", m)[len("*link."):])
		}
	}
}

func expect(t *testing.T, what string, got []string, want ...string) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s (-must be +is):\n%s", what, d)
	}
}

// TestOutbox: a session is offered, described and sent, file by file, to its end; nothing is sent that is not on the
// disk to stay; and the outbox waits for each answer.
func TestOutbox(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	o.add("s")
	expect(t, "before anything is on the disk", o.all(t))
	folderOf(t, data, "s", 100_000, 500)
	o.stored("s", 1, 70_000)
	expect(t, "first", o.all(t), "Offer")
	o.have(&link.Have{Session: "s", Part: 1})
	expect(t, "not known", o.all(t), "Begin")
	o.have(&link.Have{Session: "s", Known: true, Part: 1, Rewind: true})
	expect(t, "known", o.all(t), "piece s 1 0+65536", "piece s 1 65536+4464")
	o.stored("s", 2, 0)
	expect(t, "the first file is complete", o.all(t), "piece s 1 70000+30000", "whole s 1 100000")
	o.have(&link.Have{Session: "s", Known: true, Part: 1, Size: 70_000})
	expect(t, "it is being checked", o.all(t))
	o.have(&link.Have{Session: "s", Known: true, Part: 2})
	expect(t, "nothing more is on the disk", o.all(t))
	o.stored("s", 2, 500)
	o.over("s")
	expect(t, "to the end", o.all(t), "piece s 2 0+500", "whole s 2 500")
	o.have(&link.Have{Session: "s", Known: true, Part: 2, Size: 0, Rewind: true})
	expect(t, "it differs", o.all(t), "piece s 2 0+500", "whole s 2 500")
	o.have(&link.Have{Session: "s", Known: true, Part: 3})
	expect(t, "all is there", o.all(t), "Finish")
	expect(t, "afterwards", o.all(t))
	o.have(&link.Have{Session: "s", Known: true, Done: true})
	expect(t, "at the end", o.all(t))
	if len(o.sessions) > 0 {
		t.Error("the session is still to be sent")
	}
}

// TestOutboxGoesOn: a start after a crash, or another link, goes on where the school stands, from compressed files too,
// past a file that was removed.
func TestOutboxGoesOn(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	for _, id := range []string{"a", "b"} {
		o.add(id)
	}
	if err := o.save(); err != nil {
		t.Fatal(err)
	}
	dir := folderOf(t, data, "a", 1000, 10, 70_000)
	folderOf(t, data, "b", 100)
	for _, part := range []int{1, 3} {
		if err := record.Compress(filepath.Join(dir, record.PartName(part))); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Remove(filepath.Join(dir, record.PartName(2))); err != nil {
		t.Fatal(err)
	}
	o = opened(t, data)
	for range 2 { // on each link
		o.connect()
		expect(t, "offers", o.all(t), "Offer", "Offer")
		o.have(&link.Have{Session: "b", Known: true, Done: true})
		o.have(&link.Have{Session: "a", Known: true, Part: 1, Size: 400, Rewind: true})
		expect(t, "it goes on", o.all(t), "piece a 1 400+600", "whole a 1 1000")
		o.have(&link.Have{Session: "a", Known: true, Part: 2})
		expect(t, "the next file", o.all(t), "piece a 3 0+65536", "piece a 3 65536+4464", "whole a 3 70000")
		o.add("b")
	}
	if _, bytes := o.behind(noon.Add(time.Minute)); bytes == 0 {
		t.Error("nothing is left to be sent")
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	o.connect()
	o.all(t)
	if len(o.sessions) != 1 || o.sessions[0].id != "b" {
		t.Error("a session that was deleted is still to be sent")
	}
}

// TestWindow: no more is under way than what the school has not confirmed may be.
func TestWindow(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	o.add("s")
	folderOf(t, data, "s", 1_000_000)
	o.over("s")
	o.all(t)
	o.have(&link.Have{Session: "s", Known: true, Part: 1, Rewind: true})
	expect(t, "at once", o.all(t), "piece s 1 0+65536", "piece s 1 65536+65536", "piece s 1 131072+65536",
		"piece s 1 196608+65536")
	o.have(&link.Have{Session: "s", Known: true, Part: 1, Size: 65536})
	expect(t, "after an answer", o.all(t), "piece s 1 262144+65536")
	o.note(noon.Add(time.Minute))
	if s, _ := o.behind(noon.Add(time.Minute)); s != 60 {
		t.Errorf("the school is %v s behind; must be 60", s)
	}
	o.stored("s", 1, 327_680)
	o.have(&link.Have{Session: "s", Known: true, Part: 1, Size: 327_680})
	o.note(noon.Add(2 * time.Minute))
	o.stored("s", 1, 400_000)
	if s, n := o.behind(noon.Add(2*time.Minute + 10*time.Second)); s != 10 || n != 400_000-327_680 {
		t.Errorf("the school is %v s and %d bytes behind; must be 10 s", s, n)
	}
}

// TestOutboxOfAnother: what was to be sent to another school is not sent to this one, and a list that cannot be read is
// begun again.
func TestOutboxOfAnother(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	o.add("s")
	if err := o.save(); err != nil {
		t.Fatal(err)
	}
	if other, err := openOutbox(data, "https://other.example", noon); err != nil || len(other.sessions) > 0 {
		t.Errorf("another school gets %d sessions, %v", len(other.sessions), err)
	}
	if same := opened(t, data); len(same.sessions) != 1 {
		t.Errorf("the school gets %d sessions", len(same.sessions))
	}
	if err := os.WriteFile(filepath.Join(data, File), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := openOutbox(data, "https://desk.example", noon)
	if err == nil || !strings.Contains(err.Error(), "begun again") {
		t.Error(err)
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
		s, err := New(Options{URL: at, Data: t.TempDir(), Station: c.named, Log: zerolog.Nop()}, noon)
		if err != nil {
			t.Fatal(err)
		}
		s.Begin("A", playback.Opening{Session: "a1", Private: c.private}, nil)
		s.Begin("B", playback.Opening{Session: "b1", Private: c.private}, nil)
		s.End("a1")
		s.Begin("A", playback.Opening{Session: "a2", Private: c.private}, nil)
		var ids []string
		for _, p := range s.outbox.sessions {
			ids = append(ids, p.id)
		}
		if got := strings.Join(ids, " "); got != c.shared {
			t.Errorf("named %q, private %v: shared are %q; must be %q", c.named, c.private, got, c.shared)
		}
		if (s.Shared("B") != nil) != (c.named == "B") {
			t.Errorf("named %q, private %v: of B is shown %+v", c.named, c.private, s.Shared("B"))
		}
	}
}
