package flow

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"halfturn/web/share/link"
)

var noon = time.Date(2031, 5, 4, 12, 0, 0, 123456789, time.UTC)

func batches() map[string]*Batch {
	return map[string]*Batch{
		"empty": {},
		"usual": {
			Station: "Seat 1",
			Fence:   7,
			Number:  300,
			Session: "01JZ",
			Records: []link.Record{
				{Type: link.RecordOpening, Bytes: []byte(`halfturn {"version":1}`)},
				{Type: link.RecordComment, Bytes: []byte("c")},
				{Type: link.RecordDatagram, Received: noon.UnixNano(), Bytes: bytes.Repeat([]byte{0xff}, 400)},
				{Type: link.RecordDatagram, Received: -1, Bytes: []byte{}},
				{Type: link.RecordEnd, Bytes: []byte("01JZ")},
			},
			Events: []Event{{ID: "e", Seq: 1, Run: "r", Body: []byte(`{"type":"callout"}`)}, {}},
		},
		"greatest numbers": {Fence: math.MaxUint64, Number: math.MaxUint64, Events: []Event{{Seq: math.MaxUint64}}},
		"invalid UTF-8":    {Station: "\xff\x00.", Session: "\xc3", Events: []Event{{ID: "\xfe", Run: "\x80"}}},
	}
}

func TestBatchComesBack(t *testing.T) {
	for name, b := range batches() {
		text, err := EncodeBatch(b)
		if err != nil {
			t.Fatal(name, err)
		}
		if len(text) > b.Size() {
			t.Errorf("%s: %d bytes; its size is at most %d", name, len(text), b.Size())
		}
		got, err := DecodeBatch(text)
		if err != nil {
			t.Fatal(name, err)
		}
		clear(text) // the batch must not use it
		if d := cmp.Diff(b, got, cmpopts.EquateEmpty()); d != "" {
			t.Errorf("%s (-in +out):\n%s", name, d)
		}
	}
}

func TestEventComesBack(t *testing.T) {
	for name, b := range batches() {
		for _, e := range b.Events {
			text, err := EncodeEvent(&e)
			if err != nil {
				t.Fatal(name, err)
			}
			got, err := DecodeEvent(text)
			if err != nil {
				t.Fatal(name, err)
			}
			clear(text)
			if d := cmp.Diff(&e, got, cmpopts.EquateEmpty()); d != "" {
				t.Errorf("%s (-in +out):\n%s", name, d)
			}
		}
	}
}

func TestLeaseComesBack(t *testing.T) {
	for _, l := range []Lease{{}, {"Seat 1", "north", 1 << 60, "01JZ"}, {"\xff", "\x00", 1, "."}} {
		if got, err := DecodeLease(EncodeLease(l)); err != nil || got != l {
			t.Errorf("%+v comes back as %+v, %v", l, got, err)
		}
	}
}

// Six datagrams of 400 bytes, as a batch holds them, take little more than themselves.
func TestBatchIsCompact(t *testing.T) {
	b := &Batch{Station: "Seat 1", Fence: 1 << 50, Number: 36_000, Session: "01JZABCDEFGHJKMNPQRSTVWXYZ"}
	for range 6 {
		b.Records = append(b.Records,
			link.Record{Type: link.RecordDatagram, Received: noon.UnixNano(), Bytes: make([]byte, 400)})
	}
	text, err := EncodeBatch(b)
	if err != nil || len(text) > 6*400+120 {
		t.Errorf("%d bytes, %v", len(text), err)
	}
}

func TestTooLong(t *testing.T) {
	long := make([]byte, MostBytes)
	if _, err := EncodeBatch(&Batch{Records: []link.Record{{Type: link.RecordHead, Bytes: long}}}); !errors.Is(err,
		ErrTooLong) {
		t.Error(err)
	}
	if _, err := EncodeEvent(&Event{Body: long}); !errors.Is(err, ErrTooLong) {
		t.Error(err)
	}
}

func TestMalformed(t *testing.T) {
	for says, b := range map[string]string{
		"is empty":            "",
		"format is 2":         "\x02",
		"it ends too early":   "\x01",
		"batch cannot":        "\x01\x05abc",
		"1 bytes follow it":   "\x01\x00\x00\x00\x00\x00\x00x",
		"ends too early":      "\x01\x00\x00\x00\x00\xff\xff\xff\xff\xff\xff\xff\xff\xff\x01\x00",
		"type 9":              "\x01\x00\x00\x00\x00\x01\x00\x0900000000\x00",
		"be read: it ends":    "\x01\x00\x00\x00\x00\x00\x02\x00\x00\x00\x00",
		"read: it ends too e": "\x01\x00\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\x01\x00\x00\x00\x00",
	} {
		if got, err := DecodeBatch([]byte(b)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, %v; must say %q", b, got, err, says)
		}
	}
	for _, b := range []string{"", "\x02", "\x01", "\x01\x00\x00\x00\x00x"} {
		if got, err := DecodeEvent([]byte(b)); err == nil {
			t.Errorf("event %q: %v", b, got)
		}
		if got, err := DecodeLease([]byte(b)); err == nil {
			t.Errorf("lease %q: %v", b, got)
		}
	}
}

// FuzzDecodeBatch: no bytes crash the reader or make it take memory out of proportion, and what it reads is written as
// what it reads.
func FuzzDecodeBatch(f *testing.F) {
	for _, b := range batches() {
		text, err := EncodeBatch(b)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		b, err := DecodeBatch(text)
		if err != nil {
			return
		}
		if cap(b.Records) > len(text) || cap(b.Events) > len(text) {
			t.Fatalf("room for %d records and %d events in %d bytes", cap(b.Records), cap(b.Events), len(text))
		}
		again, err := EncodeBatch(b)
		if err != nil {
			return
		}
		other, err := DecodeBatch(again)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(b, other); d != "" {
			t.Fatalf("(-read +read again):\n%s", d)
		}
	})
}

// FuzzDecodeEvent: no bytes crash the reader of events, or that of leases.
func FuzzDecodeEvent(f *testing.F) {
	f.Add([]byte("\x01\x01a\x05\x01r\x02{}"))
	f.Fuzz(func(t *testing.T, text []byte) {
		if l, err := DecodeLease(text); err == nil {
			if again, err := DecodeLease(EncodeLease(l)); err != nil || again != l {
				t.Fatalf("%+v is read again as %+v, %v", l, again, err)
			}
		}
		e, err := DecodeEvent(text)
		if err != nil {
			return
		}
		again, err := EncodeEvent(e)
		if err != nil {
			return
		}
		if other, err := DecodeEvent(again); err != nil || !cmp.Equal(e, other) {
			t.Fatalf("%+v is read again as %+v, %v", e, other, err)
		}
	})
}
