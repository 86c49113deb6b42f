package tenures

import (
	"fmt"
	"strings"
	"testing"
	"time"
)

// lines are datagrams of one letter each.
func lines(letters string) (list []Held) {
	for i, r := range letters {
		list = append(list, Held{[]byte(string(r)), time.Unix(int64(i), 0)})
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
		r := Ring{Most: 1 << 20}
		for _, d := range lines(c.held) {
			r.Add(d.Bytes, d.Received)
		}
		got := ""
		for _, d := range r.From(r.After(lines(c.tail))) {
			got += string(d.Bytes)
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
	r := Ring{Most: 1 << 20}
	for _, d := range lines("wxyz") {
		r.Add(d.Bytes, d.Received)
	}
	if got := r.From(r.After([]Held{{[]byte("a"), time.Unix(1, 0)}})); len(got) != 2 {
		t.Errorf("nothing is alike: %d follow by the clock; must be 2", len(got))
	}
}

// TestRingBounded: however much comes, no more than the limit is held, and places in it stay the same.
func TestRingBounded(t *testing.T) {
	r := Ring{Most: 10_000}
	for i := range 100_000 {
		r.Add(fmt.Appendf(nil, "%06d", i), time.Unix(int64(i), 0))
		if r.size > r.Most || cap(r.list) > 2*len(r.list)+1024 {
			t.Fatalf("%d bytes in %d places", r.size, cap(r.list))
		}
	}
	at := r.After([]Held{{[]byte("099990"), time.Time{}}})
	r.Add([]byte("end"), time.Time{})
	if got := r.From(at); len(got) != 10 || string(got[0].Bytes) != "099991" {
		t.Errorf("%d follow, from %q", len(got), got[0].Bytes)
	}
	r.Trim(time.Unix(99_998, 0))
	if got := r.From(at); len(got) != 3 || string(got[0].Bytes) != "end" && string(got[0].Bytes) != "099998" {
		t.Errorf("%d follow what came before a time, from %q", len(got), got[0].Bytes)
	}
}
