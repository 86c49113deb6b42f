package leg

import (
	"reflect"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/ground"
	"halfturn/stream"
)

func TestCourseIs(t *testing.T) {
	start := Start{Time: 12, Side: 1}
	c := NewCourse(start, 180, ground.Axes{})
	for _, x := range []struct {
		name string
		at   Start
		turn float64
		want bool
	}{
		{"the same", start, 180, true},
		{"another departure", Start{Time: 13, Side: 1}, 180, false},
		{"the other side", Start{Time: 12, Side: -1}, 180, false},
		{"one that ran on from the leg before", Start{Time: 12, Side: 1, Joined: true}, 180, false},
		{"a longer turn, whose trace goes on", start, 360, false},
	} {
		if c.Is(x.at, x.turn) != x.want {
			t.Errorf("%s: %v; must be %v", x.name, !x.want, x.want)
		}
	}
}

func at(turn float64) *check.Moment {
	m := &check.Moment{Turn: turn}
	m.Sample.Put(stream.Time, 100+turn/4)
	m.Sample.Put(stream.Bank, turn/2)
	return m
}

// Two legs on one course: the second comes when the first has been drawn already, and ends earlier. Its trace is that
// of a leg alone, and shares the memory of the other.
func TestCourseIsShared(t *testing.T) {
	var f check.Facts
	alone, shared := NewCourse(Start{}, 180, ground.Axes{}), NewCourse(Start{}, 180, ground.Axes{})
	first, second, single := 0, 0, 0
	draw := func(d *drawing, n *int, from, to float64) {
		for turn := from; turn <= to; turn += 0.5 {
			d.add(at(turn), &f)
			*n = d.upTo(*n, at(turn))
		}
	}
	draw(&shared.drawing, &first, 0, 20)
	draw(&shared.drawing, &second, 0, 20) // it flies through the past
	draw(&shared.drawing, &first, 20.5, 90)
	draw(&shared.drawing, &second, 20.5, 60)
	draw(&alone.drawing, &single, 0, 60)
	if second != 61 || single != 61 || first != 91 {
		t.Fatalf("%d, %d and %d entries; must be 91, 61 and 61", first, second, single)
	}
	long, short := shared.drawing.trace(first), shared.drawing.trace(second)
	if !reflect.DeepEqual(short, alone.drawing.trace(single)) {
		t.Error("the trace of a leg differs when another shares its course")
	}
	if &long[0] != &short[0] || len(long) != first || cap(short) != second {
		t.Error("two legs of one course have a trace each")
	}
	n := 0
	for a := range shared.drawing.entries[:second].Attitudes() {
		if a.Turn != short[n].Turn || a.Bank != short[n].Bank {
			t.Fatalf("entry %d: %+v beside %+v", n, a, short[n])
		}
		n++
	}
	if n != second {
		t.Errorf("%d attitudes; must be %d", n, second)
	}
}

// The record of one moment is made once; that of another at the same turn angle is another.
func TestPointsAreShared(t *testing.T) {
	c := NewCourse(Start{}, 180, ground.Axes{})
	one, same := c.pointOf(at(90)), c.pointOf(at(90))
	other := at(90)
	other.Sample.Put(stream.Bank, 60)
	if reflect.ValueOf(one.Values).Pointer() != reflect.ValueOf(same.Values).Pointer() {
		t.Error("the record of a moment is made twice")
	}
	if got := c.pointOf(other); got.Values["bank"] != 60 || one.Values["bank"] != 45 {
		t.Errorf("bank is %v and %v; must be 60 and 45", got.Values["bank"], one.Values["bank"])
	}
	if _, ok := one.Values["time"]; ok || one.Time != 122.5 || one.Turn != 90 {
		t.Errorf("the point is %+v", one)
	}
}
