package textlog

import (
	"bytes"
	"slices"
	"strconv"
	"strings"

	"halfturn/stream"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/scan"
)

// A kind is how rows become datagrams.
type kind uint8

const (
	none    kind = iota
	named        // columns with a line of names
	ordered      // columns without one
	asIs         // pairs, and JSON lines with the names of channels
	objects      // other JSON lines
	bare         // a line of names, and no row
)

// A dialect is how a log is written.
type dialect struct {
	kind  kind
	split splitter
	names []string // of the columns
	units []string // below the names, in a line of their own; nil when there is none
	first int      // the line of the first row, from 1
	named int      // the line of the names
}

// recognize finds out how a log is written, from the lines at its head.
func recognize(lines [][]byte) dialect {
	first := slices.IndexFunc(lines, func(l []byte) bool { return len(bytes.TrimSpace(l)) > 0 })
	if first < 0 {
		return dialect{}
	}
	start := bytes.TrimSpace(lines[first])
	switch {
	case start[0] == '{':
		return ofObjects(lines, first)
	case isPairs(start):
		return dialect{kind: asIs, first: first + 1}
	}
	return ofColumns(lines)
}

// isPairs recognizes a line of at least three pairs.
func isPairs(line []byte) bool {
	if c := line[0] | 0x20; c < 'a' || c > 'z' {
		return false
	}
	pairs := 0
	for part := range bytes.FieldsFuncSeq(line, func(r rune) bool { return r == ';' || r == ',' || r == '\t' }) {
		if at := bytes.IndexByte(part, '='); at > 0 && at < len(part)-1 {
			pairs++
		} else {
			return false
		}
	}
	return pairs >= 3
}

// separators are tried in this order.
var separators = []byte{'\t', ';', '|', ',', ' '}

// fewestColumns is how many a log has at least: a time and something that changes with it.
const fewestColumns = 3

// ofColumns finds what separates the columns: what gives most numbers in rows of the same length.
func ofColumns(lines [][]byte) dialect {
	var best splitter
	most, width := 0, 0
	for _, sep := range separators {
		for _, comma := range []bool{false, true} {
			if comma && sep == ',' {
				continue
			}
			s := splitter{sep, comma}
			if n, columns := s.score(lines); n > most {
				best, most, width = s, n, columns
			}
		}
	}
	if most == 0 {
		return ofNamesAlone(lines)
	}
	d := dialect{kind: ordered, split: best}
	d.findRows(lines, width)
	return d
}

// score counts the numbers in rows of the commonest number of columns, and returns that number. Rows in which words
// prevail are names or prose.
func (s splitter) score(lines [][]byte) (numbers, columns int) {
	counts := map[int]int{}
	var cells [][]byte
	for _, l := range lines {
		cells = s.split(cells[:0], l)
		if n, words := s.numbers(cells); len(cells) >= fewestColumns && n >= 2 && n >= words {
			counts[len(cells)] += n
		}
	}
	for columns, n := range counts {
		if n > numbers || n == numbers && columns > numbers {
			numbers = n
		}
	}
	for c, n := range counts {
		if n == numbers {
			columns = max(columns, c)
		}
	}
	return numbers, columns
}

// findRows finds the first row of this many columns, and the names above it.
func (d *dialect) findRows(lines [][]byte, width int) {
	var cells [][]byte
	for i, l := range lines {
		cells = d.split.split(cells[:0], l)
		numbers, words := d.split.numbers(cells)
		switch {
		case len(cells) == width && numbers >= 2 && numbers >= words:
			d.first = i + 1
			return
		case d.isHeader(l, width):
			d.takeNames(l, i+1)
		}
	}
}

// isHeader reports whether a line can name that many columns.
func (d *dialect) isHeader(line []byte, width int) bool {
	cells := d.header(line)
	numbers, words := d.split.numbers(cells)
	return words > numbers && (len(cells) == width || len(cells) == width-1 && len(cells) >= fewestColumns)
}

