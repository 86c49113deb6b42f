package mapping

import (
	"fmt"
	"path"
	"strconv"
	"strings"

	"halfturn/configs/strict"
	"halfturn/stream"
	"halfturn/stream/wire/units"
)

// MaxColumns is how many columns, sources or chunks a stream may have.
const MaxColumns = 512

// mapFile is a map as written.
type mapFile struct {
	Title     string       `toml:"title"`
	Separator string       `toml:"separator"`
	Assign    string       `toml:"assign"`
	Order     []string     `toml:"order"`
	Signature []fileCheck  `toml:"signature"`
	Sources   []fileSource `toml:"sources"`
	Binary    *fileBinary  `toml:"binary"`
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

// fileBinary is the table of a map that describes a layout.
type fileBinary struct {
	ByteOrder string      `toml:"byte-order"`
	Footer    string      `toml:"footer"`
	Chunks    []fileChunk `toml:"chunks"`
}

type fileChunk struct {
	Name string `toml:"name"`
	Type string `toml:"type"`
}

var separators = map[string]byte{
	"":        ',',
	",":       ',',
	";":       ';',
	"|":       '|',
	"tab":     '\t',
	"space":   ' ',
	"newline": '\n',
}

// Load reads a map. The name is that of its file, used in errors, which have the form "file:line: key: what is wrong
// and what it must be".
func Load(name string, data []byte) (*Map, error) {
	var in mapFile
	file, err := strict.Decode(name, data, &in)
	if err != nil {
		return nil, err
	}
	m := &Map{
		Name:   strings.TrimSuffix(path.Base(name), path.Ext(name)),
		Title:  in.Title,
		Order:  in.Order,
		byName: map[string]int16{},
	}
	if m.Title == "" {
		m.Title = m.Name
	}
	l := loader{m: m, file: file}
	if err := l.load(&in); err != nil {
		return nil, err
	}
	if m.Layout == nil && (len(m.Order) > 0 || m.byColumn()) {
		m.InOrder = m.Bind(m.Order)
	}
	return m, nil
}

// byColumn reports whether a source is given by column.
func (m *Map) byColumn() bool {
	for i := range m.Sources {
		if m.Sources[i].Column > 0 {
			return true
		}
	}
	return false
}

// A loader checks what was written and fills a map.
type loader struct {
	m    *Map
	file *strict.File
}

func (l *loader) load(in *mapFile) error {
	var ok bool
	if l.m.Separator, ok = separators[in.Separator]; !ok {
		const must = "is %q; must be %q, %q, %q, tab, space or newline"
		return l.file.Errorf("separator", must, in.Separator, ",", ";", "|")
	}
	switch in.Assign {
	case "", "=":
		l.m.Assign = '='
	case ":":
		l.m.Assign = ':'
	default:
		return l.file.Errorf("assign", "is %q; must be %q or %q", in.Assign, "=", ":")
	}
	if len(in.Order) > MaxColumns {
		return l.file.Errorf("order", "has %d columns; must be at most %d", len(in.Order), MaxColumns)
	}
	if len(in.Sources) == 0 || len(in.Sources) > MaxColumns {
		return l.file.Errorf("sources", "has %d entries; must be between 1 and %d", len(in.Sources), MaxColumns)
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
	if err := l.place(in, fail); err != nil {
		return err
	}
	c, ok := stream.ChannelNamed(in.Channel)
	if !ok {
		return fail("channel", "%q is no channel; must be one of %s", in.Channel,
			strings.Join(stream.ChannelNames(), ", "))
	}
	scale, err := scaleOf(c, in, fail)
	if err != nil {
		return err
	}
	if in.Offset-in.Offset != 0 {
		return fail("offset", "is %v; must be a number, in the channel's unit %s", in.Offset, c.Info().Unit)
	}
	if in.Magnetic && c != stream.Heading {
		return fail("magnetic", "is only for the channel heading")
	}
	if in.Name != "" {
		l.m.byName[in.Name] = int16(len(l.m.Sources))
	}
	l.m.Sources = append(l.m.Sources, Source{
		Name:       in.Name,
		Column:     in.Column,
		Channel:    c,
		Magnetic:   in.Magnetic,
		Geocentric: in.Unit == units.Geocentric,
		Scale:      scale,
		Offset:     in.Offset,
	})
	return nil
}

// place checks by what a source is found: a name or a column, neither taken before.
func (l *loader) place(in *fileSource, fail func(key, format string, args ...any) error) error {
	if (in.Name == "") == (in.Column == 0) {
		return fail("name", "give either name or column (from 1), not both and not neither")
	}
	if in.Column < 0 || in.Column > MaxColumns {
		return fail("column", "is %d; must be between 1 and %d", in.Column, MaxColumns)
	}
	if _, twice := l.m.byName[in.Name]; twice && in.Name != "" {
		return fail("name", "%q is listed twice", in.Name)
	}
	for k := range l.m.Sources {
		if in.Column > 0 && l.m.Sources[k].Column == in.Column {
			return fail("column", "%d is listed twice", in.Column)
		}
	}
	return nil
}

// scaleOf returns what one as sent is in the channel's unit.
func scaleOf(c stream.Channel, in *fileSource, fail func(key, format string, args ...any) error) (float64, error) {
	scale, err := units.Factor(c, in.Unit)
	if err != nil {
		return 0, fail("unit", "%v", err)
	}
	if in.Sign != nil {
		if *in.Sign != 1 && *in.Sign != -1 {
			return 0, fail("sign", "is %d; must be 1 or -1", *in.Sign)
		}
		scale *= float64(*in.Sign)
	}
	if in.Factor != nil {
		if f := *in.Factor; f == 0 || f-f != 0 {
			return 0, fail("factor", "is %v; must be a number other than 0", f)
		}
		scale *= *in.Factor
	}
	return scale, nil
}

func (l *loader) check(i int, in *fileCheck) error {
	column := -1
	for c, name := range l.m.Order {
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
		out.is, out.low, out.high = isSpan, in.Between[0], in.Between[1]
		if !(out.low < out.high) {
			const must = "is [%v, %v]; the first must be below the second"
			return l.errorf("signature", i, "between", must, out.low, out.high)
		}
	case in.Between != nil || in.Is != isISOTime && in.Is != isFlag:
		const must = "give either is = %q, is = %q or between = [low, high]"
		return l.errorf("signature", i, "is", must, isISOTime, isFlag)
	}
	l.m.checks = append(l.m.checks, out)
	return nil
}

// binary checks a layout as written.
func (l *loader) binary(in *mapFile) error {
	f := &Layout{Little: in.Binary.ByteOrder == "host"}
	switch in.Binary.ByteOrder {
	case "", "network", "host":
	default:
		return l.file.Errorf("binary.byte-order", "is %q; must be network or host", in.Binary.ByteOrder)
	}
	if err := l.footer(f, in.Binary.Footer); err != nil {
		return err
	}
	if n := len(in.Binary.Chunks); n == 0 || n > MaxColumns {
		return l.file.Errorf("binary.chunks", "has %d entries; must be between 1 and %d", n, MaxColumns)
	}
	if len(in.Order) > 0 || len(in.Signature) > 0 {
		return l.file.Errorf("order", "and signature are of text streams; the chunks of binary have their own order")
	}
	names, varies := []string{}, false
	for i, c := range in.Binary.Chunks {
		k, ok := chunkTypes[c.Type]
		if !ok {
			const must = "entry %d has type %q; must be bool, byte, word, int, fixed, float, double or string"
			return l.file.Errorf("binary.chunks", must, i+1, c.Type)
		}
		f.Chunks = append(f.Chunks, k)
		f.size += k.size
		varies = varies || k.Kind == String
		names = append(names, c.Name)
	}
	if varies {
		f.size = 0
	}
	f.Marked = f.footer == footerMagic && !varies
	f.Plan = l.m.Bind(names)
	if f.Plan.Channels == 0 {
		return l.file.Errorf("sources", "name none of the chunks")
	}
	l.m.Layout = f
	return nil
}

func (l *loader) footer(f *Layout, as string) error {
	switch as {
	case "", "none":
	case "length":
		f.footer = footerLength
	default:
		n, err := strconv.ParseUint(strings.TrimPrefix(as, "0x"), 16, 32)
		if err != nil || !strings.HasPrefix(as, "0x") {
			const must = "is %q; must be none, length or a number such as 0x12345678"
			return l.file.Errorf("binary.footer", must, as)
		}
		f.footer, f.Number = footerMagic, uint32(n)
	}
	return nil
}
