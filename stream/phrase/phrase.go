package phrase

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A Definition is one sentence of the table.
type Definition struct {
	code, english string
	texts         []string // around the places: one more than there are places
	places        []place
	shape         *regexp.Regexp // what the sentence looks like with its arguments
}

// A place in a sentence.
type place struct{ name, kind string }

// The kinds of argument.
const (
	number = "number"
	name   = "name"
	words  = "words"
	nested = "phrase"
	list   = "list"
)

var inBraces = regexp.MustCompile(`\{([a-z]+):(number|name|words|phrase|list)\}`)

// table holds all definitions. It only grows while the variables of the package are initialized.
var table sentences

type sentences struct{ all []*Definition }

func (t *sentences) define(code, english string) *Definition {
	d := &Definition{code: code, english: english}
	from := 0
	for _, at := range inBraces.FindAllStringSubmatchIndex(english, -1) {
		d.texts = append(d.texts, english[from:at[0]])
		d.places = append(d.places, place{name: english[at[2]:at[3]], kind: english[at[4]:at[5]]})
		from = at[1]
	}
	d.texts = append(d.texts, english[from:])
	d.shape = d.regexp()
	t.all = append(t.all, d)
	return d
}

// All returns the table, in the order of the codes' declaration. It is not to be changed.
func All() []*Definition { return table.all }

// Code returns the code, the same in every language and version.
func (d *Definition) Code() string { return d.code }

// English returns the sentence with a {name} where each argument goes.
func (d *Definition) English() string { return inBraces.ReplaceAllString(d.english, "{$1}") }

// Of returns the phrase with its arguments. One that is missing leaves its {name} in the sentence; a test holds every
// call to the places of its sentence.
func (d *Definition) Of(args ...Arg) Phrase {
	var b strings.Builder
	for i, p := range d.places {
		b.WriteString(d.texts[i])
		if a := find(args, p.name); a != nil {
			b.WriteString(a.String())
		} else {
			b.WriteString("{" + p.name + "}")
		}
	}
	b.WriteString(d.texts[len(d.places)])
	return Phrase{code: d.code, args: args, text: b.String()}
}

func find(args []Arg, name string) *Arg {
	for i := range args {
		if args[i].name == name {
			return &args[i]
		}
	}
	return nil
}

// A Phrase is a sentence with its arguments. The zero value says nothing.
type Phrase struct {
	code string
	args []Arg
	text string
}

// Plain returns a phrase without a code: words that come from elsewhere, and are shown as they are in every language.
func Plain(text string) Phrase { return Phrase{text: text} }

// Code returns the code of the sentence, or "".
func (p Phrase) Code() string { return p.code }

// Is reports whether the phrase is of a sentence.
func (p Phrase) Is(d *Definition) bool { return p.code == d.code }

// IsZero reports whether nothing is said.
func (p Phrase) IsZero() bool { return p.code == "" && p.text == "" }

// Equal reports whether two phrases say the same.
func (p Phrase) Equal(other Phrase) bool { return p.code == other.code && p.text == other.text }

// String returns the English.
func (p Phrase) String() string { return p.text }

// An Arg is an argument of a sentence.
type Arg struct {
	name    string
	kind    string
	value   float64
	unit    string
	digits  int // after the decimal point
	words   string
	phrases []Phrase
}

// Number returns an argument with a unit, "" for none, and digits after the decimal point; −1 is as many as it takes.
// The value is rounded to them: what nobody reads makes no difference.
func Number(name string, value float64, digits int, unit string) Arg {
	if digits >= 0 {
		if v, err := strconv.ParseFloat(strconv.FormatFloat(value, 'f', digits, 64), 64); err == nil {
			value = v
		}
	}
	return Arg{name: name, kind: number, value: value, digits: digits, unit: unit}
}

// Int returns a count.
func Int[N ~int | ~int64](name string, n N) Arg { return Number(name, float64(n), 0, "") }

// Name returns a name, or anything else that somebody wrote: it is put in quotes.
func Name(of, s string) Arg { return Arg{name: of, kind: name, words: strconv.Quote(s)} }

// Words returns what is the same in every language, such as a key or what an operating system says.
func Words(name, s string) Arg { return Arg{name: name, kind: words, words: s} }

// Part returns phrases within the sentence, which are joined by commas.
func Part(name string, p ...Phrase) Arg { return Arg{name: name, kind: nested, phrases: p} }

// List returns phrases within the sentence, which are joined as in "a, b and c".
func List(name string, p ...Phrase) Arg { return Arg{name: name, kind: list, phrases: p} }

// String returns the argument as the English sentence has it.
func (a *Arg) String() string {
	switch a.kind {
	case number:
		s := strconv.FormatFloat(a.value, 'f', a.digits, 64)
		switch {
		case a.unit == "":
			return s
		case strings.HasPrefix(a.unit, "°"), a.unit == "%":
			return s + a.unit
		}
		return s + " " + a.unit
	case nested, list:
		all := make([]string, len(a.phrases))
		for i, p := range a.phrases {
			all[i] = p.text
		}
		if n := len(all); a.kind == list && n > 1 {
			all = append(all[:n-2], all[n-2]+" and "+all[n-1])
		}
		return strings.Join(all, ", ")
	}
	return a.words
}

var _ fmt.Stringer = Phrase{}
