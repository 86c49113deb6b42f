package hub

import (
	"reflect"
	"slices"
	"testing"
	"testing/synctest"

	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/coach/who"
	"halfturn/web/internal/feed"
)

// TestWallIsCompany: the pilots are told of those who look at the wall, as of their other viewers; others see of a
// private station its name and that it is private, whatever happens there, and all of it once it is shared again. The
// owner goes on seeing all of it.
func TestWallIsCompany(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		h := New("1.2.3", zerolog.Nop())
		arrive(h, "a")
		mo := who.Who{ID: "1", Name: "Mo", Role: who.RoleInstructor}
		l := look(t, h, Wish{Who: mo, Other: true})
		arrive(h, "b")
		company := func(name string) *message.Watching {
			found, _ := h.boards.Load(name)
			return found.(*board).watching
		}
		for _, name := range []string{"a", "b"} {
			if w := company(name); w == nil || len(w.Watchers) != 1 || w.Watchers[0] != mo {
				t.Errorf("at %s %+v is told of", name, w)
			}
		}
		if w := l.next(); !slices.Equal(w.Names, []string{"a", "b"}) {
			t.Errorf("the stations are %v", w.Names)
		}
		closed := feed.Station("a", "live")
		closed.Private = true
		h.Event(message.Message{Station: "a", Body: closed})
		only := message.Sheet{Name: "a", Private: true}
		if s := sheetOf(l.next(), "a"); !reflect.DeepEqual(s, only) || company("a") != nil {
			t.Errorf("of the private station others get %+v, and there %+v is told of", s, company("a"))
		}
		owner := look(t, h, Wish{})
		fly(h, "a", 0, 20)
		h.Event(callout("a", 31))
		if s := sheetOf(l.next(), "a"); s.Name != "" {
			t.Errorf("others get %+v while it is private", s)
		}
		late := look(t, h, Wish{Who: mo, Other: true})
		if s := sheetOf(late.next(), "a"); !reflect.DeepEqual(s, only) {
			t.Errorf("others who come get %+v", s)
		}
		h.Leave(late.v)
		if s := sheetOf(owner.next(), "a"); s.Info == nil || s.Private || s.Now == nil {
			t.Errorf("the owner gets %+v", s)
		}
		h.Event(message.Message{Station: "a", Body: feed.Station("a", "live")})
		if s := sheetOf(l.next(), "a"); !slices.Equal(parts(s), []string{"info", "now", "plan", "stage", "trace"}) ||
			s.Private {
			t.Errorf("shared again it has %v", parts(s))
		}
		h.Leave(l.v)
		if company("b") != nil {
			t.Error("who has left is told of")
		}
	})
}
