package wire

import (
	"bytes"
	"fmt"
	"slices"

	"halfturn/stream"
)

// lineReader reads lines of columns. The columns get their meaning from a line of labels,
// from the map the user chose, or from the one shipped map that fits.
type lineReader struct {
	maps      []*Map
	forced    bool
	labeled   bool // the plan comes from labels
	plan      *plan
	fails     int    // lines in a row the plan could not read
	labels    []byte // the last line of labels, to see that it is the same again
	trial     trial
	unmatched int // columns of the last line that fit no map
}

// trial is a map on probation for a stream without labels.
type trial struct {
	plan *plan
	hits int     // lines in a row that passed
	time float64 // of the last
}

// trialLines is how many lines in a row must pass before a map is believed.
const trialLines = 5

func (l *lineReader) decode(b []byte, s *stream.Sample) error {
	if bytes.HasPrefix(b, labelMark) {
		return l.take(b, bytes.TrimLeft(b[len(labelMark):], " ,"))
	}
	if bytes.HasPrefix(b, statusMark) {
		return ErrStatus
	}
	if l.plan == nil && l.forced {
		l.plan = l.maps[0].inOrder
	}
	if l.plan != nil {
		err := l.plan.decode(b, s)
		if err == nil {
			l.fails, l.unmatched = 0, 0
			return nil
		}
		if err == ErrValue && !isWord(b) { // its columns fit
			l.unmatched = 0
			return err
		}
		if l.fails++; l.fails < patience || l.forced && !isWord(b) {
			l.unmatched = count(b, l.plan.sep)
			return err
		}
		s.Reset()
	}
	if isWord(b) {
		if l.bound(b) >= 3 { // labels without the marker, as in the first line of a CSV file
			return l.take(b, b)
		}
		l.unmatched = 0
		return ErrUnknown
	}
	if l.forced {
		l.unmatched = count(b, l.maps[0].separator)
		return ErrNoLabels
	}
	return l.try(b, s)
}

// isWord tells whether a line begins like a label.
func isWord(b []byte) bool {
	c := b[0] | 0x20
	return c >= 'a' && c <= 'z' && !hasWord(b, "nan") && !hasWord(b, "inf")
}

// count returns how many columns a line has.
func count(b []byte, sep byte) int { return 1 + bytes.Count(b, []byte{sep}) }

// bound counts the columns whose label some map knows, at best.
func (l *lineReader) bound(labels []byte) int {
	best := 0
	for _, m := range l.maps {
		n := 0
		for rest, more := labels, true; more; {
			var name []byte
			name, rest, more = cut(rest, labelSeparator(labels))
			if _, ok := m.byName[string(bytes.TrimSpace(name))]; ok {
				n++
			}
		}
		best = max(best, n)
	}
	return best
}

// labelSeparator finds what stands between labels: the most likely of those maps can name.
func labelSeparator(labels []byte) byte {
	for _, sep := range []byte{'\t', ';', ','} {
		if bytes.IndexByte(labels, sep) >= 0 {
			return sep
		}
	}
	return ','
}

func cut(b []byte, sep byte) (first, rest []byte, more bool) {
	if i := bytes.IndexByte(b, sep); i >= 0 {
		return b[:i], b[i+1:], true
	}
	return b, nil, false
}

// take binds a line of labels; whole is the line as sent. The map that knows most of them
// is used. The same labels again cost nothing.
func (l *lineReader) take(whole, labels []byte) error {
	if l.labeled && l.plan != nil && bytes.Equal(whole, l.labels) {
		l.fails = 0
		return ErrLabels
	}
	sep := labelSeparator(labels)
	if count(labels, sep) > maxColumns {
		return ErrTooLong
	}
	var names []string
	for rest, more := labels, true; more; {
		var name []byte
		name, rest, more = cut(rest, sep)
		names = append(names, string(bytes.TrimSpace(name)))
	}
	var best *plan
	for _, m := range l.maps {
		if p := m.bind(names); best == nil || len(p.channels.Names()) > len(best.channels.Names()) {
			best = p
		}
	}
	if best.channels == 0 {
		l.unmatched = len(names)
		return ErrNoChannels
	}
	best.sep = sep
	l.plan, l.labeled, l.fails, l.unmatched = best, true, 0, 0
	l.labels = append(l.labels[:0], whole...)
	return ErrLabels
}

