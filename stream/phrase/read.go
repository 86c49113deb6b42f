package phrase

import (
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// shapes are what an argument of each kind looks like in the English sentence.
var shapes = map[string]string{
	number: `(-?\d+(?:\.\d+)?(?:°(?:/s)?|%| (?:kt|ft/min|ft|NM|s|g|MB|Hz))?)`,
	name:   `("(?:[^"\\]|\\.)*")`,
	words:  `(.+?)`,
	nested: `(.+?)`,
	list:   `(.+?)`,
}

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
	var best *Definition
	for _, d := range table.all {
		if (best == nil || d.fixed() > best.fixed()) && d.shape.MatchString(text) {
			best = d
		}
	}
	if best == nil {
		return Plain(text)
	}
	found := best.shape.FindStringSubmatch(text)
	var args []Arg
	for i, p := range best.places {
		a := p.read(found[i+1])
		if best.joins() && a.phrases[0].code == "" { // any text with such a mark looks like that
			return Plain(text)
		}
		args = append(args, a)
	}
	return Phrase{code: best.code, args: args, text: text}
}

// joint is between the items of a list.
var joint = regexp.MustCompile(`, | and `)

// joins reports whether a sentence only puts phrases together, with nothing but marks between them.
func (d *Definition) joins() bool {
	for i, p := range d.places {
		if p.kind != nested || strings.ContainsFunc(d.texts[i], unicode.IsLetter) {
			return false
		}
	}
	return len(d.places) > 0 && !strings.ContainsFunc(d.texts[len(d.places)], unicode.IsLetter)
}

// fixed is how much of a sentence is not its arguments.
func (d *Definition) fixed() (n int) {
	for _, s := range d.texts {
		n += len(s)
	}
	return n
}

func (p place) read(s string) Arg {
	a := Arg{name: p.name, kind: p.kind, words: s}
	switch p.kind {
	case number:
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
		a.words, a.phrases = "", []Phrase{Read(s)}
	case list:
		a.words = ""
		for _, item := range joint.Split(s, -1) {
			a.phrases = append(a.phrases, Read(item))
		}
	}
	return a
}
