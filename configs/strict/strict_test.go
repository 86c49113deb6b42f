package strict

import "testing"

type sample struct {
	Name  string `toml:"name"`
	Items []item `toml:"item"`
	Sub   struct {
		On bool `toml:"on"`
	} `toml:"sub"`
}

type item struct {
	ID   string    `toml:"id"`
	Band []float64 `toml:"band"`
}

func TestDecodeErrors(t *testing.T) {
	cases := map[string]struct{ in, want string }{
		"unknown key":    {"name = 'a'\nnmae = 'b'\n", "x.toml:2: nmae: is not a known key; allowed here: item, name, sub"},
		"unknown nested": {"[[item]]\nid = 'a'\nbnad = [1]\n", "x.toml:3: item.bnad: is not a known key; allowed here: band, id"},
		"wrong type":     {"name = 'a'\n[sub]\non = 3\n", "x.toml:3: sub.on: is a TOML integer; wanted: true or false"},
		"syntax":         {"name = \n", "x.toml:1: unexpected character U+000A at start of value"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			var v sample
			_, err := Decode("x.toml", []byte(c.in), &v)
			if err == nil || err.Error() != c.want {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
}

func TestErrorfFindsTheLine(t *testing.T) {
	var v sample
	f, err := Decode("x.toml", []byte("name = 'a' # first\n\n[[item]]\nid = 'a'\n[[item]]\nid = 'b'\nband = [1, 2]\n[sub]\non = true\n"), &v)
	if err != nil {
		t.Fatal(err)
	}
	for key, want := range map[string]string{
		"name":         "x.toml:1: name: bad",
		"item[0].id":   "x.toml:4: item[0].id: bad",
		"item[1].band": "x.toml:7: item[1].band: bad",
		"item[0].band": "x.toml:3: item[0].band: bad", // not written: the table's line
		"sub.on":       "x.toml:9: sub.on: bad",
		"nowhere":      "x.toml: nowhere: bad",
	} {
		if got := f.Errorf(key, "bad").Error(); got != want {
			t.Errorf("%s: got %q, want %q", key, got, want)
		}
	}
}
