package wire

import (
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/scan"
)

// none is the place in formats of no format.
const none = -1

// most bounds what is counted in a row.
const most = 1 << 20

// A Reader reads the datagrams of one sender. It is not safe for concurrent use. Its memory does not grow with what it
// is sent.
type Reader struct {
	options  *format.Options
	possible places           // with these options
	datagram format.Datagram  // during Decode; here because formats get it by pointer, which would allocate
	decoders []format.Decoder // one per format, made when it is first sent

	settled int // the place in formats of what the sender sends
	active  int // of what was decoded last
	changes int // of settled
	instead *phrase.Definition

	now       float64 // receive time of the datagram, s
	silence   format.Silence
	last      float64 // receive time of the last sample of the active format, s
	complaint complaint
	bad       stream.Set // in the last datagram
}

// NewReader makes a reader for one sender.
func NewReader(o format.Options) *Reader {
	options := o.Complete()
	return &Reader{
		options:  options,
		possible: possible(options),
		decoders: make([]format.Decoder, len(formats)),
		settled:  none,
		active:   none,
	}
}

// Format names what the sender sends, "" until it is recognized.
func (r *Reader) Format() string {
	switch {
	case r.settled != none:
		return r.decoders[r.settled].Name()
	case r.active != none && r.silence.Parts > 0:
		return r.decoders[r.active].Name()
	}
	return ""
}

// Detail says in a few words what was decided or must be known about the stream besides its format, "" when there is
// nothing: which layout row 16 has, which altitude is meant.
func (r *Reader) Detail() phrase.Phrase {
	if r.settled == none {
		return phrase.Phrase{}
	}
	return r.decoders[r.settled].Detail()
}

// Changes returns how often the sender changed its format so far: not just its labels.
func (r *Reader) Changes() int { return r.changes }

// Bad returns the channels of which the last datagram had impossible values, also when it gave no sample.
func (r *Reader) Bad() stream.Set { return r.bad }

// Age returns how old, in seconds of receive time, the value of a channel was when it was put into the last sample:
// more than 0 for what a slower message of the same sender brought.
func (r *Reader) Age(c stream.Channel) float64 {
	if r.settled == none {
		return 0
	}
	return r.decoders[r.settled].Age(c)
}

// Decode reads a datagram, received at a time in seconds of any epoch, into s, which it empties first. The time is for
// formats whose messages each hold a part of the state: values that come less often than the attitude are carried along
// until they are too old. Decode keeps nothing of b. The errors are those of package fault; fault.Reason says which of
// them are faults.
//
// Of several records in one datagram the last complete one is taken: the earlier ones are older states of the same
// simulator, sent together because it stuttered, and a live view wants the latest.
func (r *Reader) Decode(b []byte, received float64, s *stream.Sample) error {
	r.now = received
	s.Reset()
	f, claim, err := r.recognize(b)
	r.datagram.Bytes, r.datagram.Head = nil, nil
	if err == nil && f != r.settled && r.settled != none && claim != format.Sure &&
		r.silence.Failures < format.Patience {
		err = fault.ErrChanged // a single one may be a stray datagram
	}
	if err == nil {
		err = r.read(f, b, s)
	}
	return r.judge(f, err, s)
}

// recognize finds the format of a datagram. It costs the same for any length.
func (r *Reader) recognize(b []byte) (f int, claim format.Claim, err error) {
	if len(b) == 0 {
		return none, format.No, fault.ErrEmpty
	}
	if r.active != none && r.decoders[r.active].Continues(b) {
		return r.active, format.Yes, nil
	}
	d := &r.datagram
	*d = format.Datagram{Bytes: b, Options: r.options, Known: true}
	if r.settled != none && starts[b[0]].has(r.settled) {
		if claim := formats[r.settled].Recognize(d); claim != format.No { // the same as before, the usual case
			return r.claimed(r.settled, claim)
		}
	}
	d.Head, err = headOf(b)
	for left := candidates[b[0]] & r.possible; left != 0; left = left.rest() {
		f := left.first()
		d.Known = f == r.settled
		if claim := formats[f].Recognize(d); claim != format.No {
			return r.claimed(f, claim)
		}
	}
	if err == nil {
		r.instead, err = nil, fault.ErrUnknown
	}
	return none, format.No, err
}

