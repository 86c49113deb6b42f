package phrase

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// A Definition is one sentence of the table.
type Definition struct {
	code, english string
	texts         []string // around the places: one more than there are places
	places        []place
	shape         func() *regexp.Regexp // what the sentence looks like with its arguments
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

	signed = "signed" // a number with a true minus sign
	bare   = "bare"   // the same without its unit, which stands after the number that ends the range
	card   = "card"   // a phrase that is a text of a card, without a code
	clause = "clause" // a phrase without a colon or a semicolon
	within = "within" // phrases that go on in the sentence: each begins in lower case
)

var inBraces = regexp.MustCompile(`\{([a-z]+):(number|name|words|phrase|list|signed|bare|card|clause|within)\}`)

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
	d.shape = sync.OnceValue(d.regexp)
	t.all = append(t.all, d)
	return d
}

// All returns the table, in the order of the codes' declaration. It is not to be changed.
func All() []*Definition { return table.all }

// Code returns the code, the same in every language and version.
func (d *Definition) Code() string { return d.code }

// English returns the sentence with a {name} where each argument goes.
func (d *Definition) English() string { return inBraces.ReplaceAllString(d.english, "{$1}") }

// template is the English as the pages have it: a place says more than its name where it is not filled as others are.
func (d *Definition) template() string {
	return regexp.MustCompile(`:(number|signed|name|words|phrase|card|clause|list)\}`).ReplaceAllString(d.english, "}")
}

// Of returns the phrase with its arguments. One that is missing leaves its {name} in the sentence; a test holds every
// call to the places of its sentence.
func (d *Definition) Of(args ...Arg) Phrase {
	var b strings.Builder
	for i, p := range d.places {
		b.WriteString(d.texts[i])
		if a := find(args, p.name); a != nil {
			b.WriteString(a.as(p.kind))
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
	if value == 0 {
		value = 0 // no minus before a zero
	}
	return Arg{name: name, kind: number, value: value, digits: digits, unit: unit}
}

// Int returns a count.
func Int[N ~int | ~int64 | ~uint64](name string, n N) Arg { return Number(name, float64(n), 0, "") }

// Name returns a name, or anything else that somebody wrote: it is put in quotes.
func Name(of, s string) Arg { return Arg{name: of, kind: name, words: strconv.Quote(s)} }

// Words returns what is the same in every language, such as a key or what an operating system says.
func Words(name, s string) Arg { return Arg{name: name, kind: words, words: s} }

// Part returns phrases within the sentence, which are joined by commas.
func Part(name string, p ...Phrase) Arg { return Arg{name: name, kind: nested, phrases: p} }

// Within returns phrases that go on in the sentence, joined by commas; in English each begins in lower case there.
func Within(name string, p ...Phrase) Arg { return Arg{name: name, kind: within, phrases: p} }

// List returns phrases within the sentence, which are joined as in "a, b and c".
func List(name string, p ...Phrase) Arg { return Arg{name: name, kind: list, phrases: p} }

// as returns the argument as the English sentence has it at a place.
func (a *Arg) as(kind string) string {
	switch a.kind {
	case number:
		s := strconv.FormatFloat(a.value, 'f', a.digits, 64)
		if kind != number {
			s = strings.Replace(s, "-", "−", 1)
		}
		switch {
		case kind == bare:
			return s
		case a.unit == "":
			return s
		case strings.HasPrefix(a.unit, "°"), a.unit == "%":
			return s + a.unit
		}
		return s + " " + a.unit
	case nested, list, within:
		all := make([]string, len(a.phrases))
		for i, p := range a.phrases {
			if all[i] = p.text; a.kind == within {
				all[i] = Lower(p.text)
			}
		}
		if n := len(all); a.kind == list && n > 1 {
			all = append(all[:n-2], all[n-2]+" and "+all[n-1])
		}
		return strings.Join(all, ", ")
	}
	return a.words
}

// Lower writes words as they go on in a sentence. What begins with two capitals or with a figure, such as N1 or RPM,
// is not changed.
func Lower(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[n:]); n == 0 || unicode.IsUpper(next) || unicode.IsDigit(next) {
		return s
	}
	return string(unicode.ToLower(first)) + s[n:]
}

// upper begins a sentence with words that went on in one.
func upper(s string) string {
	first, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[n:]
}

var _ fmt.Stringer = Phrase{}
