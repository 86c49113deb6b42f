package text_test

import (
	"bytes"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
)

// NMEA as FlightGear 2020.3.16 sends it: RMC, GGA and GSA in one datagram. There is no attitude in
// it, and the user is told what to send instead.
func TestNMEARecorded(t *testing.T) {
	b := wiretest.ReadFile(t, "nmea.txt")
	if !bytes.HasPrefix(b, []byte("$GPRMC")) || !bytes.Contains(b, []byte("$GPGGA")) {
		t.Fatalf("%q", b)
	}
	r := wire.NewReader(format.Options{})
	var s stream.Sample
	for range 5 {
		if err := r.Decode(b, 0, &s); err != fault.ErrUnknown {
			t.Fatal(err)
		}
	}
	if !strings.Contains(r.Advice().String(), "no attitude") ||
		!strings.Contains(r.Advice().String(), "halfturn.xml") || r.Format() != "" {
		t.Error(r.Advice(), r.Format())
	}
}
