package text

import (
	"bytes"
	"slices"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/scan"
)

var (
	labelMark  = []byte("<LABELS>")
	statusMark = []byte("<STATUS>")
)

func recognizeColumns(d *format.Datagram) format.Claim {
	if d.Known && len(d.Head) > 0 && (d.Head[0] == '-' || d.Head[0]-'0' <= 9) { // a number, and pairs were asked before
		return format.Yes
	}
	if bytes.HasPrefix(d.Head, labelMark) || bytes.HasPrefix(d.Head, statusMark) {
		return format.Sure
	}
	is, ok := isPairs(d.Head, assignOf(d.Options))
	return format.Is(ok && !is)
}

// A columnsDecoder reads lines of columns. The columns get their meaning from a line of labels, from the map the user
// chose, or from the one shipped map that fits.
type columnsDecoder struct {
	format.Plain
	maps      []*mapping.Map
	forced    bool // the map is the user's
	labeled   bool // the plan comes from labels
	plan      *mapping.Plan
	fails     int    // lines in a row that the plan could not read
	labels    []byte // the last line of labels, to see that it is the same again
	trial     trial
	unmatched int // columns of the last line that fit no map
}

// A trial is a map on probation for a stream without labels.
type trial struct {
	plan *mapping.Plan
	hits int     // lines in a row that passed
	time float64 // of the last
}

// trialLines is how many lines in a row must pass before a map is believed.
const trialLines = 5

func newColumns(o *format.Options) *columnsDecoder {
	return &columnsDecoder{maps: o.Maps, forced: o.Map != nil}
}

func (l *columnsDecoder) Name() string {
	if l.labeled {
		return labeled
	}
	return unlabeled
}

func (l *columnsDecoder) Trying() bool { return l.trial.hits > 0 }

// Decode reads the last complete line. Labels and data may come together.
func (l *columnsDecoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	b = scan.TrimMark(b)
	if bytes.HasPrefix(b, labelMark) {
		if end := bytes.IndexByte(b, '\n'); end >= 0 && len(scan.TrimEnd(b[end:])) > 0 {
			labels := scan.TrimEnd(b[:end])
			if len(labels) > scan.MaxLine {
				return fault.ErrTooLong
			}
			if err := l.Line(labels, s); err != fault.ErrLabels {
				return err
			}
			b = b[end+1:]
		}
	}
	return scan.LastLine(l, b, s)
}

// CutShort returns true: a line that ends early has fewer columns, or any value in the last one.
func (l *columnsDecoder) CutShort(error) bool { return true }

// Line reads one line.
func (l *columnsDecoder) Line(b []byte, s *stream.Sample) error {
	if bytes.HasPrefix(b, labelMark) {
		return l.take(b, bytes.TrimLeft(b[len(labelMark):], " ,"))
	}
	if bytes.HasPrefix(b, statusMark) {
		return fault.ErrStatus
	}
	if l.plan == nil && l.forced {
		l.plan = l.maps[0].InOrder
	}
	if l.plan != nil {
		if err, settled := l.read(b, s); settled {
			return err
		}
		s.Reset()
	}
	if isWord(b) {
		if l.bound(b) >= 3 { // labels without the marker, as in the first line of a CSV file
			return l.take(b, b)
		}
		l.unmatched = 0
		return fault.ErrUnknown
	}
	if l.forced {
		l.unmatched = scan.Columns(b, l.maps[0].Separator)
		return fault.ErrNoLabels
	}
	return l.try(b, s)
}

// read reads a line by the plan. It is not settled when the plan has failed for so long that another may be meant.
func (l *columnsDecoder) read(b []byte, s *stream.Sample) (err error, settled bool) {
	err = l.plan.Decode(b, s)
	if err == nil {
		l.fails, l.unmatched = 0, 0
		return nil, true
	}
	if err == fault.ErrValue && !isWord(b) { // its columns fit
		l.unmatched = 0
		return err, true
	}
	if l.fails++; l.fails < format.Patience || l.forced && !isWord(b) {
		l.unmatched = scan.Columns(b, l.plan.Separator)
		return err, true
	}
	return err, false
}

// isWord reports whether a line begins like a label.
func isWord(b []byte) bool {
	c := b[0] | 0x20
	return c >= 'a' && c <= 'z' && !scan.HasWord(b, "nan") && !scan.HasWord(b, "inf")
}

