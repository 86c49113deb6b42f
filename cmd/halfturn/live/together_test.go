package live

import (
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/archive"
	"halfturn/coach/archive/depot/directory"
	"halfturn/stream/streamtest"
	"halfturn/web/cluster/flow/memory"
)

// TestTogether: two nodes have one logbook and one depot. A session that one of them takes over from the other in the
// middle of a leg is in it once, with both legs, and either node shows it with what it looked like.
func TestTogether(t *testing.T) {
	index := t.TempDir()
	in, err := directory.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	together := func(node string) (data string, how func(*Options)) {
		data = t.TempDir()
		shared := filepath.Join(index, archive.IndexFile)
		if err := os.Symlink(shared, filepath.Join(data, archive.IndexFile)); err != nil {
			t.Skip(err)
		}
		return data, func(o *Options) { o.Depot = &Depot{In: in, Node: node} }
	}
	d := &drill{T: t, store: memory.New(), datagrams: streamtest.Payloads(t, flight)}
	d.single = join(t, nil, "", t.TempDir())
	data, how := together("a")
	d.a = join(t, d.store, "a", data, how)
	data, how = together("b")
	d.b = join(t, d.store, "b", data, how)
	d.single.hear()
	d.a.hear()
	d.flyUntil("a to coach", func() bool { return len(d.a.out.list()) > 0 }, d.a)
	d.b.hear()
	d.fly(len(d.datagrams)/2, d.a, d.b)
	d.a.engine.Cut(true)
	d.flyUntil("b to take over", func() bool { return len(d.b.out.list()) > 0 }, d.b)
	d.a.engine.Cut(false)
	d.a.hears.End()
	d.a.hears = nil
	d.flyUntil("a to leave the session", func() bool {
		return len(sessionsOf(t, d.a.data)) == 0 && len(d.b.node.HeardBy(simulator.String())) == 0
	}, d.b)
	d.end(d.b)
	legs := legsSeen(d.single.out.list())
	for name, node := range map[string]*clustered{"a": d.a, "b": d.b} {
		var answer []byte
		var list struct {
			Sessions []struct {
				ID   string
				Legs int
			}
		}
		cmdtest.Until(t, func() bool {
			_, answer = node.ask(t, "GET", "api/sessions", "", nil)
			return json.Unmarshal(answer, &list) == nil && len(list.Sessions) == 1 && list.Sessions[0].Legs == legs
		}, func() string { return fmt.Sprintf("%s has %s; must have a session of %d legs", name, answer, legs) })
		path := "api/sessions/" + list.Sessions[0].ID + "/legs/1"
		cmdtest.Until(t, func() bool {
			status, _ := node.ask(t, "GET", path, "", nil)
			return status == http.StatusOK
		}, func() string { return name + " does not show the leg" })
	}
}
