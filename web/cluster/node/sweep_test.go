package node

import (
	"os"
	"testing"

	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/tenures/tenurestest"
)

// TestSweep: of the folders that were moved aside, that of a session goes which another node went on with and which is
// over; one that nobody went on with stays, and so does one that is under way.
func TestSweep(t *testing.T) {
	store := memory.New()
	a, b := newRig(t, store, "a"), newRig(t, store, "b")
	keep := func(r *rig, session string) {
		t.Helper()
		l, err := r.engine.Holder(t.Context(), "A")
		if err == nil {
			l.Station = "A"
			l, err = r.engine.Claim(t.Context(), l, session)
		}
		if err == nil {
			first := tenurestest.Script(l.Fence, r.opt.Name, "t"+r.opt.Name, nil, "x")[0].Batch
			first.Session = session
			err = r.engine.Keep(t.Context(), first)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	aside := func(session string) string {
		t.Helper()
		a.notes.Aside("A", session) // as fakeFolders does
		for _, left := range a.notes.Left() {
			if left.Session == session {
				return left.Folder
			}
		}
		t.Fatalf("%s is not aside", session)
		return ""
	}
	keep(a, "gone on with")
	keep(b, "gone on with")
	keep(a, "left")
	keep(b, "under way")
	for session, stays := range map[string]bool{"gone on with": false, "left": true, "under way": true} {
		dir := aside(session)
		a.sweep()
		if _, err := os.Stat(dir); (err == nil) != stays {
			t.Errorf("the folder of the session %q: %v; it stays: %v", session, err, stays)
		}
	}
}
