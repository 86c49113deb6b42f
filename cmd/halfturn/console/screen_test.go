package console

import (
	"bytes"
	"fmt"
	"testing"

	"halfturn/coach"
	"halfturn/coach/layout"
	"halfturn/coach/layout/layouttest"
)

// Styles reach a terminal that shows them, and nothing else; what comes from outside cannot obey itself a style that
// lasts beyond its line.
func TestStyles(t *testing.T) {
	for _, c := range []struct {
		screen layouttest.Terminal
		want   string
	}{
		{layouttest.Terminal{Columns: 80, Colored: true},
			"\x1b[1m⊘ MISSED\x1b[0m \x1b[2m● met\x1b[0m \x1b[1mopen\x1b[0m\nx\n"},
		{layouttest.Terminal{Columns: 80}, "⊘ MISSED ● met open\nx\n"},
		{layouttest.Terminal{Columns: 80, Dumb: true}, "MISSED met open\nx\n"},
	} {
		w := New(&c.screen)
		fmt.Fprintf(w, "%s %s %sopen\nx\n", layout.Mark(w, coach.Missed, "MISSED"), layout.Mark(w, coach.Met, "met"),
			string(layout.Bold))
		if got := c.screen.String(); got != c.want {
			t.Errorf("%q; must be %q", got, c.want)
		}
	}
	var piped bytes.Buffer
	w := New(&piped)
	fmt.Fprintf(w, "%s\n", layout.Mark(w, coach.Missed, "MISSED"))
	if piped.String() != "MISSED\n" || layout.WidthOf(w) != 0 {
		t.Errorf("%q, %d columns", piped.String(), layout.WidthOf(w))
	}
}

// Control sequences of others are still shown, not obeyed.
func TestStylesOfOthers(t *testing.T) {
	screen := &layouttest.Terminal{Columns: 80, Colored: true}
	fmt.Fprint(New(screen), "\x1b[31mred\n")
	if want := `\u001b[31mred` + "\n"; screen.String() != want {
		t.Errorf("%q; must be %q", screen.String(), want)
	}
}
