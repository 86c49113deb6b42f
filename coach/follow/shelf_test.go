package follow

import (
	"reflect"
	"testing"

	"halfturn/coach"
)

// A leg that waits is packed, in its slot and in the series that it is in, and two judges that saw the same share what
// is packed. It is decided as before, and comes back as it was.
func TestShelved(t *testing.T) {
	a := newAuto(t)
	s := &slot{legs: make([]*coach.Leg, len(cardNames))}
	s.legs[gentle], s.legs[steep] = recordOf(0, 10, 40), recordOf(0, 10, 40)
	was := recordOf(0, 10, 40).Trace
	other := recordOf(20, 30, 40)
	open := &coach.Series{Legs: []coach.Leg{*s.legs[gentle], *other}}
	closed := &coach.Series{Legs: []coach.Leg{*s.legs[steep]}}
	a.judges[gentle].SetSeries(open)
	a.held[steep] = []*coach.Series{closed}
	before := a.decide(s)

	for range 2 { // it is looked at again and again while it waits
		a.shelve(s)
	}
	for _, l := range []*coach.Leg{s.legs[gentle], s.legs[steep], &open.Legs[0], &closed.Legs[0]} {
		if l.Trace != nil {
			t.Error("the trace of a leg that waits is kept as it was")
		}
	}
	if len(open.Legs[1].Trace) != len(other.Trace) {
		t.Error("the trace of another leg is gone")
	}
	if &s.packed[gentle][0] != &s.packed[steep][0] {
		t.Error("what two judges saw alike is packed twice")
	}
	if after := a.decide(s); !reflect.DeepEqual(after, before) {
		t.Errorf("while it waits it is decided as %+v, before as %+v", after, before)
	}

	a.unshelve(s, gentle)
	if !reflect.DeepEqual(s.legs[gentle].Trace, was) || !reflect.DeepEqual(open.Legs[0].Trace, was) {
		t.Error("the trace does not come back as it was")
	}
	if s.legs[steep].Trace != nil || closed.Legs[0].Trace != nil {
		t.Error("the trace of another judge came back too")
	}
}

// A leg that another judge reports while the slot waits is packed too, together with those that are alike.
func TestShelvedLater(t *testing.T) {
	a := newAuto(t)
	s := &slot{legs: make([]*coach.Leg, len(cardNames))}
	for _, i := range []int{single, gentle, steep} {
		s.legs[i] = recordOf(0, 10, 40)
		a.shelve(s)
		if s.legs[i].Trace != nil || &s.packed[i][0] != &s.packed[single][0] {
			t.Errorf("the leg of the card %q is not packed with the others", cardNames[i])
		}
	}
}
