package practice

import (
	"context"
	"fmt"
	"net/netip"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/coach/archive/queue"
	"halfturn/coach/logbook"
)

// at is where the simulator of a seat sends from: each is a machine of its own.
func at(seat int) netip.AddrPort {
	return netip.AddrPortFrom(netip.AddrFrom4([4]byte{192, 168, 1, byte(seat)}), 49000)
}

// fliesAt flies for five seconds at a seat, until the program ends at now, and returns the session.
func (b *bench) fliesAt(seat int, now time.Time) (session string) {
	p := New(b.Common, at(seat).String(), b.Directory.Of(at(seat)), at(seat))
	for n := range 50 {
		p.Datagram(line(n), now.Add(time.Duration(n-50)*100*time.Millisecond))
	}
	p.End(false)
	return p.SessionID()
}

// gated has a backlog wait before it plays anything, and notes what it plays.
type gated struct {
	open chan struct{}

	mu    sync.Mutex
	began []string
}

func (g *gated) resumes(station string, on bool) {
	if !on {
		return
	}
	g.mu.Lock()
	g.began = append(g.began, station)
	g.mu.Unlock()
	<-g.open
}

// waitsFor waits until something is so.
func waitsFor(t *testing.T, what string, is func() bool) {
	t.Helper()
	for began := time.Now(); !is(); <-time.After(time.Millisecond) {
		if time.Since(began) > 30*time.Second {
			t.Fatalf("waited 30s for %s", what)
		}
	}
}

// TestHeardFirst: of many sessions, those of stations that are heard are played first, in the order in which these were
// heard; who waits for one has it then. All of them are played once.
func TestHeardFirst(t *testing.T) {
	const seats = 12
	data, now := t.TempDir(), time.Now()
	first := recordingOn(t, data, new(atomic.Bool))
	sessions := map[string]string{}
	for n := range seats {
		sessions[at(n).String()] = first.fliesAt(n, now)
	}
	again := recordingOn(t, data, new(atomic.Bool))
	g := &gated{open: make(chan struct{})}
	close(g.open)
	again.Resumes = g.resumes
	b := LookBack(t.Context(), again.Common, now)
	var waiting sync.WaitGroup
	var mu sync.Mutex
	got := map[string]string{} // sessions by station
	heard := []string{at(9).String(), at(4).String()}
	for _, station := range heard {
		waiting.Go(func() {
			played := b.Await(station)
			mu.Lock()
			defer mu.Unlock()
			if !played || got[station] != sessions[station] {
				t.Errorf("%s: played %v, goes on with %q; must be %q", station, played, got[station], sessions[station])
			}
		})
		waitsFor(t, "it to be first", func() bool {
			b.mu.Lock()
			defer b.mu.Unlock()
			return b.of[station].heard
		})
	}
	b.mu.Lock()
	order := []string{b.order[0].station, b.order[1].station}
	b.mu.Unlock()
	if !slices.Equal(order, heard) {
		t.Errorf("first are %q; must be %q", order, heard)
	}
	b.Play(t.Context(), func(p *Practice) {
		mu.Lock()
		defer mu.Unlock()
		if got[p.Name()] != "" {
			t.Errorf("%s goes on twice", p.Name())
		}
		got[p.Name()] = p.SessionID()
	})
	waiting.Wait()
	if len(got) != seats || len(g.began) != seats || len(b.Stations()) != 0 {
		t.Errorf("%d go on, %d were played, %q are left", len(got), len(g.began), b.Stations())
	}
	if !b.Await(at(20).String()) {
		t.Error("a station without a session waits")
	}
}

// TestLeftToNextStart: when the server stops, who waits is told that nothing is played; it is at the next start.
func TestLeftToNextStart(t *testing.T) {
	const seats = 5
	data, now := t.TempDir(), time.Now()
	first := recordingOn(t, data, new(atomic.Bool))
	for n := range seats {
		first.fliesAt(n, now)
	}
	again := recordingOn(t, data, new(atomic.Bool))
	b := LookBack(t.Context(), again.Common, now)
	ctx, stop := context.WithCancel(t.Context())
	told := make(chan bool)
	go func() { told <- b.Await(at(3).String()) }()
	waitsFor(t, "it to wait", func() bool {
		b.mu.Lock()
		defer b.mu.Unlock()
		return b.of[at(3).String()].heard
	})
	stop()
	b.end()
	b.Play(ctx, func(p *Practice) { t.Errorf("%s goes on", p.Name()) })
	if <-told || b.Await(at(4).String()) {
		t.Error("it is said to be played")
	}
	third := recordingOn(t, data, new(atomic.Bool))
	if all := resume(t, third.Common, now); len(all) != seats {
		t.Errorf("%d go on after the next start", len(all))
	}
}

