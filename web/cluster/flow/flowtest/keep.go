package flowtest

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// What is read is what was kept, whatever it holds.
func testBatchesComeBack(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	in := []*flow.Batch{
		{},
		{Events: []flow.Event{{ID: "\xff\x00", Seq: 1 << 60, Run: "ü", Body: []byte(`{"a":"\u0000"}`)}, {}}},
		{Records: []link.Record{{Type: link.RecordEnd, Bytes: []byte("s1")}}},
		batch(l, 0),
		{Records: []link.Record{{
			Type:     link.RecordDatagram,
			Received: -1,
			Bytes:    bytes.Repeat([]byte{0xa5, 0}, (flow.MostBytes-1000)/2),
		}}},
	}
	for i, b := range in {
		b.Station, b.Fence, b.Number, b.Session = l.Station, l.Fence, uint64(i+1), "s1"
		must(t, north.Keep(soon(t), b))
	}
	n := 0
	must(t, south.Read(soon(t), "Seat 1", "s1", func(b *flow.Batch) error {
		if n >= len(in) || !bytes.Equal(encoded(t, b), encoded(t, in[n])) {
			t.Errorf("batch %d is read as %.1000v", n+1, b)
		}
		n++
		return nil
	}))
	if n != len(in) {
		t.Errorf("%d batches are read; must be %d", n, len(in))
	}
}

func encoded(t *testing.T, b *flow.Batch) []byte {
	t.Helper()
	text, err := flow.EncodeBatch(b)
	must(t, err)
	return text
}

// The same batch again is kept once, also when others were kept after it.
func testSameBatch(t *testing.T, join Joiner) {
	north := join("north")
	l := claim(t, north, none("Seat 1"), "s1")
	other := claim(t, north, none("Seat 2"), "s2")
	keep(t, north, l, 1, 1, 2, 2, 1, 3)
	keep(t, north, other, 1, 1)
	if got := read(t, north, "Seat 1", "s1"); len(got) != 3 {
		t.Errorf("kept: %q", got)
	}
	if got := read(t, north, "Seat 2", "s2"); len(got) != 1 {
		t.Errorf("kept of the other station: %q", got)
	}
	l = claim(t, north, l, "s1")
	keep(t, north, l, 1) // another lease, so another batch
	if got := read(t, north, "Seat 1", "s1"); len(got) != 4 {
		t.Errorf("kept after the renewal: %q", got)
	}
}

// Keep fails when the lease was taken over, whether or not the batch is there.
func testSameBatchTaken(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	keep(t, north, l, 1)
	claim(t, south, l, "s1")
	taken(t, "a batch that is there", north.Keep(soon(t), batch(l, 1)))
	taken(t, "a batch that is not", north.Keep(soon(t), batch(l, 2)))
	if got := read(t, south, "Seat 1", ""); len(got) != 1 {
		t.Errorf("kept: %q", got)
	}
}

// Keep fails when the fence is not that of the last lease.
func testKeepStale(t *testing.T, join Joiner) {
	north := join("north")
	first := claim(t, north, none("Seat 1"), "s1")
	last := claim(t, north, first, "s1")
	for name, fence := range map[string]uint64{
		"none":        0,
		"the first":   first.Fence,
		"one to come": last.Fence + 1,
	} {
		l := last
		l.Fence = fence
		taken(t, "under "+name, north.Keep(soon(t), batch(l, 1)))
	}
	if got := read(t, north, "Seat 1", ""); len(got) != 0 {
		t.Errorf("kept: %q", got)
	}
}

func testKeepUnclaimed(t *testing.T, join Joiner) {
	north := join("north")
	other := claim(t, north, none("Seat 2"), "s1")
	for _, fence := range []uint64{0, other.Fence, other.Fence + 1} {
		l := flow.Lease{Station: "Seat 1", Fence: fence, Session: "s1"}
		taken(t, fmt.Sprint("under ", fence), north.Keep(soon(t), batch(l, 1)))
	}
}

