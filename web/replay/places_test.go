package replay

import (
	"errors"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"halfturn/coach/archive/play"
	"halfturn/coach/logbook"
	"halfturn/stream/capture"
	"halfturn/stream/record"
	"halfturn/web/guard"
)

// TestPacer: places pass as fast as the pace says, and none while it is paused.
func TestPacer(t *testing.T) {
	start := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	after := func(seconds float64) time.Time { return start.Add(time.Duration(seconds * float64(time.Second))) }
	p := pacer{pace: 1, at: start}
	for _, c := range []struct {
		do    func()
		at    float64 // s of the clock
		place float64 // s of the recording
	}{
		{func() {}, 2, 2},
		{func() { p.set(4, false, after(2)) }, 3, 6},
		{func() { p.set(4, true, after(3)) }, 9, 6},
		{func() { p.set(0.5, false, after(9)) }, 11, 7},
		{func() { p.stand(100, after(11)) }, 12, 100.5},
	} {
		c.do()
		if got := p.now(after(c.at)); got != c.place {
			t.Errorf("after %g s it is at %g; must be at %g", c.at, got, c.place)
		}
	}
	if left := p.until(101.5, after(12)); left != 2*time.Second {
		t.Errorf("a place a second away is due in %v at half the pace", left)
	}
	if left := p.until(99, after(12)); left > 0 {
		t.Errorf("a place behind is due in %v", left)
	}
}

// TestNext: of a silence its last three seconds are waited for, and what lies too far behind is not hurried after; a
// fast replay may lie further behind.
func TestNext(t *testing.T) {
	at := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	for name, c := range map[string]struct {
		p           pacer
		place, then float64
	}{
		"soon":              {pacer{pace: 1, place: 10}, 12, 10},
		"after a silence":   {pacer{pace: 1, place: 10}, 1000, 997},
		"a little behind":   {pacer{pace: 1, place: 10}, 9.6, 10},
		"far behind":        {pacer{pace: 1, place: 10}, 9, 9},
		"behind, but fast":  {pacer{pace: 8, place: 10}, 7, 10},
		"behind, and slow":  {pacer{pace: 0.25, place: 10}, 9, 9},
		"paused at silence": {pacer{pace: 1, place: 10, paused: true}, 1000, 10},
	} {
		c.p.at = at
		c.p.next(c.place, at)
		if got := c.p.now(at); got != c.then {
			t.Errorf("%s: it stands at %g; must stand at %g", name, got, c.then)
		}
	}
}

// TestPlaces count from the first datagram; a clock that is set back stands still.
func TestPlaces(t *testing.T) {
	start := time.Date(2031, 5, 4, 9, 0, 7, 0, time.UTC)
	var p places
	for _, c := range []struct{ at, place float64 }{{0, 0}, {1.5, 1.5}, {-3600, 1.5}, {1, 1.5}, {2, 2}} {
		d := capture.Datagram{Received: start.Add(time.Duration(c.at * float64(time.Second)))}
		if got := p.of(&d); got != c.place {
			t.Errorf("at %g s it is in place %g; must be in %g", c.at, got, c.place)
		}
	}
}

// A shelf is sessions in folders.
type shelf map[string]string

func (s shelf) Folder(id string) (string, error) {
	if dir, ok := s[id]; ok {
		return dir, nil
	}
	return "", &logbook.NotFound{ID: id}
}

func (s shelf) Recording(id string) []string {
	parts, _ := record.Parts(s[id])
	return parts
}

// TestSessionsFind: a session without a recording has none, and one that is not there is a problem with its status.
func TestSessionsFind(t *testing.T) {
	whole, empty := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(whole, "stream-0001.pcapng"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	followed := 0
	s := Sessions{
		Book: shelf{"whole": whole, "empty": empty, "gone": filepath.Join(empty, "gone")},
		Follow: func(*play.Recording) (play.Following, error) {
			followed++
			return play.Following{Station: "x"}, nil
		},
	}
	if rec, err := s.Find("whole"); err != nil || rec.Recording == nil || rec.Station != "x" || followed != 1 {
		t.Errorf("%+v, %v, followed %d times", rec, err, followed)
	}
	if rec, err := s.Find("empty"); err != nil || rec.Recording != nil {
		t.Errorf("without a recording: %+v, %v", rec, err)
	}
	if _, err := s.Find("gone"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("a folder that is gone: %v", err)
	}
	var problem *guard.Problem
	if _, err := s.Find("none"); !errors.As(err, &problem) || problem.Status != http.StatusNotFound {
		t.Errorf("no session: %v", err)
	}
	if _, err := (Files{s.Find}).find("empty"); !errors.As(err, &problem) || problem.Status != http.StatusNotFound {
		t.Errorf("nothing to play: %v", err)
	}
}

// TestGrown: the text changes with the files and with the end of the session, and with nothing else.
func TestGrown(t *testing.T) {
	dir := t.TempDir()
	s := Sessions{Book: shelf{"x": dir}}
	seen := map[string]string{}
	for _, step := range []struct {
		name string
		do   func() error
	}{
		{"empty", func() error { return nil }},
		{"begun", func() error { return record.Mark(dir) }},
		{"a part", func() error { return os.WriteFile(filepath.Join(dir, "stream-0001.pcapng"), []byte("x"), 0o600) }},
		{"more of it", func() error {
			return os.WriteFile(filepath.Join(dir, "stream-0001.pcapng"), []byte("xx"), 0o600)
		}},
		{"another", func() error { return os.WriteFile(filepath.Join(dir, "stream-0002.pcapng"), nil, 0o600) }},
		{"over", func() error { return record.Finish(dir) }},
	} {
		if err := step.do(); err != nil {
			t.Fatal(err)
		}
		text := s.Grown("x")
		if before, ok := seen[text]; ok {
			t.Errorf("%s it is what it was %s: %q", step.name, before, text)
		}
		seen[text] = step.name
		if again := s.Grown("x"); again != text {
			t.Errorf("%s it changes by itself", step.name)
		}
	}
	if text := s.Grown("none"); text != "" {
		t.Errorf("of no session there is %q", text)
	}
}