// try puts a line of a stream without labels to the one map whose order has as many columns.
// It is believed when a few lines in a row have nothing in them that the map rules out.
func (l *lineReader) try(b []byte, s *stream.Sample) error {
	p := l.candidate(b)
	l.unmatched = count(b, ',')
	if p == nil {
		l.trial = trial{}
		return ErrNoLabels
	}
	if p != l.trial.plan {
		l.trial = trial{plan: p}
	}
	if p.decode(b, s) != nil || s.Bad != 0 || s.Value(stream.Time) < l.trial.time || !p.m.fits(b) {
		l.trial = trial{}
		return ErrNoLabels
	}
	l.trial.time = s.Value(stream.Time)
	if l.trial.hits++; l.trial.hits < trialLines {
		return ErrNoLabels
	}
	l.plan, l.labeled, l.fails, l.unmatched, l.trial = p, false, 0, 0, trial{}
	l.labels = l.labels[:0]
	return nil
}

// candidate returns the plan of the one map with the right count of columns, nil when there
// is none or more than one.
func (l *lineReader) candidate(b []byte) *plan {
	var only *plan
	for _, m := range l.maps {
		if m.inOrder == nil || m.inOrder.open || count(b, m.separator) != len(m.order) {
			continue
		}
		if only != nil {
			return nil
		}
		only = m.inOrder
	}
	return only
}

// fits tells whether every column of a line is what the map says of it: as the signature has
// it, else a number or empty.
func (m *Map) fits(b []byte) bool {
	for c, more := 0, true; more; c++ {
		var field []byte
		field, b, more = cut(b, m.separator)
		field = bytes.Trim(field, " ")
		checked := false
		for i := range m.checks {
			if m.checks[i].column != c {
				continue
			}
			if checked = true; !m.checks[i].pass(field) {
				return false
			}
		}
		if checked || len(field) == 0 {
			continue
		}
		if _, end, ok := number(field, 0); !ok || end != len(field) {
			return false
		}
	}
	return true
}

// pass tells whether a column is as the check wants it. An empty one passes: the sender has
// no value.
func (c *check) pass(field []byte) bool {
	switch c.is {
	case isISOTime:
		return looksLikeTime(field)
	case isFlag:
		return len(field) == 0 || len(field) == 1 && (field[0] == '0' || field[0] == '1')
	}
	if len(field) == 0 {
		return true
	}
	v, end, ok := number(field, 0)
	return ok && end == len(field) && v >= c.low && v <= c.top
}

// looksLikeTime tells a date and time of day of ISO 8601, as 2000-01-31T10:20:30.
func looksLikeTime(b []byte) bool {
	const shape = "0000-00-00T00:00:00"
	if len(b) < len(shape) {
		return false
	}
	for i := range len(shape) {
		digit := b[i] >= '0' && b[i] <= '9'
		if digit != (shape[i] == '0') || !digit && b[i] != shape[i] {
			return false
		}
	}
	return true
}

// advice says what to do about columns that cannot be read.
func (l *lineReader) advice() string {
	if l.forced {
		m := l.maps[0]
		if m.inOrder != nil && !m.inOrder.open {
			return fmt.Sprintf("The stream has %d columns, the map %q lists %d in its order. Correct the map, or give another with --map FILE.",
				l.unmatched, m.Name, len(m.order))
		}
		return fmt.Sprintf("The stream's %d columns do not fit the map %q. Correct the map, or give another with --map FILE.", l.unmatched, m.Name)
	}
	if slices.ContainsFunc(l.maps, func(m *Map) bool { return len(m.order) == l.unmatched }) {
		return fmt.Sprintf("The stream has %d columns without labels; a known map has as many, but their values do not look like it. "+
			"Restart the simulator's output so that it sends its labels, or describe the columns in a map file and give it with --map FILE.", l.unmatched)
	}
	return fmt.Sprintf("The stream has %d columns without labels and no known map has as many. "+
		"Restart the simulator's output so that it sends its labels, or describe the columns in a map file and give it with --map FILE.", l.unmatched)
}
