package ingest

import (
	"net/netip"
	"strings"
	"testing"
)

// A line for the program starts no station and is passed on; what only looks like one goes to the stations, and nobody
// who is not allowed is heard.
func TestLine(t *testing.T) {
	allowed := netip.MustParseAddrPort("127.0.0.1:5000")
	for _, c := range []struct {
		name  string
		from  netip.AddrPort
		data  string
		heard string
		is    bool
	}{
		{"an act", allowed, "halfturn mark", "mark", true},
		{"with a station and a line end", allowed, "halfturn mute Seat 3\r\n", "mute Seat 3", true},
		{"data", allowed, "S1,2,3", "", false},
		{"another word", allowed, "halfturns 1", "", false},
		{"too long", allowed, "halfturn " + strings.Repeat("x", mostLine), "", false},
		{"not allowed", netip.MustParseAddrPort("203.0.113.9:5000"), "halfturn mark", "", false},
	} {
		var heard string
		config := Config{Line: func(_ netip.AddrPort, line string) { heard = line }}
		config.fill()
		h := newSenders(config, nil)
		if is := h.line(c.from, []byte(c.data)); is != c.is || heard != c.heard {
			t.Errorf("%s: %v, heard %q", c.name, is, heard)
		}
	}
	h := newSenders(Config{}, nil)
	if h.line(allowed, []byte("halfturn mark")) {
		t.Error("nobody takes lines, and one was taken")
	}
}