// Whatever a holder keeps without a pause, its lease can be taken over, and nothing of it is kept after that.
func testKeepAgainstClaimer(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	under, ended := make(chan uint64, 1), make(chan uint64)
	go func() {
		kept := uint64(0)
		for {
			if err := north.Keep(soon(t), batch(l, kept+1)); err != nil {
				if !errors.Is(err, flow.ErrTaken) {
					t.Error(err)
				}
				ended <- kept
				return
			}
			if kept++; kept == 20 {
				under <- kept
			}
		}
	}()
	select {
	case <-under:
	case <-soon(t).Done():
		t.Fatal("nothing is kept")
	}
	over := claim(t, south, l, "s1")
	keep(t, south, over, 1, 2)
	kept := <-ended
	got := read(t, south, "Seat 1", "s1")
	if n := len(got) - 2; n < int(kept) {
		t.Errorf("%d batches were kept, %d are there", kept, n)
	}
	if i := slices.Index(got, fmt.Sprintf("s1 %d.1", over.Fence)); i != len(got)-2 {
		t.Errorf("the successor's batches are not last: %q", got[max(0, len(got)-5):])
	}
}

// What is longer than an engine can carry is refused, and what comes after it is kept.
func testTooLong(t *testing.T, join Joiner) {
	north := join("north")
	l := claim(t, north, none("Seat 1"), "s1")
	long := batch(l, 1)
	long.Records[0].Bytes = make([]byte, flow.MostBytes)
	if err := north.Keep(soon(t), long); !errors.Is(err, flow.ErrTooLong) {
		t.Error(err)
	}
	if _, err := north.Ask(soon(t), "north", long.Records[0].Bytes[:flow.MostBytes]); err == nil {
		t.Error("nobody answers")
	}
	if _, err := north.Ask(soon(t), "north", make([]byte, flow.MostBytes+1)); !errors.Is(err, flow.ErrTooLong) {
		t.Error(err)
	}
	north.Tell(flow.Live, "Seat 1", make([]byte, flow.MostBytes+1))
	keep(t, north, l, 1)
}

// names are stations that an engine could confuse, or not be able to name.
var names = []string{
	"a", "A", "a.b", "a b", "a.*", "*", ">", "a.>", "a/b", "a=2Eb", "=", "_", "-", "", " ", "$JS.API", "\xff", "\x00",
	"Zürich", "Zu\u0308rich", "座席",
	strings.Repeat("n", 300), strings.Repeat("n", 301), strings.Repeat("ü", 300),
}

// Stations have nothing to do with each other, whatever their names, and neither do sessions.
func testStationsApart(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	for _, name := range names {
		l := claim(t, north, none(name), "s"+name)
		keep(t, north, l, 1, 2)
	}
	for _, name := range names {
		l := holder(t, south, name)
		if l.Station != name || l.Session != "s"+name {
			t.Errorf("%.20q: %+v", name, l)
		}
		if got := read(t, south, name, l.Session); len(got) != 2 || !strings.HasPrefix(got[1], "s"+name+" ") {
			t.Errorf("%.20q: %.100q", name, got)
		}
	}
	held := 0
	must(t, north.Held(soon(t), func(flow.Lease) error { held++; return nil }))
	if held != len(names) {
		t.Errorf("%d stations have leases; must be %d", held, len(names))
	}
}

// sessions keeps three sessions of a station, two batches each, and a fourth at rest.
func sessions(t *testing.T, e flow.Engine, station string) (last flow.Lease, said []string) {
	t.Helper()
	last = none(station)
	for _, session := range []string{"s1", "s2", "", "s3"} {
		last = claim(t, e, last, session)
		keep(t, e, last, 1, 2)
		for n := range 2 {
			said = append(said, fmt.Sprintf("%s %d.%d", session, last.Fence, n+1))
		}
	}
	return last, said
}

