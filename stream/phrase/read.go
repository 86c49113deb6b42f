package phrase

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// shapes are what an argument of each kind looks like in the English sentence.
var shapes = map[string]string{
	number: `(-?` + figures + unitShape,
	signed: `(−?` + figures + unitShape,
	bare:   `(−?` + figures + `)`,
	within: `(.+?)`,
	card:   `([^:;]+?)`,
	clause: `([^:;]+?)`,
	name:   `("(?:[^"\\]|\\.)*")`,
	words:  `(.+?)`,
	nested: `(.+?)`,
	list:   `(.+?)`,
}

const (
	figures   = `\d+(?:\.\d+)?`
	unitShape = `(?:°(?:/s)?|%| (?:kt|ft/min|ft|NM|s|g|MB|Hz|balls|legs))?)`
)

func (d *Definition) regexp() *regexp.Regexp {
	var b strings.Builder
	b.WriteString(`(?s)^`)
	for i, p := range d.places {
		b.WriteString(regexp.QuoteMeta(d.texts[i]))
		b.WriteString(shapes[p.kind])
	}
	b.WriteString(regexp.QuoteMeta(d.texts[len(d.places)]))
	b.WriteString(`$`)
	return regexp.MustCompile(b.String())
}

// Read returns the phrase whose English is text, for what was written before there were codes: of the sentences that
// could have said it, the one with the most words of its own. Text that no sentence says becomes a phrase without
// a code.
func Read(text string) Phrase {
	var could []*Definition
	for _, d := range table.all {
		if d.couldSay(text) {
			could = append(could, d)
		}
	}
	slices.SortStableFunc(could, func(a, b *Definition) int { return b.fixed() - a.fixed() })
	for _, d := range could {
		if args, ok := d.read(text); ok {
			return Phrase{code: d.code, args: args, text: text}
		}
	}
	return Plain(text)
}

// read takes the arguments out of a text of the sentence's shape; ok is false where it says something else.
func (d *Definition) read(text string) (args []Arg, ok bool) {
	if len(d.places) == 0 {
		return nil, true
	}
	joins, found := d.joins(), d.shape().FindStringSubmatch(text)
	for i, p := range d.places {
		a := p.read(found[i+1])
		if joins && len(a.phrases) > 0 && a.phrases[0].code == "" { // any text with such a mark looks like that
			return nil, false
		}
		args = append(args, a)
	}
	for i, p := range d.places {
		if p.kind == bare {
			args[i].unit = args[i+1].unit // stands at the end of the range
		}
	}
	return args, true
}

// joint is between the items of a list.
var joint = regexp.MustCompile(`, | and `)

// joins reports whether a sentence only puts arguments together, with nothing but marks between them.
func (d *Definition) joins() bool {
	return !slices.ContainsFunc(d.texts, func(s string) bool { return strings.ContainsFunc(s, unicode.IsLetter) })
}

// couldSay reports whether a text has the shape of a sentence.
func (d *Definition) couldSay(text string) bool {
	if len(d.places) == 0 {
		return text == d.english
	}
	return strings.HasPrefix(text, d.texts[0]) && strings.HasSuffix(text, d.texts[len(d.places)]) &&
		d.shape().MatchString(text)
}

// argument is the kind of argument that goes into a place.
func (p place) argument() string {
	switch p.kind {
	case signed, bare:
		return number
	case card, clause:
		return nested
	}
	return p.kind
}

// fixed is how much of a sentence is not its arguments.
func (d *Definition) fixed() (n int) {
	for _, s := range d.texts {
		n += len(s)
	}
	return n
}

func (p place) read(s string) Arg {
	a := Arg{name: p.name, kind: p.argument(), words: s}
	switch a.kind {
	case number:
		s = strings.Replace(s, "−", "-", 1)
		end := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("-0123456789.", r) })
		if end < 0 {
			end = len(s)
		}
		a.words, a.unit = "", strings.TrimSpace(s[end:])
		if v, err := strconv.ParseFloat(s[:end], 64); err == nil {
			a.value = v
		}
		if point := strings.IndexByte(s[:end], '.'); point >= 0 {
			a.digits = end - point - 1
		}
	case nested:
		if a.words, a.phrases = "", []Phrase{Plain(s)}; p.kind != card {
			a.phrases = []Phrase{Read(s)}
		}
	case within:
		a.words, a.phrases = "", readWithin(s)
	case list:
		a.words = ""
		for _, item := range joint.Split(s, -1) {
			a.phrases = append(a.phrases, Read(item))
		}
	}
	return a
}

// readWithin reads phrases that go on in a sentence: text may have commas of its own, so that it is taken apart where
// both sides are sentences.
func readWithin(s string) []Phrase {
	for i := range s {
		if !strings.HasPrefix(s[i:], ", ") {
			continue
		}
		if first := Read(upper(s[:i])); first.code != "" {
			if rest := readWithin(s[i+len(", "):]); rest[0].code != "" {
				return append([]Phrase{first}, rest...)
			}
		}
	}
	if p := Read(upper(s)); p.code != "" {
		return []Phrase{p}
	}
	return []Phrase{Read(s)}
}