// header splits a line of names, without what marks it as a comment or as labels.
func (d *dialect) header(line []byte) [][]byte {
	line = bytes.TrimSpace(line)
	if rest, ok := bytes.CutPrefix(line, []byte("<LABELS>")); ok {
		line = bytes.TrimLeft(rest, " ,")
	}
	for _, mark := range []string{"#", "%", "//"} {
		line = bytes.TrimPrefix(line, []byte(mark))
	}
	return d.split.split(nil, line)
}

// takeNames takes a line of names. Below names, one of units belongs to them.
func (d *dialect) takeNames(line []byte, number int) {
	cells := d.header(line)
	names := make([]string, len(cells))
	known := 0
	for i, c := range cells {
		names[i] = nameOf(c, d.split.separator == '|')
		if _, ok := unitNamed(names[i]); ok {
			known++
		}
	}
	if isUnits := known >= 2 && known*2 >= len(names); isUnits {
		d.units = names
		return
	}
	d.kind, d.names, d.named = named, names, number
}

// ofNamesAlone recognizes a line of names that no row follows, by the names that shipped maps know.
func ofNamesAlone(lines [][]byte) dialect {
	for i, l := range lines {
		for _, sep := range separators {
			d := dialect{split: splitter{separator: sep}}
			if cells := d.header(l); len(cells) >= fewestColumns && len(lines) <= 2 {
				d.takeNames(l, i+1)
				if known(d.names) >= 2 {
					d.kind = bare
					return d
				}
			}
		}
	}
	return dialect{}
}

// known counts the names that shipped maps know.
func known(names []string) (n int) {
	for _, m := range mapping.Shipped() {
		n = max(n, len(m.Bind(names).Channels.Names()))
	}
	return n
}

// ofObjects reads the first object of JSON lines.
func ofObjects(lines [][]byte, first int) dialect {
	members, err := flatten(lines[first])
	if err != nil || len(members) == 0 {
		return dialect{}
	}
	d := dialect{kind: objects, first: first + 1, split: splitter{separator: '\t'}}
	channels := 0
	for _, m := range members {
		if _, ok := stream.ChannelNamed(m.name); ok {
			channels++
		}
		d.names = append(d.names, m.name)
	}
	if channels >= 2 && hasTime(members) {
		return dialect{kind: asIs, first: first + 1}
	}
	return d
}

// hasTime reports whether an object has its time as the channel is read from it.
func hasTime(members []member) bool {
	for _, m := range members {
		if m.name == stream.Time.String() {
			v, err := strconv.ParseFloat(string(m.value), 64)
			return err == nil && v <= stream.Time.Info().Max
		}
	}
	return false
}

// isRowOfNames reports whether a row says the names again, or others.
func (d *dialect) isRowOfNames(row []byte) bool {
	if d.kind != named {
		return false
	}
	switch c := row[0] | 0x20; {
	case c >= 'a' && c <= 'z' && !scan.HasWord(row, "nan") && !scan.HasWord(row, "inf"):
	case row[0] == '<', row[0] == '_', row[0] == '"', row[0] == '#', row[0] == ' ':
	default:
		return false
	}
	cells := d.header(row)
	numbers, words := d.split.numbers(cells)
	return numbers == 0 && words == len(cells)-boolToInt(len(cells[len(cells)-1]) == 0) &&
		(len(cells) == len(d.names) || isKnownRow(cells))
}

// isKnownRow reports whether a line has names that a shipped map knows.
func isKnownRow(cells [][]byte) bool {
	names := make([]string, len(cells))
	for i, c := range cells {
		names[i] = nameOf(c, true)
	}
	return known(names) >= 2
}

func boolToInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// isRemark reports whether a line is a comment.
func isRemark(line []byte) bool {
	return len(bytes.TrimSpace(line)) == 0 || line[0] == '#' || line[0] == '%' || strings.HasPrefix(string(line), "//")
}
