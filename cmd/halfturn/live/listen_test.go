package live

import (
	"fmt"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"testing"

	"halfturn/coach/debrief"
	"halfturn/stream/pipeline"
)

// What the file says of a sender comes to hold for it: its name, what it flies, its signs.
func TestNamedStation(t *testing.T) {
	file := filepath.Join(t.TempDir(), "c.toml")
	text := "bank-sign = 'auto'\n[[station]]\naddress = '127.0.0.1'\nname = 'Seat 3'\nmaneuver = " +
		"'chandelle-civil'\naircraft = 'light-single'\nbank-sign = 'reversed'\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s := serveLive(t, file, nil)
	for _, want := range []string{"Seat 3", "Seat 3 (2)"} {
		conn, err := net.Dial("udp", s.Addresses()[0].String())
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		fmt.Fprintf(conn, `{"time": 1, "heading": 90, "pitch": 2, "bank": -20, "airspeed": 100, "altitude": 5000}`)
		s.await(t, want, 2) // both have come; one sample is one datagram
	}
	r, _ := s.desk.Legs(t.Context(), "Seat 3")
	if got := r.(debrief.StationReport); got.Station != "Seat 3" || got.Samples != 1 {
		t.Errorf("%+v", got)
	}
	n := Named(config(t, file, ""), pipeline.Options{})[0]
	if n.Address != netip.MustParseAddrPort("127.0.0.1:0") || n.Choice.Maneuver != "chandelle-civil" ||
		n.Choice.Aircraft != "light-single" || n.Station.BankSign != pipeline.Reversed ||
		n.Station.PitchSign != pipeline.AsSent {
		t.Errorf("the desk is told %+v", n)
	}
}
