package access

import (
	"fmt"
	"testing"
	"time"
)

var noon = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)

// After the free attempts each waits twice as long as the one before, up to a quarter of an hour; a right one clears
// that.
func TestAttempts(t *testing.T) {
	a := attempts{free: 3}
	now := noon
	for n := range 3 {
		if wait := a.begin("ada", now); wait != 0 {
			t.Fatalf("attempt %d waits %v", n, wait)
		}
	}
	for n, want := range []time.Duration{0, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900} {
		want *= time.Second
		if wait := a.begin("ada", now); wait != want {
			t.Errorf("after %d failures it waits %v; must be %v", n+3, wait, want)
		}
		if now = now.Add(want); want > 0 && a.begin("ada", now) != 0 {
			t.Errorf("after %v it waits still", want)
		}
	}
	if wait := a.begin("bo", now); wait != 0 {
		t.Errorf("somebody else waits %v", wait)
	}
	a.right("ada", true)
	if wait := a.begin("ada", now); wait != 0 {
		t.Errorf("after the right password it waits %v", wait)
	}
	a.right("nobody", true)
}

// What was right counts for nothing, and does not forgive what went before where it must not.
func TestRight(t *testing.T) {
	a := attempts{free: 2}
	for range 100 {
		if wait := a.begin("192.0.2.7", noon); wait != 0 {
			t.Fatalf("right attempts wait %v", wait)
		}
		a.right("192.0.2.7", false)
	}
	if len(a.seen) != 0 {
		t.Errorf("%d tallies of right attempts", len(a.seen))
	}
	a.begin("192.0.2.7", noon)
	a.begin("192.0.2.7", noon)
	a.right("192.0.2.7", false)
	if got := a.seen["192.0.2.7"].failed; got != 1 {
		t.Errorf("%d failures are left; must be 1", got)
	}
}

// Somebody who guesses as fast as they may gets this far in a day; a password that is made here has 99 random bits.
func TestGuessedInADay(t *testing.T) {
	for name, c := range map[string]struct{ free, most int }{
		"one account from one address":  {freePerPair, 120},
		"any account from one address":  {freePerAddress, 130},
		"one account from many at once": {freePerAccount, 210},
	} {
		a := attempts{free: c.free}
		tried := 0
		for now := noon; now.Before(noon.Add(24 * time.Hour)); {
			wait := a.begin("x", now)
			if wait == 0 {
				tried++
			}
			now = now.Add(wait)
		}
		t.Logf("%s: %d attempts in a day", name, tried)
		if tried > c.most || tried < c.free {
			t.Errorf("%s: %d attempts in a day; must be at most %d", name, tried, c.most)
		}
	}
}

// The table is bounded, and a flood of names does not push out the one that is being guessed at.
func TestFlood(t *testing.T) {
	a := attempts{free: 1}
	for range 3 {
		a.begin("guessed", noon)
		noon := noon.Add(2 * time.Second)
		a.begin("guessed", noon)
	}
	failed := a.seen["guessed"].failed
	for n := range 2 * mostTallies {
		a.begin(fmt.Sprint("name ", n), noon.Add(time.Duration(n)))
	}
	if len(a.seen) != mostTallies || a.seen["guessed"] == nil || a.seen["guessed"].failed != failed {
		t.Errorf("%d tallies, that of the guessed one is %+v", len(a.seen), a.seen["guessed"])
	}
}
