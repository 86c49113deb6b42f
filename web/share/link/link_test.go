package link

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/who"
	"halfturn/stream/phrase"
)

var noon = time.Date(2031, 5, 4, 12, 0, 0, 123456789, time.UTC)

// messages is one message of each kind.
func messages() []Message {
	refused := phrase.NotAllowed.Of()
	return []Message{
		&Hello{Version: 1, Program: "1.2.3"},
		&Welcome{Version: 1, Station: "Ada's seat", At: noon},
		&Bye{Why: refused, Slow: true},
		&Live{Records: []Record{
			{Type: RecordOpening, Bytes: []byte(`halfturn {"version":1}`)},
			{Type: RecordHead, Received: 1, Bytes: []byte("time,bank")},
			{Type: RecordComment, Bytes: []byte("c")},
			{Type: RecordDatagram, Received: noon.UnixNano(), Bytes: bytes.Repeat([]byte{0xff}, 300)},
			{Type: RecordDatagram, Received: -1, Bytes: []byte{}},
			{Type: RecordEnd, Bytes: []byte("s")},
		}},
		&Offer{Session: "s"},
		&Begin{Session: "s", Entry: json.RawMessage(`{"ID":"s"}`)},
		&Piece{Session: "s", Part: 12, Offset: 1 << 40, Bytes: []byte{0, 1, 2}},
		&Whole{Session: "s", Part: 1, Size: 5, SHA256: "00"},
		&Finish{Session: "s", Ended: noon},
		&Have{Session: "s", Known: true, Part: 1, Size: 1 << 33, Done: true},
		&State{At: noon, Behind: 12.5, Bytes: 7, Dropped: 1, Private: true},
		&Command{ID: "c", Command: json.RawMessage(`{"say":"Nose up"}`)},
		&Result{ID: "c", Refused: &refused},
		&Watching{Watchers: []who.Who{{Name: "Bo Example", Role: who.RoleInstructor}}, Nameless: 2},
		&Acts{Session: "s", From: 3, Acts: json.RawMessage(`[{"id":"a"}]`)},
		&Noted{Session: "s", Acts: 4},
	}
}

// TestRoundTrip: every kind of message comes back as it was sent.
func TestRoundTrip(t *testing.T) {
	seen := map[Kind]bool{}
	for _, m := range messages() {
		b, err := Encode(m)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Decode(b)
		if err != nil {
			t.Errorf("%T: %v", m, err)
		}
		if d := cmp.Diff(m, got, cmp.Comparer(phrase.Phrase.Equal)); d != "" {
			t.Errorf("%T (-sent +received):\n%s", m, d)
		}
		seen[m.kind()] = true
	}
	for kind := range empty {
		if !seen[kind] {
			t.Errorf("no message of kind %d is tried", kind)
		}
	}
}

// TestMalformed: what is no message is refused in words.
func TestMalformed(t *testing.T) {
	for says, b := range map[string]string{
		"is empty":               "",
		"of kind 0":              "\x00",
		"of kind 99":             "\x63{}",
		"kind 1 cannot":          "\x01[",
		"kind 2 cannot be read":  "\x02{\"station\":1}",
		"a record is of type 9":  "\x04\x0900000000\x00",
		"a record is of type 0":  "\x04\x0000000000\x00",
		"kind 4 cannot be read":  "\x04\x0300000000\x05abc",
		"it ends too early":      "\x04\x03",
		"kind 7 cannot be read":  "\x07\x05s",
		"part is 4294967296":     "\x07\x01s\x80\x80\x80\x80\x10\x00",
		"the piece is":           "\x07\x01s\x01\x00" + strings.Repeat("x", MostPiece+1),
		"kind 7 cannot be read:": "\x07\x01s\xff\xff\xff\xff\xff\xff\xff\xff\xff\x01",
	} {
		if m, err := Decode([]byte(b)); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.20q: %v, %v; must say %q", b, m, err, says)
		}
	}
}

// TestTooLong: a message that the other end would refuse is not sent.
func TestTooLong(t *testing.T) {
	_, err := Encode(&Live{Records: []Record{{Type: RecordDatagram, Bytes: make([]byte, MostBytes)}}})
	if err == nil || !strings.Contains(err.Error(), "must be at most") {
		t.Error(err)
	}
}

// TestSize: the size that a record is counted with is never less than what it takes.
func TestSize(t *testing.T) {
	for _, n := range []int{0, 127, 128, 65535} {
		r := Record{Type: RecordDatagram, Bytes: make([]byte, n)}
		if took := len(r.Append(nil)); took > r.Size() {
			t.Errorf("%d bytes take %d; they count as %d", n, took, r.Size())
		}
	}
}

// FuzzDecode: no bytes crash the reader, and what it reads is written as what it reads again.
func FuzzDecode(f *testing.F) {
	for _, m := range messages() {
		b, err := Encode(m)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		m, err := Decode(b)
		if err != nil {
			return
		}
		again, err := Encode(m)
		if err != nil {
			return // numbers and times that JSON cannot hold
		}
		other, err := Decode(again)
		if err != nil {
			t.Fatalf("%q is written as %q: %v", b, again, err)
		}
		third, err := Encode(other)
		if err != nil || !bytes.Equal(again, third) {
			t.Fatalf("%q is written as %q, and that as %q, %v", b, again, third, err)
		}
	})
}
