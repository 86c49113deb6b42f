package ingest

import (
	"net/netip"
	"testing"
	"time"
)

// Limits that change while datagrams are received hold for the next one; senders that are there stay.
func TestLimit(t *testing.T) {
	h := newSenders(filled(Config{MaxStations: 1}), func(netip.AddrPort) Handler { return nil })
	defer h.close()
	l := &Listener{senders: h}
	now := time.Now()
	put := func(port uint16) string {
		return h.put(h.inlet("udp"), netip.AddrPortFrom(netip.MustParseAddr("127.0.0.1"), port), []byte("x"), now)
	}
	h.mu.Lock()
	h.all[netip.MustParseAddrPort("127.0.0.1:9")] = &sender{senders: h, queue: make(chan item, 9)}
	h.mu.Unlock()
	if got := put(2); got != tooMany {
		t.Errorf("beyond the limit: %q", got)
	}
	l.Limit(1, 9)
	if got := put(9); got != "" {
		t.Errorf("one that is there: %q", got)
	}
	if got := put(9); got != tooFast {
		t.Errorf("two in a moment: %q", got)
	}
	if got := put(2); got != "" {
		t.Errorf("below the new limit: %q", got)
	}
}

// filled are the settings with their defaults.
func filled(c Config) Config {
	c.fill()
	return c
}
