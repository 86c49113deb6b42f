package node

import (
	"fmt"
	"net/netip"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach/playback"
	"halfturn/web/cluster/flow"
	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
)

// lines are datagrams of one letter each.
func lines(letters string) (list []held) {
	for i, r := range letters {
		list = append(list, held{[]byte(string(r)), time.Unix(int64(i), 0)})
	}
	return list
}

// TestAfter: a standby finds where its datagrams go on after those that were recorded elsewhere, whichever of the two
// lost some, and also where some are alike.
func TestAfter(t *testing.T) {
	for _, c := range []struct{ name, held, tail, rest string }{
		{"the same", "abcdef", "abcd", "ef"},
		{"all is recorded", "abcd", "abcd", ""},
		{"nothing is recorded", "abcd", "", "abcd"},
		{"the ring begins later", "cdef", "abcd", "ef"},
		{"the ring lost the last one", "abcef", "abcd", "ef"},
		{"the ring lost some before", "adef", "abcd", "ef"},
		{"the recorder lost some", "abcdef", "abd", "ef"},
		{"alike, of a simulator that stands", "aaaabcb", "aaaab", "cb"},
		{"alike, told by those before", "xaybzac", "xa", "ybzac"},
		{"alike everywhere: the latest", "aaaa", "aa", "aa"},
	} {
		r := ring{most: 1 << 20}
		for _, d := range lines(c.held) {
			r.add(d.bytes, d.received)
		}
		got := ""
		for _, d := range r.from(r.after(lines(c.tail))) {
			got += string(d.bytes)
		}
		if c.name == "alike everywhere: the latest" {
			if !strings.HasSuffix("aaaa", got) {
				t.Errorf("%s: goes on with %q", c.name, got)
			}
			continue
		}
		if got != c.rest {
			t.Errorf("%s: goes on with %q; must be %q", c.name, got, c.rest)
		}
	}
	r := ring{most: 1 << 20}
	for _, d := range lines("wxyz") {
		r.add(d.bytes, d.received)
	}
	if got := r.from(r.after([]held{{[]byte("a"), time.Unix(1, 0)}})); len(got) != 2 {
		t.Errorf("nothing is alike: %d follow by the clock; must be 2", len(got))
	}
}

// TestRingBounded: however much comes, no more than the limit is held, and places in it stay the same.
func TestRingBounded(t *testing.T) {
	r := ring{most: 10_000}
	for i := range 100_000 {
		r.add(fmt.Appendf(nil, "%06d", i), time.Unix(int64(i), 0))
		if r.size > r.most || cap(r.list) > 2*len(r.list)+1024 {
			t.Fatalf("%d bytes in %d places", r.size, cap(r.list))
		}
	}
	at := r.after([]held{{[]byte("099990"), time.Time{}}})
	r.add([]byte("end"), time.Time{})
	if got := r.from(at); len(got) != 10 || string(got[0].bytes) != "099991" {
		t.Errorf("%d follow, from %q", len(got), got[0].bytes)
	}
	r.trim(time.Unix(99_998, 0))
	if got := r.from(at); len(got) != 3 || string(got[0].bytes) != "end" && string(got[0].bytes) != "099998" {
		t.Errorf("%d follow what came before a time, from %q", len(got), got[0].bytes)
	}
}

// TestFlownElsewhere: what was heard of a session that is over is not coached again with the next one.
func TestFlownElsewhere(t *testing.T) {
	h := &hearing{name: "A", ring: ring{most: 1 << 20}}
	other := &hearing{name: "B", ring: ring{most: 1 << 20}}
	n := &Node{heard: map[*hearing]struct{}{h: {}, other: {}}}
	for _, d := range lines("abcdefgh") {
		h.ring.add(d.bytes, d.received)
		other.ring.add(d.bytes, d.received)
	}
	n.flownElsewhere("A", lines("abcde"))
	n.flownElsewhere("A", nil)
	if got := h.ring.from(h.coached); len(got) != 3 || string(got[0].bytes) != "f" || other.coached != 0 {
		t.Errorf("%d are left, and of another station %d were taken out", len(got), other.coached)
	}
}

