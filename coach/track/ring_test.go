package track

import (
	"math/rand/v2"
	"testing"

	"halfturn/stream"
)

// What is kept comes back as it was sent, whichever channels a sample has: all but what was derived or refused.
func TestRingGivesBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	var tr Tracker
	var sent []stream.Sample
	for i := range 3 * ringSize {
		var s stream.Sample
		for c := range stream.NumChannels {
			if in := c.Info(); needed.Has(c) || rnd.IntN(3) > 0 {
				s.Put(c, in.Min+rnd.Float64()*(min(in.Max, 1e5)-in.Min))
			}
		}
		s.Put(stream.Time, float64(i)/20)
		s.Magnetic = rnd.IntN(2) == 0
		if !tr.Step(&s) {
			t.Fatal("a sample with all that is needed is passed over")
		}
		sent = append(sent, s)
	}
	if tr.Past.Len() != ringSize {
		t.Fatalf("%d samples kept of %d; must be %d", tr.Past.Len(), len(sent), ringSize)
	}
	for i := range tr.Past.Len() {
		var got stream.Sample
		want := sent[len(sent)-1-i]
		if tr.Past.Sample(i, &got); got != want {
			t.Fatalf("sample %d: %+v was %+v", i, got, want)
		}
		for c := range stream.NumChannels {
			v, ok := tr.Past.Get(i, c)
			if w, has := want.Get(c); v != w || ok != has {
				t.Fatalf("%s of sample %d is %v, %v; must be %v, %v", c, i, v, ok, w, has)
			}
		}
	}
}

// A channel takes room from the first sample that has it, and lacks a value before.
func TestRingKeepsWhatIsSent(t *testing.T) {
	var tr Tracker
	fly(&tr, 20, 5, nil)
	if got := tr.Past.kept.Names(); len(got) != 4 { // heading, airspeed, true airspeed, altitude
		t.Errorf("there is room for %v", got)
	}
	fly(&tr, 20, 1, func(now float64, s *stream.Sample) {
		s.Put(stream.Time, 6+now)
		s.Put(stream.Ball, 0.5)
		s.Put(stream.OnGround, 1)
		s.Magnetic = true
	})
	newest, before := 0, tr.Past.At(5)
	for _, c := range []stream.Channel{stream.Ball, stream.OnGround} {
		if v, ok := tr.Past.Get(before, c); ok || v != 0 {
			t.Errorf("%s was %v before it was sent", c, v)
		}
		if _, ok := tr.Past.Get(newest, c); !ok {
			t.Errorf("%s is lost", c)
		}
	}
	if tr.Past.isMagnetic(before) || !tr.Past.isMagnetic(newest) {
		t.Error("a magnetic heading is magnetic before it was sent, or true after")
	}
}

// Ten samples a second: the sample of a time, and how many there are since.
func TestRingByTime(t *testing.T) {
	var tr Tracker
	fly(&tr, 10, 10, func(now float64, s *stream.Sample) { s.Put(stream.Heading, now) })
	for _, c := range []struct {
		at    float64
		which int
		since int
	}{
		{10, 0, 1},
		{9.95, 1, 1},
		{9.9, 1, 2},
		{5.05, 50, 50},
		{0, 100, 101},
		{-1, 100, 101}, // the oldest there is
		{11, 0, 0},
	} {
		if got := tr.Past.At(c.at); got != c.which {
			t.Errorf("at %g s: sample %d; must be %d", c.at, got, c.which)
		}
		if got := tr.Past.Since(c.at); got != c.since {
			t.Errorf("since %g s: %d samples; must be %d", c.at, got, c.since)
		}
		near(t, "the turn then", tr.Past.TurnedAt(c.at), tr.Past.Time(c.which), 1e-9)
	}
}

// An answer is worked out once per sample and question; the oldest makes room.
func TestRecent(t *testing.T) {
	var m recent[int, int]
	worked := 0
	for _, c := range []struct {
		added  uint64
		asked  int
		worked int
	}{
		{1, 2, 1}, {1, 2, 1}, {1, 3, 2}, {1, 2, 2},
		{2, 2, 3}, {2, 3, 4}, {2, 3, 4}, // another sample
		{2, 4, 5}, {2, 5, 6}, {2, 2, 6}, {2, 6, 7}, {2, 2, 8}, // 2 had to make room
	} {
		k, known := m.find(c.added, c.asked)
		if !known {
			worked++
			k.answer, k.full = c.asked*c.asked, c.asked > 2
		}
		if k.answer != c.asked*c.asked || k.full != (c.asked > 2) || worked != c.worked {
			t.Errorf("%+v: %d, %v, worked out %d times", c, k.answer, k.full, worked)
		}
	}
}

// What was asked for again and again at one sample is the same as when it is asked for once.
func TestMeansAreRemembered(t *testing.T) {
	var tr Tracker
	for i := range 200 {
		fly(&tr, 20, 0, func(_ float64, s *stream.Sample) {
			s.Put(stream.Time, float64(i)/20)
			s.Put(stream.Bank, float64(i%7))
		})
		one, full := tr.Past.Over(tr.Now-2, tr.Now)
		first := *one
		again, fullAgain := tr.Past.Over(tr.Now-2, tr.Now)
		afresh, _ := tr.Past.meansOver(stretch{tr.Now - 2, tr.Now, everything})
		if first != *again || first != afresh || full != fullAgain {
			t.Fatalf("at sample %d the means change as they are asked for", i)
		}
	}
}
