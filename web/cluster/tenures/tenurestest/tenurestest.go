// Package tenurestest writes records for tests, and reads them.
package tenurestest

import (
	"net/netip"
	"strings"
	"testing"

	"halfturn/coach/playback"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
)

// Script is the record of session s of station A as a node makes it: one datagram of one letter in each batch. A dot is
// the end of the session.
func Script(fence uint64, node, tenure string, after *tenures.Point, letters string) (list []tenures.Told) {
	o := tenures.Opening{
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
			b.Records = append(b.Records, link.Record{Type: link.RecordOpening, Bytes: o.Encode()})
		}
		kind := link.RecordDatagram
		if r == '.' {
			kind = link.RecordEnd
		}
		b.Records = append(b.Records, link.Record{Type: kind, Received: int64(i), Bytes: []byte(string(r))})
		b.Events = append(b.Events, flow.Event{ID: node + string(r)})
		list = append(list, tenures.Told{Node: node, Batch: b, Size: 10})
	}
	return list
}

// Words are what was recorded of a flight, and whether it is over; or the error.
func Words(t *testing.T, f *tenures.Flight, err error) string {
	t.Helper()
	if err != nil {
		return err.Error()
	}
	var s strings.Builder
	var u tenures.Unpacker
	to := netip.MustParseAddrPort("192.0.2.2:2")
	err = f.Each(func(_ tenures.Point, b *flow.Batch) error {
		return u.Batch(b, func(d *practice.Datagram, head bool) {
			if d.To != to || head {
				t.Errorf("%s: %+v", d.Bytes, d)
			}
			s.Write(d.Bytes)
		})
	})
	if err != nil {
		return err.Error()
	}
	if u.Over {
		s.WriteString(" over")
	}
	return s.String()
}
