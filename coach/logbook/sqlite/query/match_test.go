package query

import (
	"testing"

	"halfturn/stream/phrase"
)

// TestMatch: words are quoted and the beginnings of words, so that FTS5 (https://www.sqlite.org/fts5.html, 3) finds no
// operator in them.
func TestMatch(t *testing.T) {
	for text, want := range map[string]string{
		"":                    "",
		"  \t":                "",
		"nose":                `"nose"*`,
		"nose up":             `"nose"* "up"*`,
		`a "b" OR c`:          `"a"* "b"* "OR"* "c"*`,
		"NEAR(a b)":           `"NEAR"* "a"* "b"*`,
		"col:x -y +z ^q":      `"col"* "x"* "y"* "z"* "q"*`,
		"*\"'{}":              "",
		"größer 座席 e\u0301":   "\"größer\"* \"座席\"* \"e\u0301\"*",
		"1 2 3 4 5 6 7 8 9 0": `"1"* "2"* "3"* "4"* "5"* "6"* "7"* "8"* "9"* "0"*`,
		"a b c d e f g h i j k l m n o p q r s t u v": `"a"* "b"* "c"* "d"* "e"* "f"* "g"* "h"* "i"* "j"* "k"* "l"* ` +
			`"m"* "n"* "o"* "p"* "q"* "r"* "s"* "t"*`, // twenty are enough
	} {
		if got := match(text); got != want {
			t.Errorf("%q becomes %s; must be %s", text, got, want)
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