// TestTwoOfOneStation: of two sessions that a station left, the first one ends and the second one waits.
func TestTwoOfOneStation(t *testing.T) {
	data, now := t.TempDir(), time.Now()
	first := recordingOn(t, data, new(atomic.Bool))
	one := first.fliesAt(1, now.Add(-10*time.Second))
	two := first.fliesAt(1, now)
	again := recordingOn(t, data, new(atomic.Bool))
	again.Writer = queue.New(again.book, func(err error) { t.Error(err) })
	all := resume(t, again.Common, now)
	again.Writer.Close()
	if len(all) != 1 || all[0].SessionID() != two {
		t.Fatalf("%d go on; must be %s", len(all), two)
	}
	list, err := again.book.List(t.Context(), logbook.Filter{})
	if err != nil {
		t.Fatal(err)
	}
	ended := map[string]bool{}
	for _, s := range list.Sessions {
		ended[s.ID] = s.Ended != ""
	}
	if unfinished, err := again.book.Folders().Unfinished(); err != nil || !slices.Equal(unfinished, []string{two}) ||
		fmt.Sprint(ended) != fmt.Sprint(map[string]bool{one: true, two: false}) {
		t.Errorf("ended are %v, unfinished %q, %v", ended, unfinished, err)
	}
}

// TestLeft: a session that another machine goes on with is not played; its station does not wait.
func TestLeft(t *testing.T) {
	data, now := t.TempDir(), time.Now()
	first := recordingOn(t, data, new(atomic.Bool))
	left, stays := first.fliesAt(1, now), first.fliesAt(2, now)
	again := recordingOn(t, data, new(atomic.Bool))
	b := LookBack(t.Context(), again.Common, now)
	if id := b.Leave(at(1).String()); id != left || !b.Await(at(1).String()) || b.Leave(at(1).String()) != "" {
		t.Errorf("left is %q; must be %q", id, left)
	}
	var all []string
	b.Play(t.Context(), func(p *Practice) { all = append(all, p.SessionID()) })
	if !slices.Equal(all, []string{stays}) {
		t.Errorf("%q go on", all)
	}
}

// TestLeftWhilePlayed: who leaves a session to another machine while it is played does not wait for that, as it is what
// hears of the other machines; the session does not go on here, and its station is free.
func TestLeftWhilePlayed(t *testing.T) {
	data, now := t.TempDir(), time.Now()
	first := recordingOn(t, data, new(atomic.Bool))
	left, stays := first.fliesAt(1, now), first.fliesAt(2, now)
	again := recordingOn(t, data, new(atomic.Bool))
	g := &gated{open: make(chan struct{})}
	again.Resumes = g.resumes
	b := LookBack(t.Context(), again.Common, now)
	var all []string
	var mu sync.Mutex
	over := make(chan struct{})
	go func() {
		defer close(over)
		b.Play(t.Context(), func(p *Practice) {
			mu.Lock()
			defer mu.Unlock()
			all = append(all, p.SessionID())
		})
	}()
	station := at(1).String()
	waitsFor(t, "it to be played", func() bool {
		g.mu.Lock()
		defer g.mu.Unlock()
		return slices.Contains(g.began, station)
	})
	answered := make(chan string)
	go func() { answered <- b.Leave(station) }()
	select {
	case id := <-answered:
		if id != "" {
			t.Errorf("%q is left before it was played", id)
		}
	case <-time.After(10 * time.Second):
		t.Error("who leaves a session waits until it is played")
	}
	close(g.open)
	<-over
	if !slices.Equal(all, []string{stays}) {
		t.Errorf("%q go on; must be %s, and not %s", all, stays, left)
	}
	if !b.Await(station) || slices.Contains(b.Stations(), station) {
		t.Error("its station waits")
	}
}

// TestStopsWithoutAnother: what comes for a station while the server stops begins no session beside the one that is
// left to the next start.
func TestStopsWithoutAnother(t *testing.T) {
	data, now := t.TempDir(), time.Now()
	first := recordingOn(t, data, new(atomic.Bool))
	first.fliesAt(1, now)
	again := recordingOn(t, data, new(atomic.Bool))
	b := LookBack(t.Context(), again.Common, now)
	b.end()
	if waits := b.Stations(); !slices.Equal(waits, []string{at(1).String()}) || b.Await(at(1).String()) {
		t.Errorf("what comes for the station is taken; %q wait", waits)
	}
}
