package wire

import (
	"bytes"

	"halfturn/stream"
)

// kind is a family of formats that one look at the first bytes tells apart.
type kind uint8

const (
	kindNone kind = iota
	kindLine      // columns, with labels or without
	kindPairs
	kindRows
	kindJSON
)

// patience is how many datagrams in a row must fail before what was learned about a sender
// is put in question, so that a stray datagram does not cost a stream its format.
const patience = 3

// A Reader reads the datagrams of one sender. It is not safe for concurrent use. Its memory
// does not grow with what it is sent.
type Reader struct {
	kind      kind
	fails     int // datagrams in a row that gave no sample
	foreign   string
	maps      []*Map
	forced    *Map
	line      lineReader
	complaint complaint
	bad       stream.Set // in the last datagram
	pairs     pairReader
	rows      rowReader
	scratch   stream.Sample

	other    *otherReader // of the formats that need one
	datarefs []Dataref
	marked   []*layout // of maps whose binary records tell themselves
	now      float64   // receive time of the datagram, s
	changes  int       // of format
}

// NewReader makes a reader for one sender.
func NewReader(o Options) *Reader {
	r := &Reader{maps: o.Maps, forced: o.Map}
	if len(r.maps) == 0 {
		r.maps = ShippedMaps()
	}
	if r.forced != nil {
		r.maps = []*Map{r.forced}
	}
	r.line = lineReader{maps: r.maps, forced: r.forced != nil}
	r.pairs = pairReader{maps: r.maps, forced: r.forced != nil}
	r.rows.layout = o.Rows
	r.datarefs = o.Datarefs
	for _, m := range r.maps {
		if m.layout != nil && m.layout.magic {
			r.marked = append(r.marked, m.layout)
		}
	}
	return r
}

// Format names what the sender sends, "" until it is recognized.
func (r *Reader) Format() string {
	switch r.kind {
	case kindLine:
		if r.line.labeled {
			return "text with labels"
		}
		return "text columns"
	case kindPairs:
		return "text pairs"
	case kindRows:
		return "DATA rows"
	case kindJSON:
		return "JSON lines"
	}
	if r.other != nil && (r.kind == r.other.kind || r.kind == kindNone && r.other.parts > 0) {
		return r.other.name
	}
	return ""
}

// Changes returns how often the sender changed its format so far: another family of formats,
// not just other labels.
func (r *Reader) Changes() int { return r.changes }

// Bad returns the channels that the last datagram had values of that cannot be, also when it gave no sample.
func (r *Reader) Bad() stream.Set { return r.bad }

// Decode reads a datagram as DecodeAt does, for callers without a clock: nothing ages.
func (r *Reader) Decode(b []byte, s *stream.Sample) error { return r.DecodeAt(b, r.now, s) }

// DecodeAt reads a datagram, received at a time in seconds of any epoch, into s, which it
// empties first. The time is for formats whose messages each hold a part of the state: values
// that come less often than the attitude are carried along until they are too old. DecodeAt keeps nothing of b. The errors
// are those of this package; Reason tells which of them are faults.
//
// Of several records in one datagram the last complete one is taken: the earlier ones are
// older states of the same simulator, sent together because it stuttered, and a live view
// wants the latest. DecodeAll gives them all.
func (r *Reader) DecodeAt(b []byte, received float64, s *stream.Sample) error {
	r.now = received
	s.Reset()
	k, err := r.sniff(b)
	if err == nil {
		if k <= kindJSON {
			b = trimMark(b)
		}
		err = r.last(k, b, s)
	}
	return r.judge(k, err, s)
}

// faultsAtMost ends DecodeAll on a datagram full of junk.
const faultsAtMost = 16

// DecodeAll reads every record of a datagram and calls each with the sample, which is valid
// only during the call. It returns the first fault met; records after it are still read,
// unless too many are faulty.
func (r *Reader) DecodeAll(b []byte, each func(*stream.Sample)) error {
	s := &r.scratch
	k, fault := r.sniff(b)
	if fault == nil {
		if k <= kindJSON {
			b = trimMark(b)
		}
		fault = r.settled(k, b)
	}
	if fault != nil {
		return r.judge(k, fault, s)
	}
	samples, faults, quiet := 0, 0, ErrEmpty
	for len(b) > 0 && faults < faultsAtMost {
		var rec []byte
		rec, b = r.next(k, b)
		if len(rec) == 0 {
			continue
		}
		s.Reset()
		err := r.judge(k, r.record(k, rec, s), s)
		switch {
		case err == nil:
			samples++
			each(s)
		case Reason(err) == "":
			quiet = err
		default:
			if faults++; fault == nil {
				fault = err
			}
		}
	}
	if fault == nil && samples == 0 {
		return quiet
	}
	return fault
}

