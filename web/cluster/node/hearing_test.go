package node

import (
	"testing"
	"time"

	"halfturn/web/cluster/tenures"
)

// TestFlownElsewhere: what was heard of a session that is over is not coached again with the next one.
func TestFlownElsewhere(t *testing.T) {
	h := &hearing{name: "A", ring: tenures.Ring{Most: 1 << 20}}
	other := &hearing{name: "B", ring: tenures.Ring{Most: 1 << 20}}
	n := &Node{table: table{heard: map[*hearing]struct{}{h: {}, other: {}}}}
	var heard []tenures.Held
	for i, letter := range "abcdefgh" {
		d := tenures.Held{Bytes: []byte(string(letter)), Received: time.Unix(int64(i), 0)}
		heard = append(heard, d)
		h.ring.Add(d.Bytes, d.Received)
		other.ring.Add(d.Bytes, d.Received)
	}
	n.flownElsewhere("A", heard[:5])
	n.flownElsewhere("A", nil)
	if got := h.ring.From(h.coached); len(got) != 3 || string(got[0].Bytes) != "f" || other.coached != 0 {
		t.Errorf("%d are left, and of another station %d were taken out", len(got), other.coached)
	}
}
