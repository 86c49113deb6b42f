// Package layouttest stands in for a terminal in tests, and holds what is shown on it against golden files.
package layouttest

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/layout"
)

// Widths are the columns of the terminals that everything must fit: the usual ones, and wide ones.
var Widths = []int{80, 120}

// A Terminal keeps what is written to it.
type Terminal struct {
	bytes.Buffer
	Columns int
	Colored bool
	Dumb    bool // it shows no shapes
}

var _ layout.Screen = (*Terminal)(nil)

// Width is the number of columns.
func (t *Terminal) Width() int { return t.Columns }

// Glyphs reports whether it shows shapes.
func (t *Terminal) Glyphs() bool { return !t.Dumb }

// Color reports whether it shows styles.
func (t *Terminal) Color() bool { return t.Colored }

// Fits checks that no line is longer than the columns.
func Fits(t testing.TB, text string, columns int) {
	t.Helper()
	for line := range strings.Lines(text) {
		line = strings.TrimSuffix(line, "\n")
		if n := utf8.RuneCountInString(line); n > columns {
			t.Errorf("%d columns of %d: %s", n, columns, line)
		}
	}
}

// Golden compares a text with testdata/NAME, or writes it there.
func Golden(t testing.TB, update bool, name, text string) {
	t.Helper()
	file := filepath.Join("testdata", filepath.FromSlash(name))
	if update {
		if err := os.MkdirAll(filepath.Dir(file), 0o750); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), text); diff != "" {
		t.Errorf("differs from %s (run with -update to accept):\n%s", file, diff)
	}
}
