package node

import (
	"errors"
	"fmt"
	"net/http"
	"net/netip"
	"strings"
	"testing"
	"time"

	"halfturn/coach/command"
	"halfturn/coach/playback"
	"halfturn/coach/who"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/memory"
	"halfturn/web/cluster/tenures"
	"halfturn/web/desk/practice"
	"halfturn/web/guard"
)

// A pilot is a station that node a coaches and records, and what is asked of it.
type pilot struct {
	*testing.T
	a    *rig
	sent int
}

// newPilot begins the session s of station A at a node.
func newPilot(t *testing.T, a *rig) *pilot {
	o := playback.Opening{Session: "s", Station: "A"}
	st := a.station("A")
	st.mu.Lock()
	st.coached = true
	st.mu.Unlock()
	a.Tap().Begin(practice.Beginning{Station: "A", Opening: o, Recorded: o})
	until(t, func() bool {
		l, err := a.engine.Holder(t.Context(), "A")
		return err == nil && l.Node == a.opt.Name
	}, func() string { return "the node has no lease" })
	return &pilot{T: t, a: a}
}

// kept counts the datagrams that are kept.
func (p *pilot) kept() (n int) {
	p.Helper()
	err := p.a.engine.Read(p.Context(), "A", "s", func(b *flow.Batch) error {
		for _, r := range b.Records {
			if strings.HasPrefix(string(r.Bytes), "datagram ") {
				n++
			}
		}
		return nil
	})
	if err != nil {
		p.Error(err)
	}
	return n
}

// send records a datagram.
func (p *pilot) send() {
	at := netip.MustParseAddrPort("192.0.2.1:1")
	p.sent++
	p.a.Tap().Datagram("s", practice.Datagram{Bytes: fmt.Appendf(nil, "datagram %d;", p.sent), From: at, To: at,
		Received: time.Unix(int64(p.sent), 0)})
}

// ask has something done, asked for at a node, and returns when it is done but for its answer.
func (p *pilot) ask(r *rig) <-chan error {
	p.Helper()
	p.a.desk.mu.Lock()
	before := len(p.a.desk.done)
	p.a.desk.mu.Unlock()
	answer := make(chan error, 1)
	desk := r.Wrap(p.a.desk)
	go func() {
		answer <- desk.Do(p.Context(), command.New("1", time.Now(), "A", who.Owner(), command.Student{Name: "Ada"}))
	}()
	until(p.T, func() bool {
		p.a.desk.mu.Lock()
		defer p.a.desk.mu.Unlock()
		return len(p.a.desk.done) > before
	}, func() string { return "nothing is done" })
	return answer
}

// answered sends until an answer comes; meanwhile does what else happens.
func (p *pilot) answered(answer <-chan error, meanwhile func()) error {
	for {
		p.send()
		meanwhile()
		select {
		case err := <-answer:
			return err
		case <-time.After(20 * time.Millisecond):
		}
	}
}

// isUnsure reports whether an answer says that something may be lost, as a page shows it.
func isUnsure(err error) bool {
	var p *guard.Problem
	return errors.As(err, &p) && p.Status == http.StatusGatewayTimeout && p.Phrase.Code() == "command.unsure"
}

func nothing() {}

// hears has a node hear station A; deaf has it hear nothing of what others tell of its record.
func (r *rig) hears(p *pilot, deaf bool) {
	if st := r.station("A"); deaf {
		st.mu.Lock()
		st.deaf, st.heard = func() {}, &tenures.Heard{}
		st.mu.Unlock()
	}
	h := &hearing{node: r.Node, name: "A", phase: standby, ring: tenures.Ring{Most: 1 << 20}}
	h.first, h.heard = time.Now(), time.Now().Add(time.Hour)
	r.mu.Lock()
	r.heard[h] = struct{}{}
	r.mu.Unlock()
	until(p.T, func() bool { return p.a.heardElsewhere("A") }, func() string { return "a does not know" })
}

