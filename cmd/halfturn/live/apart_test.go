package live

import (
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/cmdtest"
)

// TestMarkedApart: marks are made at both nodes before one of them is cut off, at that one while it is, and after the
// other one has taken the station over. The recording has every mark once of which somebody was told that it is made.
// Who made one of which that is not known was told so, in words.
func TestMarkedApart(t *testing.T) {
	d := newDrill(t, t.TempDir(), t.TempDir(), func(o *Options) {
		o.Cluster.Times.Keep = 8 * time.Second // on a machine that has too much to do
	})
	made, unsure, refused := []string(nil), 0, 0
	mark := func(at *clustered, by ...*clustered) {
		t.Helper()
		words := fmt.Sprintf("mark %d", len(made)+unsure+refused)
		status, answer := 0, []byte(nil)
		done := make(chan struct{})
		go func() {
			defer close(done)
			status, answer = at.ask(t, "POST", "api/stations/"+simulator.String()+"/mark", "application/json",
				fmt.Appendf(nil, `{"mark":%q}`, words))
		}()
		d.flyUntil("an answer", func() bool {
			select {
			case <-done:
				return true
			default:
				return false
			}
		}, by...)
		switch {
		case status == http.StatusOK:
			made = append(made, words)
		case status == http.StatusGatewayTimeout && bytes.Contains(answer, []byte(`"code":"command.unsure"`)) &&
			bytes.Contains(answer, []byte("look whether it is there before you do it again")):
			unsure++
		case bytes.Contains(answer, []byte(`"code":"station.gone"`)): // a node that is late heard of no other
			refused++
		default:
			t.Errorf("%s at %s: %d %s", words, at.URL(), status, answer)
		}
	}
	for range 2 {
		mark(d.a, d.a, d.b)
		mark(d.b, d.a, d.b)
	}
	if len(made) != 4 {
		t.Errorf("%d of 4 marks are made while nothing happens", len(made))
	}
	d.a.engine.Cut(true)
	mark(d.a, d.a, d.b)
	if unsure != 1 {
		t.Error("a mark is made at a node that is cut off, and nobody says that it may be lost")
	}
	d.flyUntil("b to take over", func() bool { return d.b.lease(t).Node == "b" }, d.b)
	mark(d.b, d.b)
	d.a.engine.Cut(false)
	d.flyUntil("a to leave the session", func() bool {
		d.a.hears.Tick(at(d.next))
		return len(sessionsOf(t, d.a.data)) == 0
	}, d.b)
	mark(d.a, d.b)
	d.a.hears.End()
	d.a.hears = nil
	d.alone()
	d.end(d.b)
	var said string
	cmdtest.Until(t, func() bool { return len(sessionsOf(t, d.b.data)) == 1 },
		func() string { return fmt.Sprint("b has ", sessionsOf(t, d.b.data)) })
	_, files := recorded(t, d.b.data)
	for _, data := range files {
		said += string(data)
	}
	for _, words := range made {
		if n := strings.Count(said, `"`+words+`"`); n != 1 {
			t.Errorf("%q is recorded %d times; its maker was told that it is made", words, n)
		}
	}
	t.Logf("%d marks were made, %d refused, and of %d it is not known", len(made), refused, unsure)
}
