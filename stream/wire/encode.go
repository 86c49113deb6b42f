package wire

import (
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"halfturn/configs"
	"halfturn/stream"
)

// An Encoder writes samples as a simulator would send them: for the built-in aircraft, tests
// and load. What it writes is read back by a Reader with the shipped maps. Channels a format
// has no place for are left out. It is not safe for concurrent use.
type Encoder interface {
	// Preamble is the datagram to send before all others, nil when there is none.
	Preamble() []byte
	// Append adds one datagram to dst and returns the longer slice.
	Append(dst []byte, s *stream.Sample) []byte
}

// A Splitter is an Encoder whose format sends one state in several datagrams. Append puts them
// all into one, which a Reader takes too.
type Splitter interface {
	Encoder
	// Datagrams calls emit with each datagram of a sample, valid only during the call.
	Datagrams(s *stream.Sample, emit func([]byte))
}

// Formats lists the names NewEncoder knows.
func Formats() []string {
	return []string{"labels", "columns", "pairs", "rows", "json",
		"rref", "rpos", "xatt", "gdl90", "fdm24", "fdm25", "binary", "mavlink1", "mavlink2", "dis"}
}

// NewEncoder makes an encoder: "labels" (text columns with a line of labels first),
// "columns" (text columns without labels), "pairs" (name=value), "rows" (binary DATA rows,
// row 16 as RowsNew), "json" (JSON lines), "rref" (dataref replies), "rpos" (position replies),
// "xatt" (text for tablets: a Splitter), "gdl90", "fdm24" and "fdm25" (native flight model),
// "binary" (generic binary, as the shipped protocol file has it), "mavlink1", "mavlink2", "dis"
// (entity state). Those that send some of it only now and then go by the samples' time.
func NewEncoder(format string) (Encoder, error) {
	switch format {
	case "labels":
		return labelEncoder(), nil
	case "columns":
		return protocolEncoder("halfturn.xml")
	case "pairs":
		return protocolEncoder("halfturn-pairs.xml")
	case "rows":
		return rowEncoder{}, nil
	case "json":
		return jsonEncoder{}, nil
	case "rref":
		return repliesEncoder{}, nil
	case "rpos":
		return positionEncoder{}, nil
	case "xatt":
		return &tabletEncoder{}, nil
	case "gdl90":
		return &gdlEncoder{}, nil
	case "fdm24":
		return fdmEncoder{version: 24}, nil
	case "fdm25":
		return fdmEncoder{version: 25}, nil
	case "binary":
		return binaryEncoder{shippedMap("generic-binary")}, nil
	case "mavlink1", "mavlink2":
		return &mavEncoder{second: format == "mavlink2"}, nil
	case "dis":
		return disEncoder{}, nil
	}
	return nil, fmt.Errorf("format %q is not known; allowed: %s", format, strings.Join(Formats(), ", "))
}

// textEncoder writes lines of columns or pairs.
type textEncoder struct {
	preamble  []byte
	separator string
	fields    []textField
}

// textField is one column. Without a source it holds 0, or the time of day.
type textField struct {
	lead   string // before the value, as "name="
	src    *source
	verb   byte // 'f', 'g' as printed by strconv, or 's' for the time of day
	digits int
	width  int // right-justified in that many columns
}

func (e *textEncoder) Preamble() []byte { return e.preamble }

func (e *textEncoder) Append(dst []byte, s *stream.Sample) []byte {
	for i := range e.fields {
		if i > 0 {
			dst = append(dst, e.separator...)
		}
		dst = e.fields[i].append(dst, s)
	}
	return append(dst, '\n')
}

// epoch is the time of day at stream time 0, an arbitrary one.
var epoch = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