// TestKeptFirst: what is done at a station is answered once the record that has it is kept, wherever it was asked for.
func TestKeptFirst(t *testing.T) {
	store := memory.New()
	a, b := newRig(t, store, "a"), newRig(t, store, "b")
	a.opt.Times.Keep, b.opt.Times.Ask = time.Minute, time.Minute // on a machine that has too much to do
	p := newPilot(t, a)
	until(t, func() bool { return b.elsewhere("A") == "a" }, func() string { return "b hears nothing of a" })
	for _, r := range []*rig{a, b} {
		answer := p.ask(r)
		before := p.sent
		if err := p.answered(answer, nothing); err != nil || p.kept() <= before {
			t.Errorf("asked for at %s: %v, and %d are kept; must be more than %d", r.opt.Name, err, p.kept(), before)
		}
	}
}

// TestUnsure: who asked for something is told that it may be lost where nobody can know that it is not: the store is
// away and no node follows, another node has taken the station over, or one hears it that does not know the record.
func TestUnsure(t *testing.T) {
	for _, c := range []struct {
		name     string
		before   func(p *pilot, store *memory.Store, b *rig)
		after    func(p *pilot, store *memory.Store, b *rig) // it is done
		keepsAll bool                                        // it is certain all the same
	}{
		{"nothing happens", nil, nil, true},
		{"the store is away", func(_ *pilot, store *memory.Store, _ *rig) { store.Stop(true) }, nil, false},
		{"the node is cut off", func(p *pilot, _ *memory.Store, _ *rig) { p.a.engine.Cut(true) }, nil, false},
		{"the node is cut off once it is done", nil,
			func(p *pilot, _ *memory.Store, _ *rig) { p.a.engine.Cut(true) }, false},
		{"another node has the lease", func(p *pilot, _ *memory.Store, b *rig) {
			l, err := b.engine.Holder(p.Context(), "A")
			if err == nil {
				_, err = b.engine.Claim(p.Context(), l, "s")
			}
			if err != nil {
				p.Error(err)
			}
			p.a.engine.Cut(true) // it does not hear that it has none any more
		}, nil, false},
		{"it is left to another node", nil,
			func(p *pilot, _ *memory.Store, _ *rig) { p.a.lose(p.a.station("A"), "b") }, false},
		{"another node hears the station, and what is told", func(p *pilot, _ *memory.Store, b *rig) {
			b.hears(p, false)
		}, nil, true},
		{"another node hears the station, and not what is told", func(p *pilot, _ *memory.Store, b *rig) {
			b.hears(p, true)
		}, nil, false},
		{"another node hears what is told and cannot follow, and the store is away",
			func(p *pilot, store *memory.Store, b *rig) {
				b.hears(p, false)
				store.Stop(true)
			}, nil, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			store := memory.New()
			a, b := newRig(t, store, "a"), newRig(t, store, "b")
			if a.opt.Times.Keep = time.Second; c.keepsAll {
				a.opt.Times.Keep = time.Minute // on a machine that has too much to do
			}
			p := newPilot(t, a)
			if c.before != nil {
				c.before(p, store, b)
			}
			answer := p.ask(a)
			if c.after != nil {
				c.after(p, store, b)
			}
			err := p.answered(answer, nothing)
			if c.keepsAll && err != nil || !c.keepsAll && !isUnsure(err) {
				t.Errorf("%v", err)
			}
		})
	}
}

// TestAwake: a node that stood still does not take what it does for certain before the others had time to say what they
// hold, however soon after it wakes it is asked.
func TestAwake(t *testing.T) {
	now := time.Now()
	for _, c := range []struct {
		name   string
		ticked time.Duration // before now
		grace  time.Duration // from now on
		alone  bool
		want   bool
	}{
		{"it goes on as ever", 10 * time.Millisecond, -time.Second, false, true},
		{"it woke and has not noticed", 20 * time.Second, -time.Second, false, false},
		{"it stood still for longer than it may", 501 * time.Millisecond, -time.Second, false, false},
		{"it stood still for as long as it may", 500 * time.Millisecond, -time.Second, false, true},
		{"it has noticed", 10 * time.Millisecond, time.Millisecond, false, false},
		{"it hears no other", 10 * time.Millisecond, -time.Second, true, false},
	} {
		engine := memory.New().Join("a")
		defer engine.Close()
		engine.Isolate(c.alone)
		n := &Node{life: life{started: now.Add(-time.Minute)}, opt: Options{Flow: engine}}
		n.opt.Times.fill()
		n.ticked.Store(int64(time.Minute - c.ticked))
		n.grace.Store(int64(time.Minute + c.grace))
		if got := n.awake(now); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}
