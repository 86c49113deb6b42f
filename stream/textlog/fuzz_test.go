package textlog_test

import (
	"bytes"
	"errors"
	"io"
	"testing"

	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/textlog"
	"halfturn/stream/wire"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/wiretest"
)

// Whatever a file holds: reading it ends, the datagrams fit into a capture, their times do not go back, and what a
// session makes of them has a name.
func FuzzLog(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzLog")
	f.Fuzz(func(t *testing.T, file []byte, rate uint8) {
		plain, err := capture.Unpack(t.Context(), bytes.NewReader(file), &capture.Limits{Bytes: 1 << 20})
		if err != nil {
			return
		}
		known := textlog.Recognize(plain)
		r, err := textlog.Open(plain, textlog.Options{Rate: float64(rate)})
		if err != nil {
			return
		}
		defer r.Close()
		if !known {
			t.Fatal("it is read, and not recognized")
		}
		decoder := wire.NewReader(textlog.Options{}.Wire)
		var s stream.Sample
		last := 0.0
		for n := 0; ; n++ {
			d, err := r.Next()
			if err != nil {
				var limit *capture.LimitError
				var cut *capture.CutError
				if err != io.EOF && !errors.As(err, &limit) && !errors.As(err, &cut) {
					t.Fatal(err)
				}
				return
			}
			if n > 2*len(file)+2 || len(d.Payload) == 0 || len(d.Payload) > 65_507 {
				t.Fatalf("datagram %d of %d bytes", n, len(d.Payload))
			}
			if d.Seconds() < last && n > 0 {
				t.Fatalf("received at %v after %v", d.Seconds(), last)
			}
			last = d.Seconds()
			if err := decoder.Decode(d.Payload, d.Seconds(), &s); err != nil && fault.Reason(err) == "other" {
				t.Fatal(err)
			}
		}
	})
}

// The columns of any file are listed or refused.
func FuzzTable(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzTable")
	f.Fuzz(func(t *testing.T, file []byte) {
		plain, err := capture.Unpack(t.Context(), bytes.NewReader(file), &capture.Limits{Bytes: 1 << 20})
		if err != nil {
			return
		}
		defer plain.Close()
		if table, err := textlog.ReadTable(plain); err == nil && len(table.Columns) == 0 {
			t.Fatal("a table without columns")
		}
	})
}