// A script is a record as a node makes it: one record of one letter in each batch.
func script(fence uint64, node, tenure string, after *point, letters string) (list []told) {
	o := opening{
		Comment: playback.Opening{Session: "s", Station: "A"}.Comment(),
		Tenure:  tenure,
		Node:    node,
		After:   after,
		From:    "192.0.2.1:1",
		To:      "192.0.2.2:2",
	}
	for i, r := range letters {
		b := &flow.Batch{Station: "A", Fence: fence, Number: uint64(i + 1), Session: "s"}
		if i == 0 {
			b.Records = append(b.Records, link.Record{Type: link.RecordOpening, Bytes: encoded(o)})
		}
		kind := link.RecordDatagram
		if r == '.' {
			kind = link.RecordEnd
		}
		b.Records = append(b.Records, link.Record{Type: kind, Received: int64(i), Bytes: []byte(string(r))})
		b.Events = append(b.Events, flow.Event{ID: node + string(r)})
		list = append(list, told{node: node, batch: b, size: 10})
	}
	return list
}

// stored is a record as the store has it, which does not say whose a batch is.
func stored(all ...[]told) (list []told) {
	for _, s := range all {
		for _, t := range s {
			list = append(list, told{batch: t.batch})
		}
	}
	return list
}

func words(t *testing.T, f *flight, err error) string {
	t.Helper()
	if err != nil {
		return err.Error()
	}
	var s strings.Builder
	to := netip.MustParseAddrPort("192.0.2.2:2")
	err = f.each(func(d *practice.Datagram, head bool) {
		if d.To != to || head {
			t.Errorf("%s: %+v", d.Bytes, d)
		}
		s.Write(d.Bytes)
	})
	if f.over {
		s.WriteString(" over")
	}
	if err != nil {
		return err.Error()
	}
	return s.String()
}

// carriedBy is batches of a tenure as another node keeps them.
func carriedBy(node string, list []told, tenure string) (out []told) {
	for _, t := range list {
		c := carried{at: point{tenure, t.batch.Number}, batch: t.batch}
		out = append(out, told{node, c.carry(0), t.size})
	}
	return out
}

// TestRecent: what may not be kept is what was told since the last batch that is known to be kept, and is bounded.
func TestRecent(t *testing.T) {
	var r recent
	for i := range uint64(10) {
		r.add(point{"t", i + 1}, &flow.Batch{Number: i + 1}, 1<<20)
	}
	if r.drop(nil); len(r.list) != 10 {
		t.Errorf("%d batches; nothing was kept of 10", len(r.list))
	}
	if r.drop(&point{"other", 3}); len(r.list) != 10 {
		t.Errorf("%d batches; nothing was kept of this tenure's 10", len(r.list))
	}
	if r.drop(&point{"t", 7}); len(r.list) != 3 || r.list[0].at.Number != 8 || r.size != 3*r.list[0].size {
		t.Errorf("%+v, %d bytes", r.list, r.size)
	}
	r.add(point{"u", 1}, &flow.Batch{Number: 1}, 1<<20)
	if r.drop(&point{"u", 1}); len(r.list) != 0 || r.size != 0 {
		t.Errorf("%d batches are left that are kept, %d bytes", len(r.list), r.size)
	}
	for i := range uint64(1000) {
		if r.add(point{"v", i + 1}, &flow.Batch{Number: i + 1}, 1000); r.size > 1000 {
			t.Fatalf("%d bytes", r.size)
		}
	}
}