// settled refuses a datagram of another format than before, until a few in a row have come.
// A line of labels is taken at once: nothing else looks like it.
func (r *Reader) settled(k kind, b []byte) error {
	if r.kind != kindNone && k != r.kind && r.fails < patience && !bytes.HasPrefix(b, labelMark) {
		return ErrChanged
	}
	return nil
}

// judge keeps count of what came of a datagram, and leaves no half-read sample behind.
func (r *Reader) judge(k kind, err error, s *stream.Sample) error {
	r.complaint.hear(s, err)
	if r.bad = 0; err == nil || err == ErrValue {
		r.bad = s.Bad
	}
	if err == nil {
		r.settle(k)
		return nil
	}
	s.Reset()
	switch err {
	case ErrLabels:
		r.settle(kindLine)
	case ErrValue: // the format is clear
		r.settle(k)
	case ErrPart, ErrStatus, ErrOther:
	default:
		r.fails = min(r.fails+1, 1<<20)
	}
	return err
}

// settle takes a format for the sender's.
func (r *Reader) settle(k kind) {
	if k != r.kind && r.kind != kindNone {
		r.changes++
	}
	r.kind, r.fails, r.foreign = k, 0, ""
}

// last reads the last complete record.
func (r *Reader) last(k kind, b []byte, s *stream.Sample) error {
	if err := r.settled(k, b); err != nil {
		return err
	}
	if k == kindRows {
		return r.rows.decode(b, s)
	}
	if k > kindJSON {
		if k == kindCounted {
			b = r.lastCounted(b)
		}
		return r.readOther(k, b, s)
	}
	if k == kindPairs {
		return r.pairs.decode(r.pairs.lastRecord(b), s)
	}
	if bytes.HasPrefix(b, labelMark) { // labels and data may come together
		if end := bytes.IndexByte(b, '\n'); end >= 0 && len(trimEnd(b[end:])) > 0 {
			if err := r.record(k, trimEnd(b[:end]), s); err != ErrLabels {
				return err
			}
			b = b[end+1:]
		}
	}
	whole := b[len(b)-1] == '\n'
	b = trimEnd(b)
	if n := len(b) - 2*maxLine; n > 0 { // a line is shorter, and junk must cost little
		b = b[n:]
	}
	at := lastBreak(b)
	err := r.record(k, trimEnd(b[at+1:]), s)
	if err != nil && !whole && at > 0 && (k != kindJSON || err == ErrTruncated) { // the last line was cut short
		s.Reset()
		b = trimEnd(b[:at])
		err = r.record(k, b[bytes.LastIndexByte(b, '\n')+1:], s)
	}
	return err
}

// lastBreak returns where the last line end is, −1 when there is none, as is usual: that is
// found much faster from the front.
func lastBreak(b []byte) int {
	if bytes.IndexByte(b, '\n') < 0 {
		return -1
	}
	return bytes.LastIndexByte(b, '\n')
}

// next splits off the first record.
func (r *Reader) next(k kind, b []byte) (rec, rest []byte) {
	switch k {
	case kindRows:
		return b, nil
	case kindCounted:
		return r.nextCounted(b)
	case kindPairs:
		n := r.pairs.firstRecord(b)
		return b[:n], b[n:]
	}
	if k > kindJSON { // its messages make one sample together
		return b, nil
	}
	if end := bytes.IndexByte(b, '\n'); end >= 0 {
		return trimEnd(b[:end]), b[end+1:]
	}
	return trimEnd(b), nil
}

// record reads one record.
func (r *Reader) record(k kind, rec []byte, s *stream.Sample) error {
	switch {
	case k == kindRows:
		return r.rows.decode(rec, s)
	case k > kindJSON:
		return r.readOther(k, rec, s)
	case len(rec) == 0:
		return ErrEmpty
	case len(rec) > maxLine:
		return ErrTooLong
	case k == kindPairs:
		return r.pairs.decode(rec, s)
	case k == kindJSON:
		return decodeJSON(rec, s)
	}
	return r.line.decode(rec, s)
}

// trimMark cuts off a UTF-8 byte order mark.
func trimMark(b []byte) []byte {
	if len(b) > 3 && b[0] == 0xEF && b[1] == 0xBB && b[2] == 0xBF {
		return b[3:]
	}
	return b
}

// trimEnd cuts off what ends a line: spaces, line ends, and the NUL that some senders count
// into the length of their text.
func trimEnd(b []byte) []byte {
	for len(b) > 0 {
		switch b[len(b)-1] {
		case ' ', '\n', '\r', 0:
			b = b[:len(b)-1]
		default:
			return b
		}
	}
	return b
}
