package flow

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"

	"halfturn/web/share/link"
)

// MostBytes is the most that a batch, an event, a question or anything told may have, encoded. NATS carries messages of
// up to 1 MiB with their headers, unless its operator sets another limit.
const MostBytes = 1_000_000

// MostAnswer is the most that an answer may have: it is sent in pieces.
const MostAnswer = 16 << 20

// ErrTooLong says that something is longer than MostBytes and cannot be sent.
var ErrTooLong = fmt.Errorf("too long; must be at most %d bytes", MostBytes)

// format is the first byte of what is encoded here; it changes with the encoding.
const format = 1

// EncodeBatch writes a batch: its station, fence, number and session, how many records and events follow, the records
// as package link writes them, and the events. The error is ErrTooLong.
func EncodeBatch(b *Batch) ([]byte, error) {
	to := make([]byte, 0, b.Size())
	to = append(to, format)
	to = appendText(to, b.Station)
	to = binary.AppendUvarint(to, b.Fence)
	to = binary.AppendUvarint(to, b.Number)
	to = appendText(to, b.Session)
	to = binary.AppendUvarint(to, uint64(len(b.Records)))
	to = binary.AppendUvarint(to, uint64(len(b.Events)))
	for i := range b.Records {
		to = b.Records[i].Append(to)
	}
	for i := range b.Events {
		to = b.Events[i].append(to)
	}
	if len(to) > MostBytes {
		return nil, fmt.Errorf("a batch of %s: %d bytes is %w", b.Station, len(to), ErrTooLong)
	}
	return to, nil
}

// Size is how many bytes a batch takes when it is encoded, at most.
func (b *Batch) Size() int {
	n := 1 + 6*binary.MaxVarintLen64 + len(b.Station) + len(b.Session)
	for i := range b.Records {
		n += b.Records[i].Size()
	}
	for i := range b.Events {
		n += b.Events[i].Size()
	}
	return n
}

// DecodeBatch reads a batch as EncodeBatch writes it. Nothing of the bytes is used in the batch.
func DecodeBatch(b []byte) (*Batch, error) {
	r := reader{rest: b}
	r.format()
	out := &Batch{Station: r.text(), Fence: r.number(), Number: r.number(), Session: r.text()}
	records, events := r.number(), r.number()
	r.rest = bytes.Clone(r.rest) // records and bodies are parts of it
	// What was counted may be a lie: room is made for no more than the bytes can hold.
	if records > uint64(len(r.rest)) || events > uint64(len(r.rest)) {
		r.fail(errShort)
	}
	if r.err == nil && records > 0 {
		out.Records = make([]link.Record, 0, min(records, uint64(len(r.rest)/leastRecord)))
	}
	for range records {
		if r.err != nil {
			break
		}
		out.Records = append(out.Records, r.record())
	}
	if r.err == nil && events > 0 {
		out.Events = make([]Event, 0, min(events, uint64(len(r.rest)/leastEvent)))
	}
	for range events {
		if r.err != nil {
			break
		}
		out.Events = append(out.Events, r.event())
	}
	if err := r.end(); err != nil {
		return nil, fmt.Errorf("the batch cannot be read: %w", err)
	}
	return out, nil
}

// The fewest bytes that a record and an event take.
const (
	leastRecord = 10
	leastEvent  = 4
)

// EncodeEvent writes an event. The error is ErrTooLong.
func EncodeEvent(e *Event) ([]byte, error) {
	to := e.append(append(make([]byte, 0, 1+e.Size()), format))
	if len(to) > MostBytes {
		return nil, fmt.Errorf("event %s: %d bytes is %w", e.ID, len(to), ErrTooLong)
	}
	return to, nil
}

// DecodeEvent reads an event as EncodeEvent writes it. Nothing of the bytes is used in the event.
func DecodeEvent(b []byte) (*Event, error) {
	r := reader{rest: bytes.Clone(b)}
	r.format()
	e := r.event()
	if err := r.end(); err != nil {
		return nil, fmt.Errorf("the event cannot be read: %w", err)
	}
	return &e, nil
}

// append writes an event: its id, number, run and body.
func (e *Event) append(b []byte) []byte {
	b = appendText(b, e.ID)
	b = binary.AppendUvarint(b, e.Seq)
	b = appendText(b, e.Run)
	b = binary.AppendUvarint(b, uint64(len(e.Body)))
	return append(b, e.Body...)
}

// Size is how many bytes an event takes in a batch, at most.
func (e *Event) Size() int { return 4*binary.MaxVarintLen64 + len(e.ID) + len(e.Run) + len(e.Body) }

// EncodeLease writes a lease.
func EncodeLease(l Lease) []byte {
	b := appendText([]byte{format}, l.Station)
	b = appendText(b, l.Node)
	b = binary.AppendUvarint(b, l.Fence)
	return appendText(b, l.Session)
}

// DecodeLease reads a lease as EncodeLease writes it.
func DecodeLease(b []byte) (Lease, error) {
	r := reader{rest: b}
	r.format()
	l := Lease{Station: r.text(), Node: r.text(), Fence: r.number(), Session: r.text()}
	if err := r.end(); err != nil {
		return Lease{}, fmt.Errorf("the lease cannot be read: %w", err)
	}
	return l, nil
}

func appendText(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

var errShort = errors.New("it ends too early")

// A reader takes bytes apart. After an error it gives zeros.
type reader struct {
	rest []byte
	err  error
}

func (r *reader) fail(err error) {
	if r.err == nil {
		r.err = err
	}
	r.rest = nil
}

func (r *reader) format() {
	if len(r.rest) == 0 {
		r.fail(errors.New("it is empty"))
		return
	}
	if r.rest[0] != format {
		r.fail(fmt.Errorf("its format is %d; must be %d: another version of Halfturn wrote it", r.rest[0], format))
		return
	}
	r.rest = r.rest[1:]
}

func (r *reader) number() uint64 {
	n, used := binary.Uvarint(r.rest)
	if used <= 0 {
		r.fail(errShort)
		return 0
	}
	r.rest = r.rest[used:]
	return n
}

func (r *reader) bytes() []byte {
	n := r.number()
	if n > uint64(len(r.rest)) {
		r.fail(errShort)
		return nil
	}
	b := r.rest[:n:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) text() string { return string(r.bytes()) }

func (r *reader) event() Event {
	return Event{ID: r.text(), Seq: r.number(), Run: r.text(), Body: r.bytes()}
}

func (r *reader) record() (record link.Record) {
	var err error
	if record, r.rest, err = link.CutRecord(r.rest); err != nil {
		r.fail(err)
	}
	return record
}

func (r *reader) end() error {
	if r.err == nil && len(r.rest) > 0 {
		r.err = fmt.Errorf("%d bytes follow it", len(r.rest))
	}
	return r.err
}
