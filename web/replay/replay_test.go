package replay_test

import (
	"context"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/aircraft"
	"halfturn/coach/archive/play"
	"halfturn/coach/judge"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs"
	"halfturn/web"
	"halfturn/web/guard"
	"halfturn/web/hub"
	"halfturn/web/replay"
)

// A stage remembers what a viewer would see.
type stage struct {
	mu      sync.Mutex
	viewers int
	events  []message.Message
	frames  []coach.Frame
	shown   []*hub.Scene
}

func (s *stage) Event(m message.Message) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.events = append(s.events, m)
}

func (s *stage) Frame(_ string, f *coach.Frame) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.frames = append(s.frames, *f)
}

func (s *stage) Watched(string) bool { return true }

func (s *stage) Show(_ string, scene *hub.Scene) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.shown = append(s.shown, scene)
	s.events, s.frames = nil, nil
}

func (s *stage) Viewers(string) int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.viewers
}

// of returns the bodies of one type that were seen since the last scene.
func of[T message.Body](s *stage) (all []T) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, m := range s.events {
		if b, ok := m.Body.(T); ok {
			all = append(all, b)
		}
	}
	return all
}

// A reelOf is a library of one made-up recording: datagrams at these places.
type reelOf struct {
	places []float64
	opened int
	fed    []float64 // since it was last opened
}

func (r *reelOf) Open(string, string, session.Output) (replay.Take, error) {
	r.opened++
	r.fed = nil
	return &fakeTake{r: r, n: -1}, nil
}

func (r *reelOf) Length(context.Context, string) (float64, error) {
	return r.places[len(r.places)-1], nil
}

type fakeTake struct {
	r *reelOf
	n int
}

func (t *fakeTake) Next() (float64, error) {
	if t.n++; t.n == len(t.r.places) {
		return 0, io.EOF
	}
	return t.r.places[t.n], nil
}
func (t *fakeTake) Feed()        { t.r.fed = append(t.r.fed, t.r.places[t.n]) }
func (t *fakeTake) End(string)   {}
func (t *fakeTake) Close() error { return nil }

// every returns places from 0 to the end, n a second.
func every(n, end float64) (places []float64) {
	for i := 0.0; i/n <= end; i++ {
		places = append(places, i/n)
	}
	return places
}

func wait(d time.Duration) {
	<-time.After(d)
	synctest.Wait()
}

// bg has no channel of its own, which the bubble of a test could not wait on.
var bg = context.Background()

func ptr[T any](v T) *T { return &v }

// play runs a test on a manager of one recording, in time of its own.
func playing(t *testing.T, lib replay.Library, s *stage, run func(m *replay.Manager)) {
	t.Helper()
	synctest.Test(t, func(*testing.T) {
		m := replay.NewManager(lib, s, nil, zerolog.Nop())
		defer m.Close()
		run(m)
	})
}

