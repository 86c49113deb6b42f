package canonical

import (
	"math"
	"testing"
)

// TestAppend holds the canonical form to the examples of RFC 8785, sections 3.2.2 and 3.2.3, and to numbers of its
// appendix B.
func TestAppend(t *testing.T) {
	for in, want := range map[string]string{
		`{"numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
		  "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/", "literals": [null, true, false]}`: `{"literals":` +
			`[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],` +
			`"string":"€$\u000f\nA'B\"\\\\\"/"}`,
		`{"\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
		  "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
		  "\u00f6": "Latin Small Letter O With Diaeresis"}`: `{"\r":"Carriage Return","1":"One",` +
			"\"\u0080\":\"Control\",\"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\"," +
			"\"😀\":\"Emoji: Grinning Face\",\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}",
		`-0`:                       `0`,
		`9007199254740992`:         `9007199254740992`,
		`295147905179352830000`:    `295147905179352830000`,
		`9.999999999999997e22`:     `9.999999999999997e+22`,
		`1e21`:                     `1e+21`,
		`999999999999999700000`:    `999999999999999700000`,
		`0.000001`:                 `0.000001`,
		`9.999999999999997e-7`:     `9.999999999999997e-7`,
		`5e-324`:                   `5e-324`,
		`-1.7976931348623157e+308`: `-1.7976931348623157e+308`,
		` [ ] `:                    `[]`,
		`"\u2028<>&"`:              "\"\u2028<>&\"",
	} {
		v, err := Read([]byte(in))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := Append(nil, v); err != nil || string(got) != want {
			t.Errorf("%s\nis   %s, %v\nmust %s", in, got, err, want)
		}
	}
	for _, v := range []any{math.NaN(), math.Inf(1), "a\xff", 7, []any{map[string]any{"x": math.Inf(-1)}}} {
		if got, err := Append(nil, v); err == nil {
			t.Errorf("%v is written as %s", v, got)
		}
	}
}

// TestHash holds the hash to that of the text {"a":1,"b":"x"} by another program (sha256sum).
func TestHash(t *testing.T) {
	v, err := Of(struct {
		B string `json:"b"`
		A int    `json:"a"`
	}{"x", 1})
	if err != nil {
		t.Fatal(err)
	}
	const want = "ecf9e98ec0641e23113ff3ce8bdc78d0ddd249886517fd4a7f68cc83d4e65667"
	if got, err := Hash(v); err != nil || got != want {
		t.Errorf("%s, %v; must be %s", got, err, want)
	}
}
