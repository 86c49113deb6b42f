package phrase

import (
	"encoding/json"
	"math"
	"strconv"
	"unicode/utf8"

	fastjson "github.com/segmentio/encoding/json"
)

// quantity is a number in JSON.
type quantity struct {
	Value  float64 `json:"value"`
	Unit   string  `json:"unit,omitempty"`
	Digits int     `json:"digits,omitempty"`
}

// enumeration is a list in JSON.
type enumeration struct {
	And []Phrase `json:"and"`
}

// argsOf are arguments as an object, in the order of the sentence.
type argsOf []Arg

// MarshalJSON writes an object, or a string where there is no code.
func (p Phrase) MarshalJSON() ([]byte, error) { return p.append(make([]byte, 0, 256)) }

// Args returns the arguments as they stand in JSON.
func (p Phrase) Args() json.Marshaler { return argsOf(p.args) }

// MarshalJSON writes an object with a member per argument.
func (args argsOf) MarshalJSON() ([]byte, error) { return args.append(nil) }

// Phrases are in each frame between datagram and page, so they are appended as encoding/json would write them, without
// what that allocates.

func (p *Phrase) append(b []byte) ([]byte, error) {
	if p.code == "" {
		return appendString(b, p.text), nil
	}
	b = appendString(append(b, `{"code":`...), p.code)
	if len(p.args) > 0 {
		var err error
		if b, err = argsOf(p.args).append(append(b, `,"args":`...)); err != nil {
			return nil, err
		}
	}
	b = appendString(append(b, `,"text":`...), p.text)
	return append(b, '}'), nil
}

func (args argsOf) append(b []byte) ([]byte, error) {
	b = append(b, '{')
	for i := range args {
		if i > 0 {
			b = append(b, ',')
		}
		b = append(appendString(b, args[i].name), ':')
		var err error
		if b, err = args[i].append(b); err != nil {
			return nil, err
		}
	}
	return append(b, '}'), nil
}

func (a *Arg) append(b []byte) (_ []byte, err error) {
	switch a.kind {
	case number:
		if math.IsNaN(a.value) || math.IsInf(a.value, 0) { // JSON has no number for it
			return appendString(b, a.as(number)), nil
		}
		return a.appendQuantity(b)
	case nested, within:
		return appendPhrases(b, a.phrases)
	case list:
		if b, err = appendPhrases(append(b, `{"and":`...), a.phrases); err != nil {
			return nil, err
		}
		return append(b, '}'), nil
	}
	return appendString(b, a.words), nil
}

func (a *Arg) appendQuantity(b []byte) (_ []byte, err error) {
	if b, err = fastjson.Append(append(b, `{"value":`...), &a.value, 0); err != nil {
		return nil, err
	}
	if a.unit != "" {
		b = appendString(append(b, `,"unit":`...), a.unit)
	}
	if a.digits != 0 {
		b = strconv.AppendInt(append(b, `,"digits":`...), int64(a.digits), 10)
	}
	return append(b, '}'), nil
}

func appendPhrases(b []byte, all []Phrase) (_ []byte, err error) {
	if all == nil {
		return append(b, "null"...), nil
	}
	b = append(b, '[')
	for i := range all {
		if i > 0 {
			b = append(b, ',')
		}
		if b, err = all[i].append(b); err != nil {
			return nil, err
		}
	}
	return append(b, ']'), nil
}

func appendString(b []byte, s string) []byte {
	if !utf8.ValidString(s) {
		data, _ := json.Marshal(s) // a string cannot fail
		return append(b, data...)
	}
	return fastjson.AppendEscape(b, s, fastjson.EscapeHTML)
}

// UnmarshalJSON reads what MarshalJSON writes. A string, and an object whose code this version does not know, becomes
// what Read makes of the English.
func (p *Phrase) UnmarshalJSON(data []byte) error {
	var text string
	if json.Unmarshal(data, &text) == nil {
		*p = Read(text)
		return nil
	}
	var w struct {
		Code string                     `json:"code"`
		Args map[string]json.RawMessage `json:"args"`
		Text string                     `json:"text"`
	}
	if err := json.Unmarshal(data, &w); err != nil {
		return err
	}
	if isTemplate(w.Code) {
		if args, ok := decodeTemplate(w.Code, w.Args); ok {
			*p = Phrase{code: w.Code, args: args, text: w.Text}
			return nil
		}
	}
	for _, d := range table.all {
		if d.code == w.Code {
			if args, ok := d.decode(w.Args); ok {
				*p = Phrase{code: d.code, args: args, text: w.Text}
				return nil
			}
		}
	}
	*p = Read(w.Text)
	return nil
}

// decode reads the arguments of a sentence.
func (d *Definition) decode(from map[string]json.RawMessage) (args []Arg, ok bool) {
	for _, p := range d.places {
		a, err := decodeArg(p.name, p.argument(), from[p.name])
		if err != nil {
			return nil, false
		}
		args = append(args, a)
	}
	return args, true
}

// decodeArg reads an argument of a kind.
func decodeArg(name, kind string, data []byte) (a Arg, err error) {
	a = Arg{name: name, kind: kind}
	switch kind {
	case number:
		var q quantity
		err = json.Unmarshal(data, &q)
		a.value, a.unit, a.digits = q.Value, q.Unit, q.Digits
	case nested, within:
		err = json.Unmarshal(data, &a.phrases)
	case list:
		var e enumeration
		err = json.Unmarshal(data, &e)
		a.phrases = e.And
	default:
		err = json.Unmarshal(data, &a.words)
	}
	return a, err
}