func must(t *testing.T) func(web.ReplayState, error) web.ReplayState {
	return func(s web.ReplayState, err error) web.ReplayState {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
}

func TestPace(t *testing.T) {
	for _, pace := range []float64{0.25, 1, 8} {
		lib := &reelOf{places: every(10, 100)}
		playing(t, lib, &stage{viewers: 1}, func(m *replay.Manager) {
			must(t)(m.Start(bg, "a", 4, pace))
			wait(8 * time.Second)
			got := must(t)(m.Control(bg, "a", web.ReplayControl{}))
			want := 4 + 8*pace
			if math.Abs(got.Position-want) > 0.011 {
				t.Errorf("at pace %g 8 s after 4 s it stands at %g s, want %g", pace, got.Position, want)
			}
			if last := lib.fed[len(lib.fed)-1]; last > want || last < want-0.11 {
				t.Errorf("at pace %g fed up to %g s, want up to %g", pace, last, want)
			}
		})
	}
}

func TestPauseAndGoOn(t *testing.T) {
	lib := &reelOf{places: every(10, 100)}
	playing(t, lib, &stage{viewers: 1}, func(m *replay.Manager) {
		must(t)(m.Start(bg, "a", 0, 2))
		wait(3 * time.Second)
		must(t)(m.Control(bg, "a", web.ReplayControl{Paused: ptr(true)}))
		wait(20 * time.Second)
		if got := must(t)(m.Control(bg, "a", web.ReplayControl{})); got.Position != 6 || !got.Paused {
			t.Errorf("paused at 6 s it stands at %+v", got)
		}
		must(t)(m.Control(bg, "a", web.ReplayControl{Paused: ptr(false), Pace: ptr(0.5)}))
		wait(4 * time.Second)
		if got := must(t)(m.Control(bg, "a", web.ReplayControl{})); got.Position != 8 || got.Paused {
			t.Errorf("gone on at half the pace for 4 s it stands at %+v, want 8 s", got)
		}
		if !slices.Equal(lib.fed, every(10, 8)) {
			t.Errorf("fed %v", lib.fed)
		}
	})
}

func TestSeek(t *testing.T) {
	lib := &reelOf{places: every(10, 100)}
	playing(t, lib, &stage{viewers: 1}, func(m *replay.Manager) {
		must(t)(m.Start(bg, "a", 10, 1))
		must(t)(m.Control(bg, "a", web.ReplayControl{Paused: ptr(true), Position: ptr(50.0)}))
		wait(time.Second)
		if !slices.Equal(lib.fed, every(10, 50)) || lib.opened != 1 {
			t.Errorf("forward: opened %d times, fed up to %g s, want once and 50", lib.opened, lib.fed[len(lib.fed)-1])
		}
		must(t)(m.Control(bg, "a", web.ReplayControl{Position: ptr(20.0)}))
		wait(time.Second)
		if !slices.Equal(lib.fed, every(10, 20)) || lib.opened != 2 {
			t.Errorf("back: opened %d times, fed up to %g s, want twice and 20", lib.opened, lib.fed[len(lib.fed)-1])
		}
		if got := must(t)(m.Control(bg, "a", web.ReplayControl{})); got.Position != 20 || !got.Paused {
			t.Errorf("it stands at %+v, want 20 s and still paused", got)
		}
		for _, c := range []web.ReplayControl{{Pace: ptr(0.2)}, {Pace: ptr(9.0)}, {Pace: ptr(math.NaN())},
			{Position: ptr(-1.0)}, {Position: ptr(math.NaN())}} {
			if _, err := m.Control(bg, "a", c); err == nil {
				t.Errorf("%+v was taken", c)
			}
		}
		if got := must(t)(m.Control(bg, "a", web.ReplayControl{Position: ptr(1e9)})); got.Position != 100 {
			t.Errorf("past its end it stands at %g s, want 100", got.Position)
		}
	})
}

func TestLongSilenceIsLeftOut(t *testing.T) {
	lib := &reelOf{places: append(every(10, 5), 3605, 3606)}
	playing(t, lib, &stage{viewers: 1}, func(m *replay.Manager) {
		must(t)(m.Start(bg, "a", 0, 1))
		wait(5*time.Second + 3*time.Second + 100*time.Millisecond)
		if last := lib.fed[len(lib.fed)-1]; last != 3605 {
			t.Errorf("an hour's silence: %g s was fed last, want 3605 three seconds after what came before", last)
		}
	})
}

func TestAtItsEndItStandsAndBeginsAnew(t *testing.T) {
	lib, s := &reelOf{places: every(10, 5)}, &stage{viewers: 1}
	playing(t, lib, s, func(m *replay.Manager) {
		must(t)(m.Start(bg, "a", 0, 1))
		wait(10 * time.Second)
		if got := must(t)(m.Control(bg, "a", web.ReplayControl{})); !got.Over || got.Position != 5 {
			t.Errorf("at its end it stands at %+v", got)
		}
		if told := of[*message.Station](s); len(told) == 0 || !told[len(told)-1].Replay.Over {
			t.Error("the viewers were not told that it is over")
		}
		must(t)(m.Control(bg, "a", web.ReplayControl{Paused: ptr(false)}))
		wait(2 * time.Second)
		if got := must(t)(m.Control(bg, "a", web.ReplayControl{})); got.Over || got.Position != 2 {
			t.Errorf("2 s after it was begun again it stands at %+v", got)
		}
	})
}

func TestNobodyLooks(t *testing.T) {
	s := &stage{viewers: 1}
	playing(t, &reelOf{places: every(10, 1000)}, s, func(m *replay.Manager) {
		must(t)(m.Start(bg, "a", 0, 1))
		wait(3 * time.Minute)
		if len(m.List(bg)) != 1 {
			t.Fatal("it ended while somebody looked")
		}
		s.mu.Lock()
		s.viewers = 0
		s.mu.Unlock()
		wait(62 * time.Second)
		if len(m.List(bg)) != 0 {
			t.Error("a minute after the last one left it still plays")
		}
		if told := of[*message.Station](s); told[len(told)-1].Link != "gone" {
			t.Error("its station is not gone")
		}
		if _, err := m.Control(bg, "a", web.ReplayControl{}); err == nil {
			t.Error("it is still there")
		}
	})
}

func TestBounds(t *testing.T) {
	playing(t, &reelOf{places: every(10, 1000)}, &stage{viewers: 1}, func(m *replay.Manager) {
		for _, id := range []string{"a", "b", "c", "d", "e", "f", "g", "h"} {
			must(t)(m.Start(bg, id, 0, 1))
		}
		var p *guard.Problem
		if _, err := m.Start(bg, "i", 0, 1); !errors.As(err, &p) || p.Status != 429 {
			t.Errorf("the ninth: %v, want to be told to stop one", err)
		}
		must(t)(m.Start(bg, "a", 5, 2)) // one that is there
		must(t)(m.Control(bg, "b", web.ReplayControl{Stop: true}))
		synctest.Wait()
		must(t)(m.Start(bg, "i", 0, 1))
	})
}

// flight is a recorded wing-over, flown in a flight-dynamics library; see coach/session.
const flight = "../../coach/session/testdata/flights/wo-turboprop-b-good-1.pcap.gz"

// recorded finds the recording of any session.
func recorded(t testing.TB, files ...string) replay.Files {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	card, err := lib.Card("wing-over")
	if err != nil {
		t.Fatal(err)
	}
	plan := plan.New(card, &aircraft.Aircraft{Name: "turboprop-b", Stall: 66, Entry: 155, Apex: 112})
	return replay.Files{Find: func(string) (replay.Recording, error) {
		rec, err := play.Open(context.Background(), files[0])
		if err != nil {
			return replay.Recording{}, err
		}
		rec.Files = files
		return replay.Recording{Recording: rec, Following: play.Following{Options: session.Options{
			Coach: judge.Options{Plan: plan},
		}}}, nil
	}}
}

// TestReplayIsAsFlown holds that what a viewer sees is what the session code makes of the
// recording, from the beginning and from the middle on.
func TestReplayIsAsFlown(t *testing.T) {
	lib := recorded(t, flight)
	direct := &stage{}
	take, err := lib.Open("a", "x", direct)
	if err != nil {
		t.Fatal(err)
	}
	end := 0.0
	for {
		place, err := take.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		end = place
		take.Feed()
	}
	take.End("the recording ended")
	legs, words := of[message.Leg](direct), of[message.Callout](direct)
	if len(legs) == 0 || len(words) == 0 {
		t.Fatal("the recording has no leg or nothing was said")
	}
	for _, from := range []float64{0, 10, end - 8} {
		s := &stage{viewers: 1}
		playing(t, lib, s, func(m *replay.Manager) {
			must(t)(m.Start(bg, "a", from, 8))
			wait(time.Duration(end/8+5) * time.Second)
		})
		if len(s.shown) != 1 {
			t.Errorf("from %g s: %d scenes were shown, want one", from, len(s.shown))
		}
		again, said := of[message.Leg](s), of[message.Callout](s)
		if d := cmp.Diff(last(legs, len(again)), again); d != "" || len(again) == 0 {
			t.Errorf("from %g s %d legs came again, other ones (-flown +replayed):\n%s", from, len(again), d)
		}
		if d := cmp.Diff(last(words, len(said)), said); d != "" {
			t.Errorf("from %g s other things were said (-flown +replayed):\n%s", from, d)
		}
		if from == 0 && (len(said) != len(words) || len(again) != len(legs)) {
			t.Errorf("%d of %d callouts and %d of %d legs came again", len(said), len(words), len(again), len(legs))
		}
	}
}

// last returns the last n, all where there are fewer.
func last[T any](all []T, n int) []T { return all[max(0, len(all)-n):] }

// TestDamage holds that a recording cut off is played to where it is cut.
func TestDamage(t *testing.T) {
	data, err := os.ReadFile(flight)
	if err != nil {
		t.Fatal(err)
	}
	cut := filepath.Join(t.TempDir(), "cut.pcap.gz")
	if err := os.WriteFile(cut, data[:len(data)/2], 0o600); err != nil {
		t.Fatal(err)
	}
	whole, err := recorded(t, flight).Length(bg, "a")
	if err != nil {
		t.Fatal(err)
	}
	half, err := recorded(t, cut).Length(bg, "a")
	if err != nil || half < whole/4 || half > whole*3/4 {
		t.Fatalf("half of the %g s file lasts %g s (%v)", whole, half, err)
	}
	s := &stage{viewers: 1}
	playing(t, recorded(t, cut), s, func(m *replay.Manager) {
		must(t)(m.Start(bg, "a", half-1, 1))
		wait(5 * time.Second)
		if got := m.List(bg); len(got) != 1 || !got[0].Over {
			t.Errorf("past the cut: %+v, want it to stand at its end", got)
		}
	})
	if _, err := recorded(t, "no such file").Length(bg, "a"); err == nil {
		t.Error("a file that is not there has a length")
	}
}
