package wire

import (
	"bytes"
	"math"

	"halfturn/stream"
)

// A plan is a map applied to the columns of one stream: for each column the source that
// reads it, or nil.
type plan struct {
	m         *Map
	sep       byte
	columns   []*source
	open      bool // more columns than these may follow and are skipped
	channels  stream.Set
	magnetic  bool
	geocentry bool
}

// bind applies the map to columns with these names. Where several columns could feed a
// channel, the source listed first wins, a true heading before any magnetic one; of two
// columns with the same name, the left one.
func (m *Map) bind(names []string) *plan {
	p := &plan{m: m, sep: m.separator, columns: make([]*source, len(names)), open: len(names) == 0}
	for _, magnetic := range []bool{false, true} {
		for i := range m.sources {
			src := &m.sources[i]
			if src.magnetic != magnetic || p.channels.Has(src.channel) {
				continue
			}
			if c := p.find(names, src); c >= 0 && p.columns[c] == nil {
				p.columns[c] = src
				p.channels = p.channels.With(src.channel)
				p.magnetic = p.magnetic || src.magnetic
				p.geocentry = p.geocentry || src.geocentric
			}
		}
	}
	return p
}

// find returns the column a source reads, -1 when there is none. A plan that was given no
// names grows to the columns its sources ask for.
func (p *plan) find(names []string, src *source) int {
	if src.column > 0 {
		for p.open && len(p.columns) < src.column {
			p.columns = append(p.columns, nil)
		}
		if src.column <= len(p.columns) {
			return src.column - 1
		}
		return -1
	}
	for c, name := range names {
		if name == src.name {
			return c
		}
	}
	return -1
}

// decode reads one line of columns, without its line end. A column that is empty stays
// absent; one that is not a number is marked bad. A line with another count of columns is
// refused as a whole, because a shifted column reads as plausible nonsense.
func (p *plan) decode(b []byte, s *stream.Sample) error {
	i, sep := 0, p.sep
	for c, src := range p.columns {
		if c > 0 {
			if i >= len(b) {
				return ErrTruncated
			}
			i++ // the separator
		}
		i = skipSpaces(b, i)
		if src != nil && i < len(b) && b[i] != sep {
			v, end, ok := number(b, i)
			if ok && end < len(b) && b[end] == sep {
				i = end
				src.put(s, v)
				continue
			}
			if sep != ' ' {
				end = skipSpaces(b, end)
			}
			if ok && (end == len(b) || b[end] == sep) {
				i = end
				src.put(s, v)
				continue
			}
			s.Refuse(src.channel, math.NaN())
		}
		if n := bytes.IndexByte(b[i:], sep); n >= 0 {
			i += n
		} else {
			i = len(b)
		}
	}
	if i < len(b) && !p.open {
		return ErrMalformed
	}
	return p.finish(s)
}

// finish does what needs the whole sample.
func (p *plan) finish(s *stream.Sample) error {
	if err := useless(s); err != nil {
		return err
	}
	s.Magnetic = p.magnetic && s.Has.Has(stream.Heading)
	if p.geocentry {
		toGeodetic(s)
	}
	return nil
}

// toGeodetic turns a latitude that was sent geocentric into a geodetic one. Without an
// altitude it is that of a point at sea level, some 10 m off at 10,000 ft.
func toGeodetic(s *stream.Sample) {
	if lat, ok := s.Get(stream.Latitude); ok {
		s.Put(stream.Latitude, geodetic(lat, s.Value(stream.Altitude)))
	}
}
