package practice

import (
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/stream"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
)

// TestLegsAreKeptAsTheyAreFlown: a leg is in the logbook once it is over, while the session goes on, so that a crash
// costs nothing; and what was there before the end is there after it.
func TestLegsAreKeptAsTheyAreFlown(t *testing.T) {
	b := recordingOn(t, t.TempDir(), new(atomic.Bool))
	s := b.station()
	encoder, err := encode.New("json")
	if err != nil {
		t.Fatal(err)
	}
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "both", Legs: 4})
	if err != nil {
		t.Fatal(err)
	}
	inBook := func(want int) {
		t.Helper()
		for t.Context().Err() == nil {
			if d, err := b.book.Session(t.Context(), s.SessionID()); err == nil && d.Legs >= want {
				if d.Legs > want {
					t.Errorf("%d legs are in the logbook; must be %d", d.Legs, want)
				}
				return
			}
			runtime.Gosched()
		}
	}
	var sample stream.Sample
	began, legs := time.Now().Add(-time.Hour), 0
	for n := 0; pilot.Step(0.05, &sample); n++ {
		s.Datagram(encoder.Append(nil, &sample), began.Add(time.Duration(n)*50*time.Millisecond))
		if s.session.Legs() > legs {
			legs = s.session.Legs()
			inBook(legs)
		}
	}
	if legs != 4 {
		t.Errorf("%d legs were flown; must be 4", legs)
	}
	s.End(true)
	inBook(4)
}