// claimed accepts the claim of a format, unless it is one that is not read.
func (r *Reader) claimed(f int, claim format.Claim) (int, format.Claim, error) {
	if r.instead = formats[f].Instead; r.instead != nil {
		return none, format.No, fault.ErrUnknown
	}
	return f, claim, nil
}

// headOf returns what formats of text are recognized by. The error says why a datagram can be none of them.
func headOf(b []byte) ([]byte, error) {
	const look = 64
	if len(b) >= 4 && b[0] > ' ' && b[0] < 0x80 && b[1] != 0 { // plain text, the usual case
		return b[:min(len(b), look)], nil
	}
	head := scan.TrimMark(b)
	head = head[:min(len(head), look)]
	for len(head) > 0 && scan.IsBlank(head[0]) {
		head = head[1:]
	}
	switch {
	case len(head) == 0 && len(b) < look:
		return nil, fault.ErrEmpty
	case len(head) == 0:
		return nil, fault.ErrUnknown
	case isUTF16(b):
		return nil, fault.ErrEncoding
	}
	return head, nil
}

// isUTF16 recognizes text in two-byte characters: by its byte order mark, or because every second of the first bytes is
// zero.
func isUTF16(b []byte) bool {
	if len(b) < 4 {
		return false
	}
	if b[0] == 0xFF && b[1] == 0xFE || b[0] == 0xFE && b[1] == 0xFF {
		return true
	}
	return (b[0] == 0) != (b[1] == 0) && (b[0] == 0) == (b[2] == 0) && (b[1] == 0) == (b[3] == 0)
}

// read reads a datagram of a format.
func (r *Reader) read(f int, b []byte, s *stream.Sample) error {
	if r.decoders[f] == nil {
		r.decoders[f] = formats[f].New(r.options)
	}
	if f != r.active {
		r.decoders[f].Restart()
		failures := r.silence.Failures
		r.active, r.silence = f, format.Silence{Failures: failures}
	}
	err := r.decoders[f].Decode(b, r.now, s)
	switch err {
	case nil:
		r.silence.Parts, r.silence.Ever, r.last = 0, true, r.now
	case fault.ErrPart, fault.ErrOther:
		r.silence.Parts = min(r.silence.Parts+1, most)
	}
	return err
}

// judge counts the outcome of a datagram, and leaves no half-read sample behind.
func (r *Reader) judge(f int, err error, s *stream.Sample) error {
	r.complaint.hear(s, err)
	if r.bad = 0; err == nil || err == fault.ErrValue {
		r.bad = s.Bad
	}
	if err == nil {
		r.settle(f)
		return nil
	}
	s.Reset()
	switch err {
	case fault.ErrLabels, fault.ErrValue: // the format is clear
		r.settle(f)
	case fault.ErrPart, fault.ErrStatus, fault.ErrOther:
	default:
		r.silence.Failures = min(r.silence.Failures+1, most)
	}
	return err
}

// settle makes a format that of the sender.
func (r *Reader) settle(f int) {
	if f != r.settled && r.settled != none {
		r.changes++
	}
	r.settled, r.silence.Failures, r.instead = f, 0, nil
}

// Advice says what the user should do when nothing can be read, nothing when all is well.
func (r *Reader) Advice() phrase.Phrase {
	if r.instead != nil {
		return r.instead.Of()
	}
	failing := r.silence.Failures >= format.Patience
	if r.active != none && (r.settled == none || r.settled == r.active || failing) {
		d := r.decoders[r.active]
		if d.Trying() {
			return phrase.Phrase{}
		}
		q := r.silence
		q.Since = r.now - r.last
		if advice := d.Advice(q); !advice.IsZero() {
			return advice
		}
	}
	if advice := r.complaint.advice(); !advice.IsZero() {
		return advice
	}
	switch {
	case failing && r.settled == none:
		return phrase.NothingReadable.Of()
	case failing:
		return phrase.NotReadableAs.Of(phrase.Name("format", r.Format()))
	}
	return phrase.Phrase{}
}
