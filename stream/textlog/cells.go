package textlog

import (
	"bytes"
	"strings"
	"unicode/utf8"

	"halfturn/stream/wire/scan"
)

// A splitter splits rows into cells.
type splitter struct {
	separator byte // ' ' is any number of blanks
	comma     bool // decimal comma
}

// split appends the cells of a row, trimmed and without quotes. A separator at the end of the row, as some logs have
// it, is followed by a last cell that is empty.
func (s splitter) split(cells [][]byte, row []byte) [][]byte {
	if s.separator == ' ' {
		return append(cells, bytes.Fields(row)...)
	}
	for more := true; more; {
		var cell []byte
		cell, row, more = s.cut(row)
		cells = append(cells, cell)
	}
	return cells
}

// cut splits off the first cell (quotes: RFC 4180, section 2; a row is one line here).
func (s splitter) cut(row []byte) (cell, rest []byte, more bool) {
	trimmed := bytes.TrimLeft(row, " ")
	if len(trimmed) > 1 && trimmed[0] == '"' {
		if end := closing(trimmed); end > 0 {
			after := trimmed[end+1:]
			between, rest, more := scan.Cut(after, s.separator)
			if len(bytes.TrimSpace(between)) == 0 {
				return bytes.ReplaceAll(trimmed[1:end], []byte(`""`), []byte(`"`)), rest, more
			}
		}
	}
	cell, rest, more = scan.Cut(row, s.separator)
	return bytes.TrimSpace(cell), rest, more
}

// closing returns where the quote closes that the text begins with; 0 when it does not.
func closing(b []byte) int {
	for i := 1; i < len(b); i++ {
		if b[i] != '"' {
			continue
		}
		if i+1 < len(b) && b[i+1] == '"' {
			i++
			continue
		}
		return i
	}
	return 0
}

// withPoint returns a number as written with a decimal point, and whether the cell is a number.
func (s splitter) withPoint(cell []byte) ([]byte, bool) {
	if len(cell) == 0 {
		return cell, false
	}
	if s.comma {
		if at := bytes.IndexByte(cell, ','); at >= 0 {
			cell = bytes.Clone(cell)
			cell[at] = '.'
		}
	}
	if cell[0] == '+' && len(cell) > 1 {
		cell = cell[1:]
	}
	_, end, ok := scan.Number(cell, 0)
	return cell, ok && end == len(cell)
}

// numbers counts the cells that are numbers, and those that are not and not empty.
func (s splitter) numbers(cells [][]byte) (numbers, words int) {
	for _, c := range cells {
		if _, ok := s.withPoint(c); ok {
			numbers++
		} else if len(c) > 0 {
			words++
		}
	}
	return numbers, words
}

// appendCell appends a cell as a stream of columns can have it: without what separates columns or makes pairs.
func appendCell(out, cell []byte, separator byte) []byte {
	for _, c := range cell {
		switch c {
		case separator, '\t', '\n', '\r', 0:
			c = ' '
		case '=':
			c = ':'
		}
		out = append(out, c)
	}
	return out
}

// nameOf returns the name of a column as maps give it: in UTF-8, and without the underscores that pad it.
func nameOf(cell []byte, padded bool) string {
	name := string(cell)
	if !utf8.Valid(cell) { // a code page; Latin-1 is the likeliest
		runes := make([]rune, len(cell))
		for i, c := range cell {
			runes[i] = rune(c)
		}
		name = string(runes)
	}
	if padded {
		parts := strings.Split(name, ",")
		for i := range parts {
			parts[i] = strings.Trim(parts[i], "_ ")
		}
		name = strings.Join(parts, ",")
	}
	return strings.TrimSpace(string(appendCell(nil, []byte(name), '\t')))
}
