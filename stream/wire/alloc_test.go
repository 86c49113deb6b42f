package wire_test

import (
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer/encode"
	"halfturn/stream/wire/wiretest"
)

// In the steady state neither reading nor refusing junk allocates, nor do labels that are sent again, nor a sender that
// changes between formats of which none gives a sample.
func TestNoAllocations(t *testing.T) {
	var s stream.Sample
	for _, name := range encode.Formats() {
		r, b := wiretest.Warm(t, name)
		if n := testing.AllocsPerRun(200, func() { _ = r.Decode(b, 0, &s) }); n != 0 || s.Has == 0 {
			t.Errorf("%s: reading allocates %v times, has %v", name, n, s.Has.Names())
		}
		for what, junk := range junkDatagrams() {
			if n := testing.AllocsPerRun(20, func() { _ = r.Decode(junk, 0, &s) }); n != 0 {
				t.Errorf("%s: refusing %s allocates %v times", name, what, n)
			}
		}
	}
	r, _ := wiretest.Warm(t, "labels")
	label := wiretest.NewEncoder(t, "labels").Preamble()
	if n := testing.AllocsPerRun(200, func() { _ = r.Decode(label, 0, &s) }); n != 0 {
		t.Errorf("labels sent again allocate %v times", n)
	}
	r, _ = wiretest.Warm(t, "json")
	both := [][]byte{[]byte("XGPSSim,1,2,3,4,5"), wiretest.Unhex(t, "7e008141dbd00802b38b7e")}
	change := func() {
		for _, b := range both {
			_ = r.Decode(b, 0, &s)
		}
	}
	for range 5 {
		change()
	}
	if n := testing.AllocsPerRun(200, change); n != 0 {
		t.Errorf("changing between formats allocates %v times", n)
	}
}

// junkDatagrams are as long as a datagram can be.
func junkDatagrams() map[string][]byte {
	const full = 65507
	return map[string][]byte{
		"zeros":      make([]byte, full),
		"digits":     []byte(strings.Repeat("1", full)),
		"commas":     []byte(strings.Repeat(",", full)),
		"short rows": append([]byte("DATA*"), make([]byte, full-5)...),
		"braces":     []byte(strings.Repeat("{", full)),
		"line ends":  []byte("1" + strings.Repeat("\n", full-1)),
		"lines":      []byte(strings.Repeat("1\n", full/2)),
		"equals":     []byte("a" + strings.Repeat("=", full-1)),
		"one key":    []byte(strings.Repeat("a=", full/2)),
		"key, key":   []byte(strings.Repeat("a=;", full/3)),
	}
}
