package tenures_test

import (
	"slices"
	"strings"
	"testing"

	"halfturn/web/cluster/tenures"
	"halfturn/web/cluster/tenures/tenurestest"
)

// stored is a record as the store has it, which does not say whose a batch is.
func stored(all ...[]tenures.Told) (list []tenures.Told) {
	for _, s := range all {
		for _, t := range s {
			list = append(list, tenures.Told{Batch: t.Batch})
		}
	}
	return list
}

// carriedBy is batches of a tenure as another node keeps them.
func carriedBy(node string, list []tenures.Told, tenure string) (out []tenures.Told) {
	for _, t := range list {
		c := tenures.Carried{At: tenures.Point{tenure, t.Batch.Number}, Batch: t.Batch}
		out = append(out, tenures.Told{node, c.Carry(0), t.Size})
	}
	return out
}

// TestRecord: the record of a session is put together from what is kept and what was told, over nodes that went on
// with it, without what came after the place where one went on.
func TestRecord(t *testing.T) {
	a := tenurestest.Script(1, "a", "ta", nil, "abcd")
	b := tenurestest.Script(2, "b", "tb", &tenures.Point{"ta", 3}, "xy")
	unfenced := func(list []tenures.Told) (out []tenures.Told) {
		for _, t := range list {
			c := *t.Batch
			c.Fence = 0
			out = append(out, tenures.Told{t.Node, &c, t.Size})
		}
		return out
	}
	// Node c goes on after b, which told xy and was lost before anything of it was kept, as was d of a.
	after := append(carriedBy("c", a[2:3], "ta"), carriedBy("c", b, "tb")...)
	after = append(after, tenurestest.Script(3, "c", "tc", &tenures.Point{"tb", 2}, "z")...)
	for i := range after {
		after[i].Batch.Fence, after[i].Batch.Number = 3, uint64(i+1)
	}
	// Node b takes a for dead, and leaves the station to it again; a goes on under another lease.
	x := tenurestest.Script(2, "b", "tb", &tenures.Point{"ta", 2}, "xy")
	again := tenurestest.Script(3, "a", "ta2", &tenures.Point{"ta", 3}, "uv")
	both := slices.Concat(a[:2], x[:2], a[2:3], again)
	for _, c := range []struct {
		name        string
		kept, heard []tenures.Told
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
		{"over", stored(tenurestest.Script(1, "a", "ta", nil, "ab.")), nil, "ab over"},
		{"no beginning", stored(a[1:]), nil, tenures.ErrNoRecord.Error()},
		{"nothing", nil, nil, tenures.ErrNoRecord.Error()},
	} {
		f, err := tenures.Join(c.kept, c.heard)
		if got := tenurestest.Words(t, f, err); got != c.want {
			t.Errorf("%s: %q; must be %q", c.name, got, c.want)
		}
		two := err == nil && strings.Contains(c.want, "x")
		if two && (!f.Published["bx"] || !f.Published["ac"] || f.Published["ad"]) {
			t.Errorf("%s: published are %v", c.name, f.Published)
		}
	}
}
