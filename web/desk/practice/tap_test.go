package practice

import (
	"fmt"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/message"
)

// A hearer notes what a Tap hears.
type hearer struct {
	mu    sync.Mutex
	notes []string
}

func (h *hearer) note(format string, args ...any) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.notes = append(h.notes, fmt.Sprintf(format, args...))
}

func (h *hearer) Begin(b Beginning) {
	h.note("begin %s private=%v head=%d", b.Opening.Choice.Maneuver, b.Opening.Private, len(b.Head))
}

func (h *hearer) Datagram(_ string, d Datagram) {
	h.note("datagram %d comments=%d", len(d.Bytes), len(d.Comments))
}

func (h *hearer) End(string) { h.note("end") }

func (h *hearer) Stored(_, file string, _ int64) {}

func (h *hearer) Complete(_, file string) { h.note("complete") }

func (h *hearer) Over(string) { h.note("over") }

func (h *hearer) Private(_ string, on bool) { h.note("private %v", on) }

func (h *hearer) Shared(string) *message.Share { return &message.Share{With: "desk.example"} }

// heard is what was noted since, without datagrams that have no command.
func (h *hearer) heard() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	all := slices.DeleteFunc(h.notes, func(n string) bool { return strings.HasSuffix(n, "comments=0") })
	h.notes = nil
	return strings.Join(all, ", ")
}

// inOrder has what is told of privacy follow the end: what is told of the folder comes from another goroutine, before
// or after it.
func inOrder(heard string) string {
	list := strings.Split(heard, ", ")
	end := slices.Index(list, "end")
	private := slices.IndexFunc(list, func(s string) bool { return strings.HasPrefix(s, "private ") })
	if end < 0 || private <= end {
		return heard
	}
	told := list[private]
	return strings.Join(slices.Insert(slices.Delete(list, private, private+1), end+1, told), ", ")
}

// A Tap hears a session from its beginning, with the commands in their order, to the end of its folder. A session ends
// before the station becomes private, and before it is shared again.
func TestTap(t *testing.T) {
	b := recordingOn(t, t.TempDir(), new(atomic.Bool))
	h := &hearer{}
	b.Tap = h
	s := b.station()
	now, n := time.Now(), 0
	fly := func(samples int) {
		for range samples {
			s.Datagram(line(n), now.Add(time.Duration(n)*100*time.Millisecond))
			s.Tick(now.Add(time.Duration(n) * 100 * time.Millisecond))
			n++
		}
	}
	s.Datagram([]byte("# a head"), now)
	for _, step := range []struct {
		what string
		do   func()
		want string
	}{
		{"the first sample", func() { fly(3) }, "begin wing-over private=false head=1"},
		{"a command", func() {
			if err := do(s, command.Again{}); err != nil {
				t.Error(err)
			}
			fly(1)
		}, fmt.Sprintf("datagram %d comments=1", len(line(3)))},
		{"private", func() {
			if err := do(s, command.Private{On: true}); err != nil {
				t.Error(err)
			}
			b.Wait()
		}, "end, private true, complete, over"},
		{"private again", func() {
			if err := do(s, command.Private{On: true}); err != nil {
				t.Error(err)
			}
			fly(20) // at rest
		}, ""},
		{"the next session", func() {
			s.Datagram(line(n+200), now.Add(time.Minute)) // after a silence
			n += 201
		}, "begin wing-over private=true head=1"},
		{"shared", func() {
			if err := do(s, command.Private{On: false}); err != nil {
				t.Error(err)
			}
			b.Wait()
		}, "end, private false, complete, over"},
	} {
		step.do()
		got := inOrder(h.heard())
		if !strings.HasPrefix(got, step.want) || (step.want == "") != (got == "") {
			t.Errorf("%s: it hears %q; must be %q", step.what, got, step.want)
		}
	}
	if len(s.before) > 0 {
		t.Errorf("%d datagrams of the private flight are held", len(s.before))
	}
	s.Tick(now.Add(2 * time.Minute))
	if share := s.session.Info(0).Share; share == nil || share.With != "desk.example" {
		t.Errorf("the panel shows %+v", share)
	}
	s.End(true)
}

// Several taps hear the same, and the first that shares the station says how; where there is none, nothing hears.
func TestTaps(t *testing.T) {
	if Taps(nil, nil) != nil {
		t.Error("no taps make one")
	}
	one, other := new(hearer), new(hearer)
	if got := Taps(nil, one); got != Tap(one) {
		t.Errorf("one tap is %T", got)
	}
	both := Taps(one, nil, other)
	both.Begin(Beginning{Head: make([]Datagram, 2)})
	both.Datagram("s", Datagram{Bytes: []byte("abc"), Comments: []string{"x"}})
	both.Stored("s", "f", 1)
	both.Complete("s", "f")
	both.Private("A", true)
	both.End("s")
	both.Over("s")
	const want = "begin  private=false head=2, datagram 3 comments=1, complete, private true, end, over"
	for i, h := range []*hearer{one, other} {
		if got := h.heard(); got != want {
			t.Errorf("tap %d heard %q; must be %q", i, got, want)
		}
	}
	if s := both.Shared("A"); s == nil || s.With != "desk.example" {
		t.Errorf("shared as %+v", s)
	}
}
