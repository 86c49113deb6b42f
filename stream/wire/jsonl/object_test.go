package jsonl_test

import (
	"testing"

	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/jsonl"
)

// Objects by the grammar of RFC 8259: white space (section 2), literal names (3), objects whose names repeat (4),
// numbers (6) and strings (7). What is no object, or no JSON, is refused as a whole.
func TestObjects(t *testing.T) {
	for in, want := range map[string]struct {
		err           error
		heading, bank float64
		on            string // the channels read
	}{
		`{"heading":90,"bank":-30}`:                          {nil, 90, -30, "heading bank"},
		"\t{ \"heading\" :\t9.0e1 , \"bank\": -0.3E+2 }\r\n": {nil, 90, -30, "heading bank"},
		`{"heading":90,"bank":-30,"heading":180}`:            {nil, 180, -30, "heading bank"},
		`{"heading":90,"heading":null,"bank":1}`:             {nil, 0, 1, "bank"},
		`{"a\"b":{"heading":1},"bank":1}`:                    {nil, 0, 1, "bank"},
		`{"x":["}",{"bank":9}],"heading":7,"bank":1}`:        {nil, 7, 1, "heading bank"},
		`{"x":"\\","bank":2}`:                                {nil, 0, 2, "bank"},
		`{"on-ground":true,"bank":2}`:                        {nil, 0, 2, "bank on-ground"},
		`{"magnetic":true,"heading":90,"bank":2}`:            {nil, 90, 2, "heading bank"},
		`{}`:                      {err: fault.ErrNoChannels},
		`{"altimeter":1013.25}`:   {err: fault.ErrNoChannels},
		`{"heading":90`:           {err: fault.ErrTruncated},
		`{"heading":9`:            {err: fault.ErrTruncated},
		`{"heading":`:             {err: fault.ErrTruncated},
		`{"heading"`:              {err: fault.ErrTruncated},
		`{"head`:                  {err: fault.ErrTruncated},
		`{"x":[1,{"y":2`:          {err: fault.ErrTruncated},
		`{"x":"heading`:           {err: fault.ErrTruncated},
		`{"heading" 90}`:          {err: fault.ErrMalformed},
		`{heading:90}`:            {err: fault.ErrMalformed},
		`{"heading":90 "bank":1}`: {err: fault.ErrMalformed},
		`{"heading":90}}`:         {err: fault.ErrMalformed},
		`{"heading":ninety}`:      {err: fault.ErrMalformed},
		`[1]`:                     {err: fault.ErrMalformed},
		`{"bank":"left"}`:         {err: fault.ErrValue},
		`{"bank":[1]}`:            {err: fault.ErrValue},
		`{"bank":true}`:           {err: fault.ErrValue},
	} {
		var s stream.Sample
		err := jsonl.Format.New(nil).Decode([]byte(in), 0, &s)
		if err != want.err {
			t.Errorf("%s: error %v; must be %v", in, err, want.err)
		}
		if err != nil {
			continue
		}
		var on string
		for i, name := range s.Has.Names() {
			if i > 0 {
				on += " "
			}
			on += name
		}
		if on != want.on || s.Value(stream.Heading) != want.heading || s.Value(stream.Bank) != want.bank {
			t.Errorf("%s: %s, heading %v, bank %v; must be %+v", in, on, s.Value(stream.Heading), s.Value(stream.Bank),
				want)
		}
	}
}

// A heading is magnetic when the object says so and has one; the word alone is no channel.
func TestMagnetic(t *testing.T) {
	for in, want := range map[string]bool{
		`{"magnetic":true,"heading":90}`:  true,
		`{"heading":90,"magnetic":true}`:  true,
		`{"heading":90,"magnetic":false}`: false,
		`{"heading":90}`:                  false,
		`{"bank":1,"magnetic":true}`:      false,
	} {
		var s stream.Sample
		if err := jsonl.Format.New(nil).Decode([]byte(in), 0, &s); err != nil || s.Magnetic != want {
			t.Errorf("%s: %v, magnetic %v; must be %v", in, err, s.Magnetic, want)
		}
	}
}
