package text

import (
	"bytes"
	"math"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
	"halfturn/stream/wire/scan"
)

func recognizePairs(d *format.Datagram) format.Claim {
	is, ok := isPairs(d.Head, assignOf(d.Options))
	return format.Is(ok && is)
}

// A pairsDecoder reads name=value pairs. Between pairs stands a semicolon, comma, tab, bar or line end, or what the
// user's map says. A record ends where its first name comes again, so that one pair per line is read as well as all
// pairs on one line.
type pairsDecoder struct {
	format.Plain
	maps   []*mapping.Map
	forced bool // the map is the user's
	spaced bool // spaces end a pair
	assign byte
	m      *mapping.Map
	slots  []slot
}

func newPairs(o *format.Options) *pairsDecoder {
	p := &pairsDecoder{maps: o.Maps, forced: o.Map != nil, assign: assignOf(o)}
	p.spaced = p.forced && p.maps[0].Separator == ' '
	return p
}

func (p *pairsDecoder) Name() string { return pairs }

// Decode reads the last record.
func (p *pairsDecoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	return p.record(p.lastRecord(scan.TrimMark(b)), s)
}

// ends reports whether c ends a pair.
func (p *pairsDecoder) ends(c byte) bool {
	switch c {
	case '\n', '\r', 0:
		return true
	case ';', ',', '\t', '|':
		return !p.spaced
	}
	return c == ' ' && p.spaced
}

// token splits off the first pair; the rest begins after what ended it.
func (p *pairsDecoder) token(b []byte) (pair, rest []byte) {
	for i, c := range b {
		if p.ends(c) {
			return b[:i], b[i+1:]
		}
	}
	return b, nil
}

// maxKey is the longest name of a pair, with its assign sign.
const maxKey = 64

// key returns the name of the first pair with its assign sign, nil when there is none.
func (p *pairsDecoder) key(b []byte) []byte {
	b = b[:min(len(b), maxKey)]
	i := bytes.IndexByte(b, p.assign)
	if i <= 0 {
		return nil
	}
	if pair, _ := p.token(b); len(pair) <= i {
		return nil
	}
	return b[:i+1]
}

// lastRecord returns the last record. One that was cut short is still good for the pairs it holds, because each has its
// name. Only as much is searched as a record can be long.
func (p *pairsDecoder) lastRecord(b []byte) []byte {
	key := p.key(b)
	if key == nil {
		return b
	}
	first := max(0, len(b)-scan.MaxLine)
	for end := len(b); end > first; {
		at := bytes.LastIndex(b[first:end], key)
		if at < 0 {
			break
		}
		at += first
		if at == 0 || p.ends(b[at-1]) {
			return b[at:]
		}
		end = at
	}
	return b
}

// record reads one record.
func (p *pairsDecoder) record(b []byte, s *stream.Sample) error {
	if len(b) > scan.MaxLine {
		return fault.ErrTooLong
	}
	if p.m == nil {
		p.choose(b)
	}
	var rank [stream.NumChannels]int16 // the place in the map of the source that was used, from 1
	loose := false                     // a token that is no pair
	for k := 0; len(b) > 0; k++ {
		n, after := p.guess(k, b)
		if after == 0 {
			if n, after = p.name(k, b); after < 0 {
				pair, rest := p.token(b)
				loose = loose || len(bytes.TrimSpace(pair)) > 0
				b = rest
				k--
				continue
			}
		}
		b = b[after:]
		if n < 0 {
			_, b = p.token(b)
			continue
		}
		b = p.value(n, b, &rank, s)
	}
	if loose { // as from decimal commas, which cut numbers in two
		return fault.ErrMalformed
	}
	if s.Has|s.Bad == 0 {
		p.m = nil
		return fault.ErrNoChannels
	}
	return p.finish(&rank, s)
}

// A slot is a name and the source it feeds, at its place in the sender's record. Senders keep the order of their
// records, so a name is compared with the one last seen at its place, and looked up only when it differs.
type slot struct {
	source int16
	length uint8
	name   [maxKey]byte // with the assign sign
}

const maxSlots = 128

// guess returns the source of the pair at b when its name is the one last seen in place k, and where its value begins,
// 0 when it is another name.
func (p *pairsDecoder) guess(k int, b []byte) (source int16, after int) {
	if k >= len(p.slots) {
		return -1, 0
	}
	s := &p.slots[k]
	n := int(s.length)
	if n == 0 || len(b) < n || string(b[:n]) != string(s.name[:n]) {
		return -1, 0
	}
	return s.source, n
}

// name looks up the name of the pair at b and remembers it for place k. The source is −1 for a name that feeds nothing;
// after is −1 when there is no pair at b.
func (p *pairsDecoder) name(k int, b []byte) (source int16, after int) {
	key := p.key(b)
	if key == nil {
		return -1, -1
	}
	source, ok := p.m.SourceNamed(bytes.TrimSpace(key[:len(key)-1]))
	if !ok {
		source = -1
	}
	if p.slots == nil {
		p.slots = make([]slot, maxSlots)
	}
	if k < maxSlots {
		s := &p.slots[k]
		s.source, s.length = source, uint8(copy(s.name[:], key))
	}
	return source, len(key)
}

// value reads the value at the beginning of b for source n and returns what follows it.
func (p *pairsDecoder) value(n int16, b []byte, rank *[stream.NumChannels]int16, s *stream.Sample) []byte {
	if v, end, ok := scan.Number(b, 0); ok && (end == len(b) || p.ends(b[end])) {
		p.store(n, v, true, rank, s)
		return b[min(end+1, len(b)):]
	}
	field, rest := p.token(b)
	if field = bytes.TrimSpace(field); len(field) > 0 {
		v, end, ok := scan.Number(field, 0)
		p.store(n, v, ok && end == len(field), rank, s)
	}
	return rest
}

// store takes the value of source n of the map, unless a better one for its channel was seen. A value that is not a
// number marks the channel bad.
func (p *pairsDecoder) store(n int16, v float64, ok bool, rank *[stream.NumChannels]int16, s *stream.Sample) {
	src := &p.m.Sources[n]
	mine := n + 1
	if src.Magnetic {
		mine += mapping.MaxColumns // after every true heading
	}
	if old := rank[src.Channel]; old != 0 {
		if old < mine {
			return
		}
		s.Drop(src.Channel)
		s.Bad = s.Bad.Without(src.Channel)
	}
	rank[src.Channel] = mine
	if ok {
		src.Put(s, v)
	} else {
		s.Refuse(src.Channel, math.NaN())
	}
}

func (p *pairsDecoder) finish(rank *[stream.NumChannels]int16, s *stream.Sample) error {
	if err := fault.OfUseless(s); err != nil {
		return err
	}
	s.Magnetic = rank[stream.Heading] > mapping.MaxColumns && s.Has.Has(stream.Heading)
	if n := rank[stream.Latitude]; n > 0 && p.m.Sources[n-1].Geocentric {
		mapping.ToGeodetic(s)
	}
	return nil
}

// choose takes the map that knows most of a record's names.
func (p *pairsDecoder) choose(b []byte) {
	clear(p.slots)
	best := -1
	for _, m := range p.maps {
		n := 0
		for rest := b; len(rest) > 0; _, rest = p.token(rest) {
			if key := p.key(rest); key != nil {
				if _, ok := m.SourceNamed(bytes.TrimSpace(key[:len(key)-1])); ok {
					n++
				}
			}
		}
		if n > best {
			best, p.m = n, m
		}
	}
}
