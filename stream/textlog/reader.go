package textlog

import (
	"errors"
	"io"
	"net/netip"
	"strconv"
	"time"

	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/wire"
	"halfturn/stream/wire/format"
)

// Options say how a log is read.
type Options struct {
	Wire format.Options // the maps that say what columns mean
	Rate float64        // rows a second, for a log without a time; 0 when it was not given

	// Modified is when the file was last written: a log whose times do not say the date begins then.
	Modified time.Time
}

// Sender is the address that the rows of every log are received from.
var Sender = netip.AddrPortFrom(netip.AddrFrom4([4]byte{127, 0, 0, 1}), 1)

// A Reader yields the rows of one log as datagrams. It holds one row at a time.
type Reader struct {
	plain   *capture.Plain
	lines   lineReader
	dialect dialect
	own     timeColumn
	wire    *wire.Reader // reads the time of a row, as the session that gets it will
	streams bool         // the time channel of the stream tells the time
	rate    float64
	rows    float64
	last    float64 // time of the last row that had one, s; of the first one at the beginning
	clock   clock

	cells  [][]byte
	out    []byte // of the row
	labels []byte // of the names; nil when there are none
	due    bool   // the names are to be yielded before the row
	row    bool   // out holds a row that is not yielded yet
	stats  capture.Stats
	err    error
}

// Next returns the next datagram: io.EOF at the end, a *capture.CutError where the file's compression breaks off, or
// what ended the reading of the file.
func (r *Reader) Next() (capture.Datagram, error) {
	for r.err == nil && !r.row {
		r.err = r.read()
	}
	if r.err != nil {
		return capture.Datagram{}, r.err
	}
	d := capture.Datagram{Received: r.clock.current, Source: Sender, Destination: Sender, Payload: r.out}
	if r.due {
		d.Payload, r.due = r.labels, false
	} else {
		r.row = false
	}
	r.stats.Datagrams++
	return d, nil
}

// read reads the next line.
func (r *Reader) read() error {
	line, err := r.lines.next()
	switch {
	case errors.Is(err, errLong):
		r.stats.Packets++
		r.stats.Malformed++
		return nil
	case err == io.EOF:
		return io.EOF
	case err != nil && r.plain.Err() != nil:
		return r.plain.Err()
	case err != nil:
		return &capture.CutError{Packets: r.stats.Packets, Err: err}
	case r.lines.n < r.dialect.first:
		return nil
	case r.isNoRow(line):
		return nil
	case r.dialect.isRowOfNames(line):
		r.rename(line)
		return nil
	}
	r.stats.Packets++
	r.convert(line)
	r.receive()
	return nil
}

// isNoRow reports whether a line is empty or a comment.
func (r *Reader) isNoRow(line []byte) bool {
	return len(line) == 0 || r.dialect.kind != asIs && isRemark(line)
}

// rename takes another line of names.
func (r *Reader) rename(line []byte) {
	d := r.dialect
	d.takeNames(line, r.lines.n)
	if d.named == r.lines.n { // names, not units
		r.dialect = d
		words := r.own.words
		r.own = findTime(d.names, nil)
		r.own.words = words
		r.name()
	}
}

// name makes the datagram of the names.
func (r *Reader) name() {
	r.labels = append(r.labels[:0], "<LABELS> "...)
	for i, n := range r.dialect.names {
		if i > 0 {
			r.labels = append(r.labels, '\t')
		}
		r.labels = append(r.labels, n...)
	}
	r.labels = append(r.labels, '\n')
	r.due = true
	var s stream.Sample
	_ = r.wire.Decode(r.labels, r.last, &s) // what is wrong with it is found by the session
}

// convert makes a datagram of a row.
func (r *Reader) convert(line []byte) {
	r.out = r.out[:0]
	if r.dialect.kind == asIs {
		r.out = append(append(r.out, line...), '\n')
		return
	}
	separator := byte('\t')
	if r.dialect.kind == ordered {
		separator = ',' // as in the maps
	}
	r.split(line)
	for i, c := range r.cells {
		if i > 0 {
			r.out = append(r.out, separator)
		}
		if i == r.own.at && (r.own.words || r.own.counts) {
			if t, ok := r.own.seconds(c); ok {
				r.out = strconv.AppendFloat(r.out, t, 'f', -1, 64)
				continue
			}
		}
		if r.dialect.split.comma {
			c, _ = r.dialect.split.withPoint(c)
		}
		r.out = appendCell(r.out, c, separator)
	}
	r.out = append(r.out, '\n')
}

// split finds the cells of a row.
func (r *Reader) split(line []byte) {
	r.cells = r.cells[:0]
	if r.dialect.kind == objects {
		r.objects(line)
		return
	}
	r.cells = r.dialect.split.split(r.cells, line)
	if n := len(r.dialect.names); n > 0 && len(r.cells) == n+1 && len(r.cells[n]) == 0 {
		r.cells = r.cells[:n] // the row ends with a separator
	}
}

// objects puts the members of an object into the columns; those of one that is broken are missing.
func (r *Reader) objects(line []byte) {
	members, err := membersOf(line)
	if err != nil {
		r.cells = append(r.cells, line)
		return
	}
	for i, name := range r.dialect.names {
		var value []byte
		if i < len(members) && members[i].name == name { // as nearly always
			value = members[i].value
		} else {
			for _, m := range members {
				if m.name == name {
					value = m.value
				}
			}
		}
		r.cells = append(r.cells, value)
	}
}

// receive finds out when the row in out was received.
func (r *Reader) receive() {
	r.row = true
	t, ok := r.time()
	r.rows++
	if ok {
		r.last = t
	}
	r.clock.receive(r.last)
	if r.clock.jumped && r.labels != nil { // a session that begins here must know them
		r.due = true
	}
}

// time returns the time of the row in out, if it has one.
func (r *Reader) time() (float64, bool) {
	if r.streams {
		var s stream.Sample
		err := r.wire.Decode(r.out, r.last, &s)
		return s.Value(stream.Time), err == nil && s.Has.Has(stream.Time)
	}
	if r.own.at < 0 {
		return r.rows / r.rate, true
	}
	if r.own.at >= len(r.cells) {
		return 0, false
	}
	if !r.own.words {
		c, ok := r.dialect.split.withPoint(r.cells[r.own.at])
		if !ok {
			return 0, false
		}
		return r.own.seconds(c)
	}
	return r.own.seconds(r.cells[r.own.at])
}

// Dated reports whether the times of the rows say when the flight was.
func (r *Reader) Dated() bool { return r.clock.dated }

// Section returns "": a log has no comments.
func (r *Reader) Section() string { return "" }

// Rest returns nothing: a log has no comments.
func (r *Reader) Rest() []string { return nil }

// Stats counts the rows so far as packets, and those that were too long as malformed.
func (r *Reader) Stats() capture.Stats { return r.stats }

// Close releases what reading has allocated.
func (r *Reader) Close() { r.plain.Close() }
