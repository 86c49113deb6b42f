package wire

import (
	"fmt"
	"path"
	"strings"
	"sync"

	"halfturn/configs"
	"halfturn/configs/strict"
	"halfturn/stream"
)

// A Map says which column or name of a text stream feeds which channel. It is made by
// LoadMap and never changed after, so that many Readers can share it.
type Map struct {
	Name  string // of its file, without the ending
	Title string // as read by people

	separator byte // between columns
	assign    byte // between name and value in pairs
	order     []string
	checks    []check
	sources   []source
	byName    map[string]int16 // index of a source
	inOrder   *plan            // for streams without labels; nil when there is no order
	layout    *layout          // of binary records; nil for text
}

// source is one column or name and the channel it feeds: value = sent × scale + offset.
type source struct {
	name       string // "" when given by column
	column     int    // from 1, 0 when given by name
	channel    stream.Channel
	magnetic   bool
	geocentric bool
	scale      float64
	offset     float64
}

// check is what a column of a stream without labels must look like.
type check struct {
	column   int // from 0
	is       string
	low, top float64
}

// The kinds of check besides a span of values.
const (
	isISOTime = "iso-time" // begins with a date and a time of day, as 2000-01-31T10:20:30
	isFlag    = "flag"     // 0 or 1
	isSpan    = "span"
)

// mapFile is a map as written.
type mapFile struct {
	Title     string       `toml:"title"`
	Separator string       `toml:"separator"`
	Assign    string       `toml:"assign"`
	Order     []string     `toml:"order"`
	Signature []fileCheck  `toml:"signature"`
	Sources   []fileSource `toml:"sources"`
	Binary    *mapBinary   `toml:"binary"`
}

type fileCheck struct {
	Name    string      `toml:"name"`
	Is      string      `toml:"is"`
	Between *[2]float64 `toml:"between"`
}

type fileSource struct {
	Name     string   `toml:"name"`
	Column   int      `toml:"column"`
	Channel  string   `toml:"channel"`
	Unit     string   `toml:"unit"`
	Sign     *int     `toml:"sign"`
	Factor   *float64 `toml:"factor"`
	Offset   float64  `toml:"offset"`
	Magnetic bool     `toml:"magnetic"`
}

var separators = map[string]byte{"": ',', ",": ',', ";": ';', "|": '|', "tab": '\t', "space": ' ', "newline": '\n'}

// LoadMap reads a map. The name is that of its file, used in errors, which are of the form
// "file:line: key: what is wrong; what is allowed".
func LoadMap(name string, data []byte) (*Map, error) {
	var in mapFile
	file, err := strict.Decode(name, data, &in)
	if err != nil {
		return nil, err
	}
	m := &Map{
		Name:   strings.TrimSuffix(path.Base(name), path.Ext(name)),
		Title:  in.Title,
		order:  in.Order,
		byName: map[string]int16{},
	}
	if m.Title == "" {
		m.Title = m.Name
	}
	l := loader{m: m, file: file}
	if err := l.load(&in); err != nil {
		return nil, err
	}
	if m.layout == nil && (len(m.order) > 0 || m.byColumn()) {
		m.inOrder = m.bind(m.order)
	}
	return m, nil
}

// loader checks what was written and fills a map.
type loader struct {
	m    *Map
	file *strict.File
}

func (l *loader) load(in *mapFile) error {
	var ok bool
	if l.m.separator, ok = separators[in.Separator]; !ok {
		return l.file.Errorf("separator", "is %q; allowed: %q, %q, %q, tab, space, newline", in.Separator, ",", ";", "|")
	}
	switch in.Assign {
	case "", "=":
		l.m.assign = '='
	case ":":
		l.m.assign = ':'
	default:
		return l.file.Errorf("assign", "is %q; allowed: %q, %q", in.Assign, "=", ":")
	}
	if len(in.Order) > maxColumns {
		return l.file.Errorf("order", "has %d columns; at most %d are allowed", len(in.Order), maxColumns)
	}
	if len(in.Sources) == 0 || len(in.Sources) > maxColumns {
		return l.file.Errorf("sources", "has %d entries; from 1 to %d are allowed", len(in.Sources), maxColumns)
	}
	for i := range in.Sources {
		if err := l.source(i, &in.Sources[i]); err != nil {
			return err
		}
	}
	for i := range in.Signature {
		if err := l.check(i, &in.Signature[i]); err != nil {
			return err
		}
	}
	if in.Binary != nil {
		return l.binary(in)
	}
	return nil
}

