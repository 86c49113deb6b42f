package mapping

import (
	"bytes"
	"math"
	"slices"
	"strings"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/geodesy"
	"halfturn/stream/wire/scan"
	"halfturn/stream/wire/units"
)

// A Plan is a map applied to the columns of one stream.
type Plan struct {
	Map       *Map
	Separator byte
	Columns   []*Source  // for each column the source that reads it, or nil
	Open      bool       // more columns than these may follow and are skipped
	Channels  stream.Set // that the columns feed

	magnetic   bool
	geocentric bool
}

// Bind applies the map to columns with these names. Where several columns could feed a channel, the source listed first
// wins, a true heading before any magnetic one; of two columns with the same name, the left one.
func (m *Map) Bind(names []string) *Plan {
	p := &Plan{Map: m, Separator: m.Separator, Columns: make([]*Source, len(names)), Open: len(names) == 0}
	for _, magnetic := range []bool{false, true} {
		for i := range m.Sources {
			src := &m.Sources[i]
			if src.Magnetic != magnetic || p.Channels.Has(src.Channel) {
				continue
			}
			if c := p.find(names, src); c >= 0 && p.Columns[c] == nil {
				p.Columns[c] = src
				p.Channels = p.Channels.With(src.Channel)
				p.magnetic = p.magnetic || src.Magnetic
				p.geocentric = p.geocentric || src.Geocentric
			}
		}
	}
	return p
}

// find returns the column a source reads, −1 when there is none. A plan that was given no names grows to the columns
// its sources ask for.
func (p *Plan) find(names []string, src *Source) int {
	if src.Column > 0 {
		for p.Open && len(p.Columns) < src.Column {
			p.Columns = append(p.Columns, nil)
		}
		if src.Column <= len(p.Columns) {
			return src.Column - 1
		}
		return -1
	}
	if c := slices.Index(names, src.Name); c >= 0 {
		return c
	}
	return slices.IndexFunc(names, func(name string) bool { return isPathTo(name, src.Name) })
}

// isPathTo reports whether a column is named by the path of a property of JSBSim whose label in a stream is this one:
// its last part, with spaces for underscores.
func isPathTo(name, label string) bool {
	at := strings.LastIndexByte(name, '/')
	if at < 0 || len(name)-at-1 != len(label) || strings.ContainsRune(name[:at], ' ') {
		return false
	}
	for i := range len(label) {
		if c := name[at+1+i]; c != label[i] && (c != '_' || label[i] != ' ') {
			return false
		}
	}
	return true
}

// Decode reads one line of columns, without its line end. A column that is empty stays absent; one that is not a number
// is marked bad. A line with another number of columns is refused as a whole, because a shifted column reads as
// plausible nonsense.
func (p *Plan) Decode(b []byte, s *stream.Sample) error {
	i, sep := 0, p.Separator
	for c, src := range p.Columns {
		if c > 0 {
			if i >= len(b) {
				return fault.ErrTruncated
			}
			i++ // the separator
		}
		i = scan.SkipSpaces(b, i)
		if src != nil && i < len(b) && b[i] != sep {
			v, end, ok := scan.Number(b, i)
			if ok && end < len(b) && b[end] == sep {
				i = end
				src.Put(s, v)
				continue
			}
			if sep != ' ' {
				end = scan.SkipSpaces(b, end)
			}
			if ok && (end == len(b) || b[end] == sep) {
				i = end
				src.Put(s, v)
				continue
			}
			s.Refuse(src.Channel, math.NaN())
		}
		if n := bytes.IndexByte(b[i:], sep); n >= 0 {
			i += n
		} else {
			i = len(b)
		}
	}
	if i < len(b) && !p.Open {
		return fault.ErrMalformed
	}
	return p.finish(s)
}

// finish applies the conversions that need the whole sample.
func (p *Plan) finish(s *stream.Sample) error {
	if err := fault.OfUseless(s); err != nil {
		return err
	}
	s.Magnetic = p.magnetic && s.Has.Has(stream.Heading)
	if p.geocentric {
		ToGeodetic(s)
	}
	return nil
}

// ToGeodetic turns a latitude that was sent geocentric into a geodetic one. Without an altitude it is that of a point
// at sea level, some 10 m off at 10,000 ft.
func ToGeodetic(s *stream.Sample) {
	if lat, ok := s.Get(stream.Latitude); ok {
		phi := geodesy.Geodetic(lat/units.DegreesPerRadian, s.Value(stream.Altitude)*units.Foot)
		s.Put(stream.Latitude, phi*units.DegreesPerRadian)
	}
}
