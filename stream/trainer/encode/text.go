package encode

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
	"time"

	"halfturn/configs"
	"halfturn/stream"
	"halfturn/stream/wire/mapping"
)

// Text columns with a line of labels first.
var labelsFormat = &written{
	Name:  "labels",
	Reads: "text with labels",
	Loss: Loss{
		Abs: 1e-9,
		Rel: 1e-9,
	},
	make: newLabels,
}

// Text columns without labels.
var columnsFormat = &written{
	Name:  "columns",
	Reads: "text columns",
	Loss: Loss{
		Abs: 0.06,
	},
	make: func() (Encoder, error) { return newProtocol("halfturn.xml") },
}

// Lines of name=value.
var pairsFormat = &written{
	Name:  "pairs",
	Reads: "text pairs",
	Loss: Loss{
		Abs:      0.06,
		Magnetic: true,
	},
	make: func() (Encoder, error) { return newProtocol("halfturn-pairs.xml") },
}

// text writes lines of columns or pairs.
type text struct {
	preamble  []byte
	separator string
	fields    []textField
}

// textField is one column. Without a source it holds 0, or the time of day.
type textField struct {
	lead   string // before the value, as "name="
	src    *mapping.Source
	verb   byte // 'f', 'g' as printed by strconv, or 's' for the time of day
	digits int
	width  int // right-justified in that many columns
}

func (e *text) Preamble() []byte { return e.preamble }

func (e *text) Channels() (all stream.Set) {
	for i := range e.fields {
		if src := e.fields[i].src; src != nil {
			all = all.With(src.Channel)
		}
	}
	return all
}

func (e *text) Append(dst []byte, s *stream.Sample) []byte {
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
		v, ok := s.Get(f.src.Channel)
		if ok && (f.src.Channel != stream.Heading || f.src.Magnetic == s.Magnetic) {
			v = (v-f.src.Offset)/f.src.Scale + 0 // no negative zero
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

// newLabels writes as JSBSim's output socket does: ten significant digits, each column right-justified in twelve
// places.
func newLabels() (Encoder, error) {
	m := mapping.ShippedNamed("jsbsim")
	e := &text{separator: ","}
	var have stream.Set
	label := []byte("<LABELS> ")
	add := func(src *mapping.Source) {
		if have.Has(src.Channel) {
			return
		}
		have = have.With(src.Channel)
		label = append(append(label, ','), src.Name...)
		e.fields = append(e.fields, textField{src: src, verb: 'g', digits: 10, width: 12})
	}
	for _, name := range m.Order { // as in the shipped set-up file, then what it has no column for
		if n, ok := m.SourceNamed([]byte(name)); ok {
			add(&m.Sources[n])
		}
	}
	for i := range m.Sources {
		add(&m.Sources[i])
	}
	e.preamble = append(label, '\n')
	return e, nil
}

// newProtocol writes what FlightGear sends with a shipped protocol file, digit for digit. It reads that file, so that
// the two cannot differ.
func newProtocol(file string) (Encoder, error) {
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
	m := mapping.ShippedNamed("flightgear")
	e := &text{separator: in.Separator}
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
		if n, ok := m.SourceNamed([]byte(c.Name)); ok {
			f.src = &m.Sources[n]
		}
		e.fields = append(e.fields, f)
	}
	return e, nil
}