// errorf makes an error about a key of one entry of an array.
func (l *loader) errorf(array string, i int, key, format string, args ...any) error {
	return l.file.Errorf(fmt.Sprintf("%s[%d].%s", array, i, key), format, args...)
}

func (l *loader) source(i int, in *fileSource) error {
	fail := func(key, format string, args ...any) error {
		return l.errorf("sources", i, key, format, args...)
	}
	if (in.Name == "") == (in.Column == 0) {
		return fail("name", "give either name or column (from 1), not both and not neither")
	}
	if in.Column < 0 || in.Column > maxColumns {
		return fail("column", "is %d; allowed: 1 to %d", in.Column, maxColumns)
	}
	if _, twice := l.m.byName[in.Name]; twice && in.Name != "" {
		return fail("name", "%q is listed twice", in.Name)
	}
	c, ok := stream.ChannelNamed(in.Channel)
	if !ok {
		return fail("channel", "%q is no channel; allowed: %s", in.Channel, strings.Join(stream.ChannelNames(), ", "))
	}
	factor, err := unitFactor(c, in.Unit)
	if err != nil {
		return fail("unit", "%v", err)
	}
	if in.Sign != nil {
		if *in.Sign != 1 && *in.Sign != -1 {
			return fail("sign", "is %d; allowed: 1, -1", *in.Sign)
		}
		factor *= float64(*in.Sign)
	}
	if in.Factor != nil {
		if f := *in.Factor; f == 0 || f-f != 0 {
			return fail("factor", "is %v; allowed: any number but 0", f)
		}
		factor *= *in.Factor
	}
	if in.Offset-in.Offset != 0 {
		return fail("offset", "is %v; allowed: any number, in the channel's unit %s", in.Offset, c.Info().Unit)
	}
	if in.Magnetic && c != stream.Heading {
		return fail("magnetic", "is only for the channel heading")
	}
	for k := range l.m.sources {
		if in.Column > 0 && l.m.sources[k].column == in.Column {
			return fail("column", "%d is listed twice", in.Column)
		}
	}
	if in.Name != "" {
		l.m.byName[in.Name] = int16(len(l.m.sources))
	}
	l.m.sources = append(l.m.sources, source{
		name: in.Name, column: in.Column, channel: c, magnetic: in.Magnetic,
		geocentric: in.Unit == geocentric, scale: factor, offset: in.Offset,
	})
	return nil
}

func (l *loader) check(i int, in *fileCheck) error {
	column := -1
	for c, name := range l.m.order {
		if name == in.Name {
			column = c
		}
	}
	if column < 0 {
		return l.errorf("signature", i, "name", "%q is not a column of order", in.Name)
	}
	out := check{column: column, is: in.Is}
	switch {
	case in.Between != nil && in.Is == "":
		out.is, out.low, out.top = isSpan, in.Between[0], in.Between[1]
		if !(out.low < out.top) {
			return l.errorf("signature", i, "between", "is [%v, %v]; the first must be below the second", out.low, out.top)
		}
	case in.Between != nil || in.Is != isISOTime && in.Is != isFlag:
		return l.errorf("signature", i, "is", "give either is = %q, is = %q or between = [low, high]", isISOTime, isFlag)
	}
	l.m.checks = append(l.m.checks, out)
	return nil
}

// byColumn tells whether a source is given by column.
func (m *Map) byColumn() bool {
	for i := range m.sources {
		if m.sources[i].column > 0 {
			return true
		}
	}
	return false
}

var shipped = sync.OnceValue(func() []*Map {
	files, err := configs.FS.ReadDir("maps")
	if err != nil {
		panic(err) // the maps are part of the program
	}
	var maps []*Map
	for _, f := range files {
		name := "maps/" + f.Name()
		data, err := configs.FS.ReadFile(name)
		if err != nil {
			panic(err)
		}
		m, err := LoadMap(name, data)
		if err != nil {
			panic(err) // a test loads them all
		}
		maps = append(maps, m)
	}
	return maps
})

// ShippedMaps returns the maps that come with the program. They are shared: change nothing.
func ShippedMaps() []*Map { return shipped() }

// put converts a value as sent and stores it.
func (src *source) put(s *stream.Sample, v float64) {
	v = v*src.scale + src.offset
	if src.channel >= stream.StallWarning && (v < 0 || v > 0) {
		v = 1 // a flag: whatever is not 0 is set
	}
	s.Put(src.channel, v)
}
