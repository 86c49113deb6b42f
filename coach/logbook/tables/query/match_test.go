package query

import (
	"strings"
	"testing"

	"halfturn/stream/phrase"
)

// TestWords: letters, figures and their accents make words, whatever else a search holds; twenty are enough.
func TestWords(t *testing.T) {
	for text, want := range map[string]string{
		"":                  "",
		"  \t":              "",
		"nose up":           "nose up",
		`a "b" OR c`:        "a b OR c",
		"NEAR(a b)":         "NEAR a b",
		"col:x -y +z ^q":    "col x y z q",
		"*\"'{}":            "",
		"größer 座席 e\u0301": "größer 座席 e\u0301",
		"a b c d e f g h i j k l m n o p q r s t u v": "a b c d e f g h i j k l m n o p q r s t",
	} {
		if got := strings.Join(words(text), " "); got != want {
			t.Errorf("%q becomes %s; must be %s", text, got, want)
		}
	}
}

// TestExcerpt: the first word that was looked for is in it, with some before and as many after as fit.
func TestExcerpt(t *testing.T) {
	const long = "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen " +
		"seventeen eighteen nineteen twenty."
	for _, c := range []struct{ remark, looked, want string }{
		{"Nose up!", "nose", "Nose up!"},
		{"", "nose", ""},
		{long, "two", strings.Join(strings.Fields(long)[:16], " ") + "…"},
		{long, "sev", "…three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen " +
			"seventeen eighteen…"},
		{long, "TWENTY", "…" + strings.Join(strings.Fields(long)[4:], " ")},
		{long, "nowhere", strings.Join(strings.Fields(long)[:16], " ") + "…"},
		{"Größer, später", "groß", "Größer, später"},
	} {
		if got := excerpt(c.remark, words(c.looked)); got != c.want {
			t.Errorf("%q in %q: %q; must be %q", c.looked, c.remark, got, c.want)
		}
	}
}

// TestWhere joins conditions, and nothing without one.
func TestWhere(t *testing.T) {
	w := &where{}
	if w.String() != "" {
		t.Errorf("no condition is %q", w)
	}
	w.and("a = ?", 1)
	w.and("b BETWEEN ? AND ?", 2, 3)
	if got, want := w.String(), " WHERE a = ? AND b BETWEEN ? AND ?"; got != want || len(w.args) != 3 {
		t.Errorf("%q with %v; must be %q", got, w.args, want)
	}
}

// TestReadPhrase reads columns of text, whichever way the driver gives them.
func TestReadPhrase(t *testing.T) {
	lacks := phrase.Plain("at 91°")
	for _, c := range []struct {
		column any
		want   string
		fails  bool
	}{
		{lacks.String(), lacks.String(), false},
		{[]byte(lacks.String()), lacks.String(), false},
		{nil, "", false},
		{7, "", true},
	} {
		p := phrase.Plain("before")
		err := readPhrase{&p}.Scan(c.column)
		if (err != nil) != c.fails || !c.fails && p.String() != c.want {
			t.Errorf("%v becomes %q, %v; must be %q", c.column, p, err, c.want)
		}
	}
}
