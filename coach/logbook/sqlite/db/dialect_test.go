package db

import (
	"strings"
	"testing"
)

// TestMatch: words are quoted and the beginnings of words, so that FTS5 (https://www.sqlite.org/fts5.html, 3) finds no
// operator in them.
func TestMatch(t *testing.T) {
	for words, want := range map[string]string{
		"":         "",
		"nose":     `"nose"*`,
		"a OR b":   `"a"* "or"* "b"*`,
		"NEAR NOT": `"near"* "not"*`,
	} {
		if got := match(strings.Fields(words)); got != want {
			t.Errorf("%q becomes %s; must be %s", words, got, want)
		}
	}
}