// bound counts the columns whose label some map knows, at best.
func (l *columnsDecoder) bound(labels []byte) int {
	best := 0
	for _, m := range l.maps {
		n := 0
		for rest, more := labels, true; more; {
			var name []byte
			name, rest, more = scan.Cut(rest, labelSeparator(labels))
			if _, ok := m.SourceNamed(bytes.TrimSpace(name)); ok {
				n++
			}
		}
		best = max(best, n)
	}
	return best
}

// labelSeparator finds what stands between labels: the most likely of those that maps can name.
func labelSeparator(labels []byte) byte {
	for _, sep := range []byte{'\t', ';', ','} {
		if bytes.IndexByte(labels, sep) >= 0 {
			return sep
		}
	}
	return ','
}

// take binds a line of labels; whole is the line as sent. The map that knows most of them is used. The same labels
// are not bound again.
func (l *columnsDecoder) take(whole, labels []byte) error {
	if l.labeled && l.plan != nil && bytes.Equal(whole, l.labels) {
		l.fails = 0
		return fault.ErrLabels
	}
	sep := labelSeparator(labels)
	if scan.Columns(labels, sep) > mapping.MaxColumns {
		return fault.ErrTooLong
	}
	var names []string
	for rest, more := labels, true; more; {
		var name []byte
		name, rest, more = scan.Cut(rest, sep)
		names = append(names, string(bytes.TrimSpace(name)))
	}
	var best *mapping.Plan
	for _, m := range l.maps {
		p := m.Bind(names)
		if best == nil || len(p.Channels.Names()) > len(best.Channels.Names()) {
			best = p
		}
	}
	if best.Channels == 0 {
		l.unmatched = len(names)
		return fault.ErrNoChannels
	}
	best.Separator = sep
	l.plan, l.labeled, l.fails, l.unmatched = best, true, 0, 0
	l.labels = append(l.labels[:0], whole...)
	return fault.ErrLabels
}

// try checks a line of a stream without labels against the one map whose order has as many columns. The map is believed
// when a few lines in a row contain nothing that it rules out.
func (l *columnsDecoder) try(b []byte, s *stream.Sample) error {
	p := l.candidate(b)
	l.unmatched = scan.Columns(b, ',')
	if p == nil {
		l.trial = trial{}
		return fault.ErrNoLabels
	}
	if p != l.trial.plan {
		l.trial = trial{plan: p}
	}
	if p.Decode(b, s) != nil || s.Bad != 0 || s.Value(stream.Time) < l.trial.time || !p.Map.Fits(b) {
		l.trial = trial{}
		return fault.ErrNoLabels
	}
	l.trial.time = s.Value(stream.Time)
	if l.trial.hits++; l.trial.hits < trialLines {
		return fault.ErrNoLabels
	}
	l.plan, l.labeled, l.fails, l.unmatched, l.trial = p, false, 0, 0, trial{}
	l.labels = l.labels[:0]
	return nil
}

// candidate returns the plan of the one map with the right number of columns, nil when there is none or more than one.
func (l *columnsDecoder) candidate(b []byte) *mapping.Plan {
	var only *mapping.Plan
	for _, m := range l.maps {
		if m.InOrder == nil || m.InOrder.Open || scan.Columns(b, m.Separator) != len(m.Order) {
			continue
		}
		if only != nil {
			return nil
		}
		only = m.InOrder
	}
	return only
}

// Advice says what to do about columns that cannot be read.
func (l *columnsDecoder) Advice(q format.Silence) phrase.Phrase {
	if q.Failures < format.Patience || l.unmatched == 0 {
		return phrase.Phrase{}
	}
	if l.forced {
		m := l.maps[0]
		if m.InOrder != nil && !m.InOrder.Open {
			return phrase.ColumnsInOrder.Of(phrase.Int("columns", l.unmatched), phrase.Name("map", m.Name),
				phrase.Int("listed", len(m.Order)))
		}
		return phrase.ColumnsOfMap.Of(phrase.Int("columns", l.unmatched), phrase.Name("map", m.Name))
	}
	if slices.ContainsFunc(l.maps, func(m *mapping.Map) bool { return len(m.Order) == l.unmatched }) {
		return phrase.ColumnsUnlike.Of(phrase.Int("columns", l.unmatched))
	}
	return phrase.ColumnsUnknown.Of(phrase.Int("columns", l.unmatched))
}
