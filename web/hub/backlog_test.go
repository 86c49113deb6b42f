package hub

import (
	"bytes"
	"fmt"
	"testing"
)

// A long session must cost no more memory than a short one: legs are a hundred times as long as other events.
func TestTheBacklogIsBounded(t *testing.T) {
	t.Parallel()
	for name, length := range map[string]func(seq uint64) int{
		"short events":         func(uint64) int { return 100 },
		"with legs":            func(seq uint64) int { return 200 + int(seq%20/19)*30_000 },
		"longer than the most": func(seq uint64) int { return bytesKept + int(seq) },
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			const last = 600
			l := backlog{first: 1}
			for seq := uint64(1); seq <= last; seq++ {
				l.add(fmt.Appendf(nil, "%*d", length(seq), seq))
				kept, ok := l.since(l.first - 1)
				size := 0
				for i, data := range kept {
					size += len(data)
					if is := l.first + uint64(i); !bytes.HasSuffix(data, fmt.Append(nil, " ", is)) {
						t.Fatalf("at the place of event %d is %q", is, bytes.TrimSpace(data))
					}
				}
				if !ok || len(kept) == 0 || l.first+uint64(len(kept)) != seq+1 {
					t.Fatalf("after %d: %d events from %d on", seq, len(kept), l.first)
				}
				if len(kept) > eventsKept || size > bytesKept && len(kept) > 1 || size != l.size {
					t.Fatalf("after %d: %d events of %d bytes, counted as %d", seq, len(kept), size, l.size)
				}
				// As much as may be is kept.
				if before := l.first - 1; before > 0 && len(kept) < eventsKept && size+length(before) <= bytesKept {
					t.Fatalf("after %d: event %d could still be there", seq, before)
				}
			}
			if _, ok := l.since(l.first - 2); ok {
				t.Error("an event that was forgotten is listed")
			}
			if _, ok := l.since(last + 1); ok {
				t.Error("an event that is still to come is listed")
			}
			if none, ok := l.since(last); !ok || len(none) != 0 {
				t.Errorf("after the latest: %d events, %v", len(none), ok)
			}
		})
	}
}