// TestRecord: the record of a session is put together from what is kept and what was told, over nodes that went on
// with it, without what came after the place where one went on.
func TestRecord(t *testing.T) {
	a := script(1, "a", "ta", nil, "abcd")
	b := script(2, "b", "tb", &point{"ta", 3}, "xy")
	unfenced := func(list []told) (out []told) {
		for _, t := range list {
			c := *t.batch
			c.Fence = 0
			out = append(out, told{t.node, &c, t.size})
		}
		return out
	}
	// Node c goes on after b, which told xy and was lost before anything of it was kept, as was d of a.
	after := append(carriedBy("c", a[2:3], "ta"), carriedBy("c", b, "tb")...)
	after = append(after, script(3, "c", "tc", &point{"tb", 2}, "z")...)
	for i := range after {
		after[i].batch.Fence, after[i].batch.Number = 3, uint64(i+1)
	}
	// Node b takes a for dead, and leaves the station to it again; a goes on under another lease.
	x := script(2, "b", "tb", &point{"ta", 2}, "xy")
	again := script(3, "a", "ta2", &point{"ta", 3}, "uv")
	both := slices.Concat(a[:2], x[:2], a[2:3], again)
	for _, c := range []struct {
		name        string
		kept, heard []told
		want        string
	}{
		{"the end of two nodes is kept by a third", stored(a[:2], after), nil, "abcxyz"},
		{"the same, told", stored(a[:2]), after, "abcxyz"},
		{"kept twice", stored(a[:3], after), nil, "abcxyz"},
		{"all is kept by the third", stored(append(carriedBy("c", a[:3], "ta"), after[1:]...)), nil, "abcxyz"},
		{"all is kept", stored(a), nil, "abcd"},
		{"nothing is kept", nil, a, "abcd"},
		{"the end was told", stored(a[:2]), a[1:], "abcd"},
		{"the end was told before there was a lease", stored(a[:2]), unfenced(a[1:]), "abcd"},
		{"told twice", stored(a[:3]), append(a[2:3:3], a[2:]...), "abcd"},
		{"told again from its beginning", nil, append(a[:2:2], a...), "abcd"},
		{"a gap in what was told", stored(a[:1]), a[2:], "a"},
		{"two nodes", stored(a, b), nil, "abcxy"},
		{"two nodes, of which one was told", stored(a), unfenced(b), "abcxy"},
		{"two nodes, one after the other, told", nil, append(a[:3:3], b...), "abcxy"},
		{"a gap before the second node", stored(a[:2], b), nil,
			"the record has a gap: batch 3 of another node is missing"},
		{"two nodes at once, of which the first goes on, told", nil, slices.Concat(a[:2], x[:2], a[2:]), "abcd"},
		{"two nodes at once, and the first took the lease again", nil, both, "abcuv"},
		{"the same, of which the first is kept", stored(a[:3], again), both, "abcuv"},
		{"the same, kept by both", stored(a[:2], x[:1], carriedBy("a", a[2:3], "ta"), again), nil, "abcuv"},
		{"over", stored(script(1, "a", "ta", nil, "ab.")), nil, "ab over"},
		{"no beginning", stored(a[1:]), nil, errNoRecord.Error()},
		{"nothing", nil, nil, errNoRecord.Error()},
	} {
		f, err := flown(joined(parts(c.kept), parts(c.heard)))
		if got := words(t, f, err); got != c.want {
			t.Errorf("%s: %q; must be %q", c.name, got, c.want)
		}
		two := err == nil && strings.Contains(c.want, "x")
		if two && (!f.published["bx"] || !f.published["ac"] || f.published["ad"]) {
			t.Errorf("%s: published are %v", c.name, f.published)
		}
	}
}

// TestHeardBounded: what is heard of a record is bounded, and forgotten with the next session.
func TestHeardBounded(t *testing.T) {
	var r heardRecord
	for i := range 1000 {
		r.add(told{"a", &flow.Batch{Session: "s", Number: uint64(i)}, 100}, 5000)
		if r.size > 5000 || len(r.batches) > 50 {
			t.Fatalf("%d bytes in %d batches", r.size, len(r.batches))
		}
	}
	r.add(told{"a", &flow.Batch{Session: "next"}, 100}, 5000)
	if len(r.batches) != 1 || r.size != 100 {
		t.Errorf("%d batches, %d bytes", len(r.batches), r.size)
	}
}
