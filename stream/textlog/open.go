package textlog

import (
	"halfturn/stream"
	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/wire"
	"halfturn/stream/wire/scan"
)

// headBytes is how much of a file is looked at to find out how it is written.
const headBytes = 256 << 10

// vital are the channels without which nothing can be graded, besides the time.
var vital = []stream.Channel{stream.Heading, stream.Pitch, stream.Bank}

// Recognize reports whether a file begins like a log. It reads nothing: what it looks at stays to be read.
func Recognize(plain *capture.Plain) bool {
	head, _ := plain.Peek(headBytes) // an error is met again when it is read
	if isUTF16(head) {
		return true // to say what to do about it
	}
	return dialectOf(head).kind != none
}

// dialectOf finds out how the file is written that begins so.
func dialectOf(head []byte) dialect {
	if !isText(head) {
		return dialect{}
	}
	return recognize(headLines(head, len(head) < headBytes))
}

// Open finds out how a log is written and begins to read it. The reader closes the file's decompression; after an error
// it is closed already. The error is an *Error when the log cannot be read: nothing in it says the time, no map knows
// its columns, or it has no rows.
func Open(plain *capture.Plain, o Options) (*Reader, error) {
	r, err := open(plain, o)
	if err != nil {
		plain.Close()
		return nil, err
	}
	return r, nil
}

func open(plain *capture.Plain, o Options) (*Reader, error) {
	head, _ := plain.Peek(headBytes)
	if err := plain.Err(); err != nil {
		return nil, err
	}
	if isUTF16(head) {
		return nil, failed(phrase.LogUTF16.Of())
	}
	lines := headLines(head, len(head) < headBytes)
	r := &Reader{
		plain:   plain,
		lines:   lineReader{in: plain.Reader},
		dialect: dialectOf(head),
		rate:    o.Rate,
		clock:   clock{begins: o.Modified.UTC()},
	}
	switch r.dialect.kind {
	case none:
		return nil, failed(phrase.LogUnknown.Of())
	case bare:
		return nil, inLine(r.dialect.named, phrase.LogNoRows.Of())
	}
	r.own = findTime(r.dialect.names, r.dialect.units)
	if err := r.readTimes(lines); err != nil {
		return nil, err
	}
	if err := r.tryOut(lines, o); err != nil {
		return nil, err
	}
	r.start(o)
	return r, nil
}

// start puts the reader before the first row.
func (r *Reader) start(o Options) {
	r.wire = wire.NewReader(o.Wire)
	if r.dialect.kind == named || r.dialect.kind == objects {
		r.name()
	}
}

// readTimes finds out how the column of time is written, from its first cell that is not empty.
func (r *Reader) readTimes(lines [][]byte) error {
	if r.own.at < 0 {
		return nil
	}
	for i := r.dialect.first - 1; i < len(lines); i++ {
		cell := r.timeCell(lines[i])
		if len(cell) == 0 {
			continue
		}
		if v, ok := r.dialect.split.withPoint(cell); ok {
			number, _, _ := scan.Number(v, 0)
			r.own.counts = sinceEpoch(number) != number
			return nil
		}
		if _, _, ok := readTime(string(cell)); !ok {
			return inColumn(i+1, r.own.at+1, r.dialect.names[r.own.at],
				phrase.LogBadTime.Of(phrase.Name("value", string(cell))))
		}
		r.own.words = true
		return nil
	}
	return nil
}

// timeCell is the cell of the time in a row of the head.
func (r *Reader) timeCell(line []byte) []byte {
	t := Reader{dialect: r.dialect}
	t.split(line)
	if r.own.at < len(t.cells) {
		return t.cells[r.own.at]
	}
	return nil
}

// tryOut reads the rows of the head as the session will, to find out whether the maps know the columns and what tells
// the time.
func (r *Reader) tryOut(lines [][]byte, o Options) error {
	t := Reader{dialect: r.dialect, own: r.own}
	t.start(o)
	var s stream.Sample
	var fed stream.Set
	rows := 0
	for i := r.dialect.first - 1; i < len(lines); i++ {
		if t.isNoRow(lines[i]) || r.dialect.isRowOfNames(lines[i]) {
			continue
		}
		rows++
		t.convert(lines[i])
		err := t.wire.Decode(t.out, 0, &s)
		fed |= s.Has | t.wire.Bad()
		if err == nil && s.Has.Has(stream.Time) && !r.streams {
			r.streams, r.last = true, s.Value(stream.Time)
		}
	}
	var missing []phrase.Phrase
	for _, c := range vital {
		if !fed.Has(c) {
			missing = append(missing, phrase.Plain(c.String()))
		}
	}
	switch {
	case rows == 0:
		return inLine(r.dialect.named, phrase.LogNoRows.Of())
	case fed == 0 && r.dialect.kind == ordered:
		return inLine(r.dialect.first, phrase.LogNoNames.Of())
	case len(missing) > 0:
		return inLine(max(r.dialect.named, 1), phrase.LogMissing.Of(phrase.List("channels", missing...)))
	case !r.streams && r.own.at < 0 && o.Rate <= 0:
		return inLine(max(r.dialect.named, 1), phrase.LogNoTime.Of())
	}
	return nil
}