// Read begins with the first batch of a session, and goes on with those after it. Of a session that is not there
// nothing is read.
func testReadFrom(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	sessions(t, north, "Seat 2")
	last, said := sessions(t, north, "Seat 1")
	over := claim(t, south, last, "s3") // goes on with the session
	keep(t, south, over, 1)
	said = append(said, fmt.Sprintf("s3 %d.1", over.Fence))
	for session, from := range map[string]int{"": 0, "s1": 0, "s2": 2, "s3": 6, "s4": len(said)} {
		if d := cmp.Diff(said[from:], read(t, north, "Seat 1", session), cmpopts.EquateEmpty()); d != "" {
			t.Errorf("from %q (-kept +read):\n%s", session, d)
		}
	}
	if got := read(t, north, "Seat 3", ""); len(got) != 0 {
		t.Errorf("of a station without a record: %q", got)
	}
	next := *batch(over, 2)
	next.Session = "s5" // begins under the lease of another
	must(t, south.Keep(soon(t), &next))
	if got := read(t, north, "Seat 1", "s5"); len(got) != 1 {
		t.Errorf("from a session under the same lease: %q", got)
	}
}

// Read ends with the last batch that was kept when it was called.
func testReadEnds(t *testing.T, join Joiner) {
	north := join("north")
	l := claim(t, north, none("Seat 1"), "s1")
	keep(t, north, l, 1, 2)
	n := uint64(0)
	must(t, north.Read(soon(t), "Seat 1", "s1", func(*flow.Batch) error {
		n++
		return north.Keep(soon(t), batch(l, 2+n))
	}))
	if n != 2 {
		t.Errorf("%d batches are read; must be 2", n)
	}
	if got := read(t, north, "Seat 1", "s1"); len(got) != 4 {
		t.Errorf("kept: %q", got)
	}
}

// The error of each ends Read.
func testReadIsEnded(t *testing.T, join Joiner) {
	north := join("north")
	sessions(t, north, "Seat 1")
	enough, n := errors.New("enough"), 0
	err := north.Read(soon(t), "Seat 1", "", func(*flow.Batch) error {
		if n++; n == 3 {
			return enough
		}
		return nil
	})
	if !errors.Is(err, enough) || n != 3 {
		t.Errorf("%v after %d", err, n)
	}
}

// Drop removes what was kept before a session, of one station, and no lease.
func testDrop(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	_, others := sessions(t, north, "Seat 2")
	last, said := sessions(t, north, "Seat 1")
	for _, c := range []struct {
		session string
		left    int
	}{{"s4", 8}, {"s1", 8}, {"s2", 6}, {"s2", 6}, {"s3", 2}, {"s1", 2}, {"", 0}, {"s3", 0}} {
		must(t, south.Drop(soon(t), "Seat 1", c.session))
		if d := cmp.Diff(said[len(said)-c.left:], read(t, north, "Seat 1", ""), cmpopts.EquateEmpty()); d != "" {
			t.Errorf("what was before %q is dropped (-left +read):\n%s", c.session, d)
		}
	}
	if got := holder(t, south, "Seat 1"); got != last {
		t.Errorf("%+v; must be %+v", got, last)
	}
	keep(t, north, last, 2, 3) // 2 was kept, and dropped
	if got := read(t, north, "Seat 1", ""); !slices.Contains(got, fmt.Sprintf("s3 %d.3", last.Fence)) {
		t.Errorf("kept after it: %q", got)
	}
	if d := cmp.Diff(others, read(t, north, "Seat 2", "")); d != "" {
		t.Errorf("of the other station (-kept +read):\n%s", d)
	}
	must(t, south.Drop(soon(t), "Seat 3", "s1"), south.Drop(soon(t), "Seat 3", ""))
}

// A session of many batches is read whole and in order.
func testMany(t *testing.T, join Joiner) {
	north, south := join("north"), join("south")
	l := claim(t, north, none("Seat 1"), "s1")
	const many = 300
	for n := range uint64(many) {
		keep(t, north, l, n+1)
	}
	n := uint64(0)
	must(t, south.Read(soon(t), "Seat 1", "s1", func(b *flow.Batch) error {
		if n++; b.Number != n {
			return fmt.Errorf("batch %d is number %d", n, b.Number)
		}
		return nil
	}))
	if n != many {
		t.Errorf("%d batches are read; must be %d", n, many)
	}
}
