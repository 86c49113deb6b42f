package wire

import (
	"bytes"

	"halfturn/stream"
)

// pairReader reads name=value pairs. Between pairs stands a semicolon, comma, tab, bar or
// line end, or what the user's map says. A record ends where its first name comes again, so
// that one pair a line is read as well as all pairs on one line.
type pairReader struct {
	maps   []*Map
	forced bool
	m      *Map
}

// ends tells whether c ends a pair.
func (p *pairReader) ends(c byte) bool {
	switch c {
	case '\n', '\r', 0:
		return true
	case ';', ',', '\t', '|':
		return !p.forced || p.maps[0].separator != ' '
	}
	return c == ' ' && p.forced && p.maps[0].separator == ' '
}

func (p *pairReader) assign() byte {
	if p.forced {
		return p.maps[0].assign
	}
	return '='
}

// token splits off the first pair; the rest begins after what ended it.
func (p *pairReader) token(b []byte) (pair, rest []byte) {
	for i, c := range b {
		if p.ends(c) {
			return b[:i], b[i+1:]
		}
	}
	return b, nil
}

// key returns the name of the first pair with its assign sign, nil when there is none.
func (p *pairReader) key(b []byte) []byte {
	pair, _ := p.token(b)
	if i := bytes.IndexByte(pair, p.assign()); i > 0 {
		return pair[:i+1]
	}
	return nil
}

// firstRecord returns where the second record begins, the length of b when there is none.
func (p *pairReader) firstRecord(b []byte) int {
	key := p.key(b)
	for at := len(key); key != nil; {
		i := bytes.Index(b[at:], key)
		if i < 0 {
			break
		}
		if at += i; p.ends(b[at-1]) {
			return at
		}
		at += len(key)
	}
	return len(b)
}

// lastRecord returns the last record. One that was cut short is still good for the pairs it
// holds, because each has its name.
func (p *pairReader) lastRecord(b []byte) []byte {
	if n := len(b) - maxLine; n > 0 { // a record is shorter, and junk must cost little
		key := p.key(b)
		if i := bytes.Index(b[n:], key); key != nil && i >= 0 && p.ends(b[n+i-1]) {
			b = b[n+i:]
		}
	}
	key := p.key(b)
	for end := len(b); key != nil && end > 0; {
		at := bytes.LastIndex(b[:end], key)
		if at <= 0 || p.ends(b[at-1]) {
			return b[max(at, 0):]
		}
		end = at
	}
	return b
}

// decode reads one record.
func (p *pairReader) decode(b []byte, s *stream.Sample) error {
	if len(b) > maxLine {
		return ErrTooLong
	}
	if p.m == nil {
		p.choose(b)
	}
	var rank [stream.NumChannels]int16 // the place in the map of the source that was used, from 1
	loose := 0                         // tokens that are no pairs
	for len(b) > 0 {
		var pair []byte
		pair, b = p.token(b)
		i := bytes.IndexByte(pair, p.assign())
		if i <= 0 {
			if len(bytes.TrimSpace(pair)) > 0 {
				loose++
			}
			continue
		}
		if n, ok := p.m.byName[string(bytes.TrimSpace(pair[:i]))]; ok {
			p.store(n, bytes.TrimSpace(pair[i+1:]), &rank, s)
		}
	}
	if loose > 0 { // as from decimal commas, which cut numbers in two
		return ErrMalformed
	}
	if s.Has|s.Bad == 0 {
		p.m = nil
		return ErrNoChannels
	}
	return p.finish(&rank, s)
}

// store takes the value of source n of the map, unless a better one for its channel was seen.
func (p *pairReader) store(n int16, field []byte, rank *[stream.NumChannels]int16, s *stream.Sample) {
	src := &p.m.sources[n]
	mine := n + 1
	if src.magnetic {
		mine += maxColumns // after every true heading
	}
	if old := rank[src.channel]; len(field) == 0 || old != 0 && old < mine {
		return
	}
	rank[src.channel] = mine
	s.Drop(src.channel)
	s.Bad = s.Bad.Without(src.channel)
	if v, end, ok := number(field, 0); ok && end == len(field) {
		src.put(s, v)
	} else {
		s.Bad = s.Bad.With(src.channel)
	}
}

func (p *pairReader) finish(rank *[stream.NumChannels]int16, s *stream.Sample) error {
	if s.Has == 0 || s.Bad.Has(stream.Time) {
		return ErrMalformed
	}
	s.Magnetic = rank[stream.Heading] > maxColumns && s.Has.Has(stream.Heading)
	if n := rank[stream.Latitude]; n > 0 && p.m.sources[n-1].geocentric {
		toGeodetic(s)
	}
	return nil
}

// choose takes the map that knows most of a record's names.
func (p *pairReader) choose(b []byte) {
	best := -1
	for _, m := range p.maps {
		n := 0
		for rest := b; len(rest) > 0; {
			var pair []byte
			pair, rest = p.token(rest)
			if i := bytes.IndexByte(pair, p.assign()); i > 0 {
				if _, ok := m.byName[string(bytes.TrimSpace(pair[:i]))]; ok {
					n++
				}
			}
		}
		if n > best {
			best, p.m = n, m
		}
	}
}
