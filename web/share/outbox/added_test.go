package outbox

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/web/share/link"
)

// add adds acts of a kind to the folder of a session, with ids from a number on.
func add(t *testing.T, dir, kind string, from, n int) {
	t.Helper()
	f, err := os.OpenFile(filepath.Join(dir, folder.ActsFile), os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for i := range n {
		line, err := json.Marshal(logbook.Act{ID: fmt.Sprint(kind, from+i), Kind: kind})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write(append(line, '\n')); err != nil {
			t.Fatal(err)
		}
	}
}

// acts is what an outbox sends until it waits: from which place how many acts, and the kinds of other messages.
func (o *Outbox) actsOf(t *testing.T) (said []string) {
	t.Helper()
	for {
		m, err := o.Next()
		if err != nil {
			t.Fatal(err)
		}
		if m == nil {
			return said
		}
		a, ok := m.(*link.Acts)
		if !ok {
			said = append(said, fmt.Sprintf("%T", m)[len("*link."):])
			continue
		}
		var list []logbook.Act
		if err := json.Unmarshal(a.Acts, &list); err != nil {
			t.Fatal(err)
		}
		said = append(said, fmt.Sprintf("acts %d+%d", a.From, len(list)))
	}
}

// TestActs: what is added to a session is sent in its order while it is flown, and after the school has it whole; on
// another link all of it is sent again, and the school tells by the ids what it has. Whether a session is kept here is
// not sent, nor anything about one that was never shared, or that was deleted at the school.
func TestActs(t *testing.T) {
	data := t.TempDir()
	o := opened(t, data)
	o.Add("s")
	dir := folderOf(t, data, "s")
	add(t, dir, logbook.ActRemark, 0, 2)
	add(t, dir, logbook.ActKeep, 2, 1)
	o.Stored("s", 1, 0)
	known := &link.Have{Session: "s", Known: true, Part: 1, Rewind: true}
	expect(t, "first", o.actsOf(t), "Offer")
	o.Have(known)
	expect(t, "known", o.actsOf(t), "acts 0+2")
	expect(t, "nothing new", o.actsOf(t))
	add(t, dir, logbook.ActRate, 3, mostActs+1)
	if !o.Acted("s") || o.Acted("private") {
		t.Error("one session is shared, and the other is not")
	}
	expect(t, "more", o.actsOf(t), "acts 2+50", "acts 52+1")
	o.Over("s")
	expect(t, "to the end", o.actsOf(t), "Finish")
	done := &link.Have{Session: "s", Known: true, Done: true}
	o.Have(done)
	o.actsOf(t)
	if len(o.sessions) != 1 {
		t.Fatal("what the school has not noted is not to be sent any more")
	}
	o.Connect()
	expect(t, "on another link", o.actsOf(t), "Offer")
	o.Have(done)
	expect(t, "all once more", o.actsOf(t), "acts 0+50", "acts 50+3")
	o.Noted(&link.Noted{Session: "s", Acts: 53})
	o.actsOf(t)
	if len(o.sessions) != 0 {
		t.Fatal("what the school has is still to be sent")
	}

	add(t, dir, logbook.ActRemark, 90, 1)
	o.Acted("s")
	if s, n := o.Behind(noon.Add(time.Hour)); s != 0 || n != 0 {
		t.Errorf("the recording is %v s behind, %d bytes", s, n)
	}
	if err := o.Save(); err != nil {
		t.Fatal(err)
	}
	o = opened(t, data)
	o.Connect()
	expect(t, "after a start", o.actsOf(t), "Offer")
	o.Have(done)
	expect(t, "what was added later", o.actsOf(t), "acts 0+50", "acts 50+4")
	o.Noted(&link.Noted{Session: "s", Acts: 54})
	o.actsOf(t)
	o.Acted("s")
	o.actsOf(t)
	o.Have(&link.Have{Session: "s", Part: 1})
	if expect(t, "deleted at the school", o.actsOf(t)); len(o.sessions) != 0 {
		t.Error("a session that was deleted at the school is sent to it again")
	}
}
