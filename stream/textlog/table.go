package textlog

import (
	"bytes"
	"io"
	"math"

	"halfturn/stream/capture"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/scan"
)

// A Column is one column of a log, and what its cells hold.
type Column struct {
	Name      string  // as a map names it
	Unit      string  // as written below the names, or in brackets behind the name; "" when nothing says it
	Numbers   int     // cells that are numbers
	Low, High float64 // of them
	Mean      float64
	Time      bool // its name says that it is a time
}

// A Table is what the columns of a log hold.
type Table struct {
	Separator byte // as maps give it
	Columns   []Column
	Known     *mapping.Map // the shipped map that knows the columns, when one knows the attitude
	Plan      *mapping.Plan
}

// ReadTable reads a whole log for its columns. Memory is that of one row. It fails with an *Error when the log names no
// columns, and with what Reader.Next says of a file that breaks off.
func ReadTable(plain *capture.Plain) (*Table, error) {
	head, _ := plain.Peek(headBytes)
	if isUTF16(head) {
		return nil, failed(phrase.LogUTF16.Of())
	}
	lines := headLines(head, len(head) < headBytes)
	r := &Reader{plain: plain, lines: lineReader{in: plain.Reader}, dialect: dialectOf(head)}
	switch r.dialect.kind {
	case none:
		return nil, failed(phrase.LogUnknown.Of())
	case bare:
		return nil, inLine(r.dialect.named, phrase.LogNoRows.Of())
	case ordered:
		return nil, inLine(r.dialect.first, phrase.LogNoNames.Of())
	case asIs:
		if err := r.byName(lines); err != nil {
			return nil, err
		}
	}
	r.own = findTime(r.dialect.names, r.dialect.units)
	t := newTable(r)
	for {
		line, err := r.lines.next()
		switch {
		case err == io.EOF:
			return t, nil
		case err == errLong || r.lines.n < r.dialect.first && err == nil:
			continue
		case err != nil && plain.Err() != nil:
			return nil, plain.Err()
		case err != nil:
			return nil, &capture.CutError{Err: err}
		case r.isNoRow(line), r.dialect.isRowOfNames(line):
			continue
		}
		r.split(line)
		t.add(r)
	}
}

// byName reads lines of pairs, and objects that are yielded as they are, by the names of the first.
func (r *Reader) byName(lines [][]byte) error {
	r.dialect.kind = objects
	members, err := membersOf(lines[r.dialect.first-1])
	if err != nil {
		return inLine(r.dialect.first, phrase.LogUnknown.Of())
	}
	for _, m := range members {
		r.dialect.names = append(r.dialect.names, m.name)
	}
	return nil
}

// membersOf reads an object, or pairs.
func membersOf(line []byte) (all []member, err error) {
	line = bytes.TrimSpace(line)
	if len(line) == 0 || line[0] == '{' {
		return flatten(line)
	}
	for part := range bytes.FieldsFuncSeq(line, func(r rune) bool { return r == ';' || r == ',' || r == '\t' }) {
		if name, value, ok := bytes.Cut(part, []byte{'='}); ok {
			all = append(all, member{string(bytes.TrimSpace(name)), bytes.TrimSpace(value)})
		}
	}
	return all, nil
}

func newTable(r *Reader) *Table {
	t := &Table{Separator: r.dialect.split.separator}
	if r.dialect.kind == objects {
		t.Separator = ','
	}
	for i, name := range r.dialect.names {
		c := Column{Name: name, Unit: at(r.dialect.units, i), Low: math.Inf(1), High: math.Inf(-1), Time: i == r.own.at}
		if c.Unit == "" {
			c.Unit = inBrackets(name)
		}
		t.Columns = append(t.Columns, c)
	}
	for _, m := range mapping.Shipped() {
		p := m.Bind(r.dialect.names)
		knows := true
		for _, c := range vital {
			knows = knows && p.Channels.Has(c)
		}
		if knows && (t.Plan == nil || len(p.Channels.Names()) > len(t.Plan.Channels.Names())) {
			t.Known, t.Plan = m, p
		}
	}
	return t
}

// add counts the cells of a row.
func (t *Table) add(r *Reader) {
	for i, cell := range r.cells {
		if i == len(t.Columns) {
			return
		}
		c := &t.Columns[i]
		b, ok := r.dialect.split.withPoint(cell)
		if !ok {
			continue
		}
		if v, _, _ := scan.Number(b, 0); v-v == 0 {
			c.Numbers++
			c.Low, c.High = min(c.Low, v), max(c.High, v)
			c.Mean += (v - c.Mean) / float64(c.Numbers)
		}
	}
}

// UnitNamed returns the unit, as a map names it, that a word in the name of a column stands for.
func UnitNamed(word string) (unit string, ok bool) { return unitNamed(word) }
