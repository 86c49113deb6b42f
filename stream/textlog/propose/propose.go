// Package propose writes a map for the columns of a text log that no map knows: which column feeds which channel, in
// which unit, as their names and values suggest. It is a proposal: a person reads it, corrects it and saves it.
package propose

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"halfturn/stream"
	"halfturn/stream/textlog"
	"halfturn/stream/wire/units"
)

// Map returns a map as TOML. Its comments say for each column which values it holds, which columns are not used and
// which channels stay empty. file is the name of the log.
func Map(t *textlog.Table, file string) string {
	if t.Known != nil {
		return known(t, file)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# Proposed by the names and values of the columns of %s.\n", file)
	b.WriteString("# Check each line, above all units and signs: nose up, right wing down, climb,\n" +
		"# stick aft and right, right pedal are positive, and a load factor is +1 in\n" +
		"# level flight; sign = -1 turns one round. Then save it and give it with\n# --map FILE.\n\n")
	fmt.Fprintf(&b, "title = %q\nseparator = %q\n\nsources = [\n", "columns of "+file, separatorName(t.Separator))
	var fed stream.Set
	var unused []string
	for i := range t.Columns {
		c := &t.Columns[i]
		s, ok := sourceOf(c)
		if !ok {
			unused = append(unused, c.Name)
			continue
		}
		fed = fed.With(s.channel)
		b.WriteString("  " + s.line(c) + "\n")
	}
	b.WriteString("]\n\n")
	comment(&b, "Columns that are not used: ", quoted(unused))
	comment(&b, "Channels that stay empty: ", empty(fed))
	if lacking := vital(fed); len(lacking) > 0 {
		comment(&b, "Nothing can be graded without ", lacking)
	}
	return b.String()
}

// known says that a log needs no map of its own.
func known(t *textlog.Table, file string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s needs no map: the one named %s reads it.\n\n", file, t.Known.Name)
	for i, src := range t.Plan.Columns {
		if src != nil {
			fmt.Fprintf(&b, "# %-18s %q\n", src.Channel.String(), t.Columns[i].Name)
		}
	}
	b.WriteString("\n")
	comment(&b, "Channels that stay empty: ", empty(t.Plan.Channels))
	return b.String()
}

func separatorName(c byte) string {
	switch c {
	case '\t':
		return "tab"
	case ' ':
		return "space"
	}
	return string(c)
}

// A source is a line of a map.
type source struct {
	channel  stream.Channel
	unit     string
	note     string // what is not certain
	negative bool
	magnetic bool
}

// sourceOf proposes what a column feeds.
func sourceOf(c *textlog.Column) (s source, ok bool) {
	if c.Time {
		s.channel = stream.Time
	} else if s.channel, ok = guess(c.Name); !ok || c.Numbers == 0 {
		return s, false
	}
	s.unit, s.note = unitOf(s.channel, c)
	s.magnetic = s.channel == stream.Heading && isMagnetic(c.Name)
	if s.channel == stream.NormalLoad && c.Mean < 0 {
		s.negative = true
	}
	return s, true
}

// unitOf is the unit that a column says, or the likeliest by its values.
func unitOf(channel stream.Channel, c *textlog.Column) (unit, note string) {
	if channel == stream.Time && c.Numbers == 0 {
		return "s", "dates or times of day, which are read as they are"
	}
	words := append([]string{c.Unit}, lastWords(c.Name)...)
	for _, w := range words {
		if u, ok := textlog.UnitNamed(w); ok {
			if _, err := units.Factor(channel, u); err == nil {
				return u, ""
			}
		}
	}
	most := math.Max(math.Abs(c.Low), math.Abs(c.High))
	switch channel.Info().Unit {
	case "°":
		return angleUnit(channel, most), "the unit is a guess"
	case "°/s":
		return "deg/s", "the unit is a guess"
	case "balls":
		return "ball", "in ball widths, right positive?"
	case "ratio":
		if most > 1.5 {
			return "%", "the unit is a guess"
		}
		return "ratio", ""
	case "flag", "%", "rpm":
		return channel.Info().Unit, ""
	}
	return channel.Info().Unit, "the unit is a guess"
}

// angleUnit is radians when a flight with turns in it could not stay within so small a number of degrees.
func angleUnit(channel stream.Channel, most float64) string {
	limits := map[stream.Channel]float64{stream.Heading: 2 * math.Pi, stream.Pitch: math.Pi / 2, stream.Bank: math.Pi}
	if limit := limits[channel]; most > 0 && most <= limit+0.01 {
		return "rad"
	}
	return "deg"
}

// lastWords are the words of a name from the last on, alone and in twos: units mostly end a name.
func lastWords(name string) (all []string) {
	words := strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" _-,()[]{}", r) })
	for i := len(words) - 1; i > 0; i-- {
		all = append(all, words[i])
	}
	if len(words) == 1 {
		all = append(all, words[0])
	}
	return all
}

// line writes a source, and what stands in its column.
func (s *source) line(c *textlog.Column) string {
	line := fmt.Sprintf("{ name = %q, channel = %q, unit = %q", c.Name, s.channel.String(), s.unit)
	if s.negative {
		line += ", sign = -1"
	}
	if s.magnetic {
		line += ", magnetic = true"
	}
	line += " },"
	note := s.note
	if c.Numbers > 0 {
		if note = fmt.Sprintf("%.4g to %.4g", c.Low, c.High); s.note != "" {
			note += "; " + s.note
		}
	}
	const most = 76
	switch {
	case note == "":
		return line
	case utf8.RuneCountInString(line+" # "+note) > most:
		return "# " + note + "\n  " + line
	}
	return line + " # " + note
}

func quoted(names []string) []string {
	for i := range names {
		names[i] = fmt.Sprintf("%q", names[i])
	}
	return names
}

// empty names the channels that nothing feeds.
func empty(fed stream.Set) (names []string) {
	for c := range stream.NumChannels {
		if !fed.Has(c) {
			names = append(names, c.String())
		}
	}
	return names
}

// vital names those of them that all grading needs.
func vital(fed stream.Set) (names []string) {
	for c := range stream.NumChannels {
		if c.Info().Vital && c != stream.Time && !fed.Has(c) {
			names = append(names, c.String())
		}
	}
	return names
}

// comment writes a list as comments of at most 78 columns.
func comment(b *strings.Builder, head string, names []string) {
	if len(names) == 0 {
		return
	}
	line := "# " + head
	for i, n := range names {
		end := ", "
		if i == len(names)-1 {
			end = "."
		}
		if len(line)+len(n)+len(end) > 78 {
			b.WriteString(strings.TrimRight(line, " ") + "\n")
			line = "#   "
		}
		line += n + end
	}
	b.WriteString(line + "\n")
}
