package phrase

import (
	"bytes"
	"encoding/json"
	"math"
)

// written is a phrase with a code in JSON.
type written struct {
	Code string `json:"code"`
	Args argsOf `json:"args,omitempty"`
	Text string `json:"text"`
}

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
func (p Phrase) MarshalJSON() ([]byte, error) {
	if p.code == "" {
		return json.Marshal(p.text)
	}
	return json.Marshal(written{Code: p.code, Args: p.args, Text: p.text})
}

// Args returns the arguments as they stand in JSON.
func (p Phrase) Args() json.Marshaler { return argsOf(p.args) }

// MarshalJSON writes an object with a member per argument.
func (args argsOf) MarshalJSON() ([]byte, error) {
	b := bytes.NewBufferString("{")
	for i := range args {
		if i > 0 {
			b.WriteByte(',')
		}
		for _, v := range []any{args[i].name, args[i].json()} {
			data, err := json.Marshal(v)
			if err != nil {
				return nil, err
			}
			b.Write(data)
			b.WriteByte(':')
		}
		b.Truncate(b.Len() - 1)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

func (a *Arg) json() any {
	switch a.kind {
	case number:
		if math.IsNaN(a.value) || math.IsInf(a.value, 0) { // JSON has no number for it
			return a.as(number)
		}
		return quantity{Value: a.value, Unit: a.unit, Digits: a.digits}
	case nested, within:
		return a.phrases
	case list:
		return enumeration{a.phrases}
	}
	return a.words
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