func (f *textField) append(dst []byte, s *stream.Sample) []byte {
	dst = append(dst, f.lead...)
	start := len(dst)
	switch {
	case f.verb == 's':
		t := epoch.Add(time.Duration(s.Value(stream.Time) * float64(time.Second)))
		return t.AppendFormat(dst, "2006-01-02T15:04:05")
	case f.src == nil:
		dst = strconv.AppendFloat(dst, 0, f.verb, f.digits, 64)
	default:
		v, ok := s.Get(f.src.channel)
		if ok && (f.src.channel != stream.Heading || f.src.magnetic == s.Magnetic) {
			v = (v-f.src.offset)/f.src.scale + 0 // no negative zero
			dst = strconv.AppendFloat(dst, v, f.verb, f.digits, 64)
		}
	}
	n := len(dst) - start
	for range f.width - n {
		dst = append(dst, ' ')
	}
	if n < f.width { // right-justify
		copy(dst[start+f.width-n:], dst[start:start+n])
		for i := range f.width - n {
			dst[start+i] = ' '
		}
	}
	return dst
}

// shippedMap returns the shipped map of that name.
func shippedMap(name string) *Map {
	maps := ShippedMaps()
	return maps[slices.IndexFunc(maps, func(m *Map) bool { return m.Name == name })]
}

// labelEncoder writes as JSBSim's output socket does: ten significant digits, each column
// right-justified in twelve places.
func labelEncoder() *textEncoder {
	m := shippedMap("jsbsim")
	e := &textEncoder{separator: ","}
	var have stream.Set
	label := []byte("<LABELS> ")
	add := func(src *source) {
		if have.Has(src.channel) {
			return
		}
		have = have.With(src.channel)
		label = append(append(label, ','), src.name...)
		e.fields = append(e.fields, textField{src: src, verb: 'g', digits: 10, width: 12})
	}
	for _, name := range m.order { // as in the shipped set-up file, then what it has no column for
		if n, ok := m.byName[name]; ok {
			add(&m.sources[n])
		}
	}
	for i := range m.sources {
		add(&m.sources[i])
	}
	e.preamble = append(label, '\n')
	return e
}

// protocolEncoder writes what a shipped FlightGear protocol file tells that simulator to
// send, digit for digit; the file is read, so that the two cannot differ.
func protocolEncoder(file string) (*textEncoder, error) {
	data, err := configs.FS.ReadFile("simulators/flightgear/Protocol/" + file)
	if err != nil {
		return nil, err
	}
	var in struct {
		Separator string `xml:"generic>output>var_separator"`
		Chunks    []struct {
			Name   string `xml:"name"`
			Format string `xml:"format"`
		} `xml:"generic>output>chunk"`
	}
	if err := xml.Unmarshal(data, &in); err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	m := shippedMap("flightgear")
	e := &textEncoder{separator: in.Separator}
	for _, c := range in.Chunks {
		lead, verb, _ := strings.Cut(c.Format, "%")
		f := textField{lead: lead, verb: verb[len(verb)-1]}
		switch f.verb {
		case 'f':
			if f.digits, err = strconv.Atoi(strings.Trim(verb, ".f")); err != nil {
				return nil, fmt.Errorf("%s: chunk %s: format %q: %w", file, c.Name, c.Format, err)
			}
		case 'd':
			f.verb = 'f'
		}
		if n, ok := m.byName[c.Name]; ok {
			f.src = &m.sources[n]
		}
		e.fields = append(e.fields, f)
	}
	return e, nil
}

// jsonEncoder writes JSON lines.
type jsonEncoder struct{}

func (jsonEncoder) Preamble() []byte { return nil }

func (jsonEncoder) Append(dst []byte, s *stream.Sample) []byte {
	sep := byte('{')
	for c := range stream.NumChannels {
		v, ok := s.Get(c)
		if !ok {
			continue
		}
		dst = append(append(append(dst, sep, '"'), c.Info().Name...), '"', ':')
		sep = ','
		if c >= stream.StallWarning {
			dst = strconv.AppendBool(dst, v != 0)
		} else {
			dst = strconv.AppendFloat(dst, v, 'g', -1, 64)
		}
	}
	if s.Magnetic {
		dst = append(append(dst, sep), `"magnetic":true`...)
		sep = ','
	}
	if sep == '{' {
		dst = append(dst, sep)
	}
	return append(dst, '}', '\n')
}
