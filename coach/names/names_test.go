package names

import (
	"encoding/json"
	"os"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// TestPerson goes through the table that the pages are held to as well (web/unittest/names.test.js).
func TestPerson(t *testing.T) {
	data, err := os.ReadFile("testdata/names.json")
	if err != nil {
		t.Fatal(err)
	}
	var table struct {
		Longest int
		Vectors []struct{ What, In, Name, Refused string }
	}
	if err := json.Unmarshal(data, &table); err != nil {
		t.Fatal(err)
	}
	if table.Longest != Longest || len(table.Vectors) < 20 {
		t.Errorf("the table allows %d letters and has %d rows", table.Longest, len(table.Vectors))
	}
	for _, v := range table.Vectors {
		name, err := Person(v.In)
		switch {
		case v.Refused == "" && (err != nil || name != v.Name):
			t.Errorf("%s: %+q, %v; want %+q", v.What, name, err, v.Name)
		case v.Refused != "" && (err == nil || !strings.Contains(err.Error(), v.Refused) || name != ""):
			t.Errorf("%s: %+q, %v; want refused for %s", v.What, name, err, v.Refused)
		}
	}
	if name, err := Person("Ada\xff"); err == nil {
		t.Errorf("not UTF-8: %q", name)
	}
}

func TestStation(t *testing.T) {
	for in, want := range map[string]string{
		"Seat 3":                      "Seat 3",
		" Seat\u00a0 3 ":              "Seat 3",
		"":                            "",
		" ":                           "",
		"a/b":                         "",
		"Seat\x1b[2J":                 "",
		"Seat\u009b":                  "",
		strings.Repeat("ä", 40):       strings.Repeat("ä", 40),
		strings.Repeat("a\u0308", 40): strings.Repeat("ä", 40),
		strings.Repeat("x", 41):       "",
	} {
		if name, err := Station(in); name != want || (err == nil) != (want != "") {
			t.Errorf("%q: %q, %v; want %q", in, name, err, want)
		}
	}
}

// TestKey: two spellings of one name, and two names. Full case folding makes ß and ss the same (Unicode
// CaseFolding.txt, status F), and final sigma as any other.
func TestKey(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{"Ada Example", "ADA  example", true},
		{"Zoe\u0308", "ZOË", true},
		{"Straße", "STRASSE", true},
		{"Νίκος", "ΝΊΚΟΣ", true},
		{"\u0639\u0644\u06cc\u200c\u0631\u0636\u0627", "\u0639\u0644\u06cc\u0631\u0636\u0627", true},
		{"Ada Example", "Adam Example", false},
		{"Zoe", "Zoë", false},
		{"Ada Example", "AdaExample", false},
	} {
		if same := Key(c.a) == Key(c.b); same != c.same {
			t.Errorf("%q and %q: same is %v", c.a, c.b, same)
		}
	}
}

func TestTidy(t *testing.T) {
	for in, want := range map[string]string{
		"Ada  Example":            "Ada Example",
		"Ada\x1b[31m Example\xff": "Ada[31m Example",
		"\u202eAda \x07 Example":  "Ada Example",
		"\x1b":                    "",
		strings.Repeat("x", 79) + " y" + "\x00" + "z": strings.Repeat("x", 79),
	} {
		if got := Tidy(in); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}

func TestWords(t *testing.T) {
	for in, want := range map[string]string{
		"  Late over the top.\r\nSee leg 2.\rOnce more. ": "Late over the top.\nSee leg 2.\nOnce more.",
		"a\tb":                 "a b",
		"Pilot 👩\u200d✈\ufe0f": "Pilot 👩\u200d✈\ufe0f",
		"e\u0301":              "é",
		"Late\x1b]0;title\x07": "",
		"Late\u009b2J":         "",
		"\u202eetaL":           "",
		"Late\u2067x":          "",
		"Late\xff":             "",
	} {
		if words, err := Words(in); words != want || (err == nil) != (want != "") {
			t.Errorf("%q: %q, %v; want %q", in, words, err, want)
		}
	}
	if got := TidyWords("Late\x1b[31m\r\nagain\u202e \xff"); got != "Late[31m\nagain" {
		t.Errorf("%q", got)
	}
}

// FuzzPerson: whatever is given, what is kept is one line of what is seen, and stays as it is when it is given again.
func FuzzPerson(f *testing.F) {
	for _, s := range []string{"Ada Example", "a\u0308\u200db", "\u0639\u200c\u0631", "\x1b[0m", "\xff", "ǅ\u0345",
		strings.Repeat("\u0344", 81)} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		tidy := Tidy(s)
		again, err := Person(tidy)
		if err != nil || again != tidy {
			t.Fatalf("%q is tidied to %q, which is kept as %q, %v", s, tidy, again, err)
		}
		name, err := Person(s)
		if err != nil {
			return
		}
		if name != tidy || Key(name) != Key(s) || !utf8.ValidString(name) || utf8.RuneCountInString(name) > Longest {
			t.Fatalf("%q: kept as %q, tidied to %q", s, name, tidy)
		}
		if i := strings.IndexFunc(name, func(r rune) bool {
			return unicode.IsControl(r) ||
				unicode.Is(unicode.Bidi_Control, r)
		}); i >= 0 {
			t.Fatalf("%q holds a control", name)
		}
	})
}

// What a person has said is one line of at most eight words and sixty letters; nothing unseen goes with it.
func TestSpoken(t *testing.T) {
	for text, want := range map[string]string{
		"Eyes outside":               "Eyes outside",
		"  Eyes\n\toutside ":         "Eyes outside",
		"Fu\u0308\u00dfe":            "F\u00fc\u00dfe",
		"a b c d e f g h":            "a b c d e f g h",
		strings.Repeat("\u00e4", 60): strings.Repeat("\u00e4", 60),
		"<b>1 < 2</b>":               "<b>1 < 2</b>",
	} {
		if got, err := Spoken(text); err != nil || got != want {
			t.Errorf("%q is %q, %v; must be %q", text, got, err, want)
		}
	}
	for text, says := range map[string]string{
		"":                      "nothing to say",
		" \n ":                  "nothing to say",
		"a b c d e f g h i":     "9 words",
		strings.Repeat("a", 61): "61 letters",
		"up\x1b[2J":             "U+001B",
		"up\u202egnp":           "U+202E",
		"up\u200b":              "U+200B",
		"\xff":                  "UTF-8",
	} {
		if got, err := Spoken(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q is %q, %v; must say %q", text, got, err, says)
		}
	}
}
