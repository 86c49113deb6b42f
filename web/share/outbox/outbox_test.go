package outbox

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/archive/folder"
	"halfturn/stream/record"
	"halfturn/web/share/link"
)

var noon = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)

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
func opened(t *testing.T, data string) *Outbox {
	t.Helper()
	o, err := Open(data, "https://desk.example", noon)
	if err != nil {
		t.Fatal(err)
	}
	o.Settle()
	return o
}

// all is what an outbox sends until it waits, in words.
func (o *Outbox) all(t *testing.T) (said []string) {
	t.Helper()
	for {
		m, err := o.Next()
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
	o.Add("s")
	expect(t, "before anything is on the disk", o.all(t))
	folderOf(t, data, "s", 100_000, 500)
	o.Stored("s", 1, 70_000)
	expect(t, "first", o.all(t), "Offer")
	o.Have(&link.Have{Session: "s", Part: 1})
	expect(t, "not known", o.all(t), "Begin")
	o.Have(&link.Have{Session: "s", Known: true, Part: 1, Rewind: true})
	expect(t, "known", o.all(t), "piece s 1 0+65536", "piece s 1 65536+4464")
	o.Stored("s", 2, 0)
	expect(t, "the first file is complete", o.all(t), "piece s 1 70000+30000", "whole s 1 100000")
	o.Have(&link.Have{Session: "s", Known: true, Part: 1, Size: 70_000})
	expect(t, "it is being checked", o.all(t))
	o.Have(&link.Have{Session: "s", Known: true, Part: 2})
	expect(t, "nothing more is on the disk", o.all(t))
	o.Stored("s", 2, 500)
	o.Over("s")
	expect(t, "to the end", o.all(t), "piece s 2 0+500", "whole s 2 500")
	o.Have(&link.Have{Session: "s", Known: true, Part: 2, Size: 0, Rewind: true})
	expect(t, "it differs", o.all(t), "piece s 2 0+500", "whole s 2 500")
	o.Have(&link.Have{Session: "s", Known: true, Part: 3})
	expect(t, "all is there", o.all(t), "Finish")
	expect(t, "afterwards", o.all(t))
	o.Have(&link.Have{Session: "s", Known: true, Done: true})
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
		o.Add(id)
	}
	if err := o.Save(); err != nil {
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
		o.Connect()
		expect(t, "offers", o.all(t), "Offer", "Offer")
		o.Have(&link.Have{Session: "b", Known: true, Done: true})
		o.Have(&link.Have{Session: "a", Known: true, Part: 1, Size: 400, Rewind: true})
		expect(t, "it goes on", o.all(t), "piece a 1 400+600", "whole a 1 1000")
		o.Have(&link.Have{Session: "a", Known: true, Part: 2})
		expect(t, "the next file", o.all(t), "piece a 3 0+65536", "piece a 3 65536+4464", "whole a 3 70000")
		o.Add("b")
	}
	if _, bytes := o.Behind(noon.Add(time.Minute)); bytes == 0 {
		t.Error("nothing is left to be sent")
	}
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	o.Connect()
	o.all(t)
	if len(o.sessions) != 1 || o.sessions[0].id != "b" {
		t.Error("a session that was deleted is still to be sent")
	}
}

// TestWindow: no more is under way than what the school has not confirmed may be.
func TestWindow(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	o.Add("s")
	folderOf(t, data, "s", 1_000_000)
	o.Over("s")
	o.all(t)
	o.Have(&link.Have{Session: "s", Known: true, Part: 1, Rewind: true})
	expect(t, "at once", o.all(t), "piece s 1 0+65536", "piece s 1 65536+65536", "piece s 1 131072+65536",
		"piece s 1 196608+65536")
	o.Have(&link.Have{Session: "s", Known: true, Part: 1, Size: 65536})
	expect(t, "after an answer", o.all(t), "piece s 1 262144+65536")
	o.Note(noon.Add(time.Minute))
	if s, _ := o.Behind(noon.Add(time.Minute)); s != 60 {
		t.Errorf("the school is %v s behind; must be 60", s)
	}
	o.Stored("s", 1, 327_680)
	o.Have(&link.Have{Session: "s", Known: true, Part: 1, Size: 327_680})
	o.Note(noon.Add(2 * time.Minute))
	o.Stored("s", 1, 400_000)
	if s, n := o.Behind(noon.Add(2*time.Minute + 10*time.Second)); s != 10 || n != 400_000-327_680 {
		t.Errorf("the school is %v s and %d bytes behind; must be 10 s", s, n)
	}
}

// TestOutboxOfAnother: what was to be sent to another school is not sent to this one, and a list that cannot be read is
// begun again.
func TestOutboxOfAnother(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	o.Add("s")
	if err := o.Save(); err != nil {
		t.Fatal(err)
	}
	if other, err := Open(data, "https://other.example", noon); err != nil || len(other.sessions) > 0 {
		t.Errorf("another school gets %d sessions, %v", len(other.sessions), err)
	}
	if same := opened(t, data); len(same.sessions) != 1 {
		t.Errorf("the school gets %d sessions", len(same.sessions))
	}
	if err := os.WriteFile(filepath.Join(data, File), []byte("{"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := Open(data, "https://desk.example", noon)
	if err == nil || !strings.Contains(err.Error(), "begun again") {
		t.Error(err)
	}
}
