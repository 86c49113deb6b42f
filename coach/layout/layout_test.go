package layout_test

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/layout"
	"halfturn/coach/layout/layouttest"
)

// Lines break at words, and go on where the eye looks for them.
func TestFold(t *testing.T) {
	for _, c := range []struct {
		line    string
		columns int
		want    []string
	}{
		{"one two three", 0, []string{"one two three"}},
		{"one two three", 13, []string{"one two three"}},
		{"one two three", 12, []string{"one two", "three"}},
		{"  one two three", 9, []string{"  one two", "    three"}},
		{"1. one two three", 10, []string{"1. one two", "   three"}},
		{"- one two three", 9, []string{"- one two", "  three"}},
		{"  12. one two", 9, []string{"  12. one", "      two"}},
		{"unbreakable", 5, []string{"unbre", "akabl", "e"}},
		{"an unbreakable", 6, []string{"an", "unbrea", "kable"}},
		{"a  b", 3, []string{"a", "b"}},
		{"−5° to 5°", 6, []string{"−5° to", "5°"}},
		{string(layout.Bold) + "one two" + string(layout.Plain), 7,
			[]string{string(layout.Bold) + "one two" + string(layout.Plain)}},
		{"", 5, []string{""}},
		{"from −330 to 330 ft/min", 20, []string{"from −330 to", "330 ft/min"}},
		{"(65 to 155 %)", 11, []string{"(65 to", "155 %)"}},
		{"at 2 ft, 3 kt", 5, []string{"at", "2 ft,", "3 kt"}},
		{"12 legs ft", 7, []string{"12 legs", "ft"}},
	} {
		if got := layout.Fold(c.line, c.columns); !slices.Equal(got, c.want) {
			t.Errorf("%q in %d columns: %q; must be %q", c.line, c.columns, got, c.want)
		}
	}
}

// However a text is written, its lines fit, and no word of it is lost.
func TestPage(t *testing.T) {
	const text = "A long line that does not fit.\n\n  An indented one that does not fit either.\nshort\n" +
		"and no end of line"
	for _, at := range []int{1, 7, 1000} {
		screen := &layouttest.Terminal{Columns: 40}
		page := layout.NewPage(screen)
		for part := range slices.Chunk([]byte(text), at) {
			if _, err := page.Write(part); err != nil {
				t.Fatal(err)
			}
		}
		if err := page.Err(); err != nil {
			t.Fatal(err)
		}
		layouttest.Fits(t, screen.String(), 40)
		if got, want := strings.Fields(screen.String()), strings.Fields(text); !slices.Equal(got, want) {
			t.Errorf("%q; must be %q", got, want)
		}
	}
	var plain strings.Builder
	page := layout.NewPage(&plain)
	if _, err := io.WriteString(page, text); err != nil || page.Err() != nil || plain.String() != text {
		t.Errorf("%v: %q", err, plain.String())
	}
}

type full struct{}

var errFull = errors.New("no space left")

func (full) Write([]byte) (int, error) { return 0, errFull }

// The first error of a writer is kept.
func TestPageFails(t *testing.T) {
	page := layout.NewPage(full{})
	fmt.Fprintln(page, "one")
	fmt.Fprintln(layout.NewTable(page), "two")
	if err := page.Err(); !errors.Is(err, errFull) {
		t.Error(err)
	}
	table := layout.NewTable(full{})
	fmt.Fprintln(table, "a\tb")
	if err := table.Flush(); !errors.Is(err, errFull) {
		t.Error(err)
	}
}

// fill makes a table of two rows.
func fill(t *testing.T, table *layout.Table) {
	t.Helper()
	fmt.Fprintln(table, "NAME\tWHAT IT IS\tWHY")
	fmt.Fprintln(table, "first\tthe first of them all\tsince it begins")
	fmt.Fprintln(table, "another-one\tshort\t")
	fmt.Fprintln(table, "A line among the rows that is longer than the table")
	if err := table.Flush(); err != nil {
		t.Fatal(err)
	}
}

// A table that fits is lined up; one that does not gives columns away, and then folds cells.
func TestTable(t *testing.T) {
	const whole = `NAME         WHAT IT IS             WHY
first        the first of them all  since it begins
another-one  short
A line among the rows that is longer than the table
`
	for columns, want := range map[int]string{
		0:  strings.Replace(whole, "short\n", "short                  \n", 1), // as text/tabwriter has it
		52: whole,
		45: `NAME         WHAT IT IS
first        the first of them all
    because since it begins
another-one  short
A line among the rows that is longer than the
table
`,
	} {
		screen := &layouttest.Terminal{Columns: columns}
		fill(t, layout.NewTable(screen, layout.Below{Column: 2, Title: "because "}))
		if screen.String() != want {
			t.Errorf("%d columns:\n%s\nmust be\n%s", columns, screen.String(), want)
		}
	}
	screen := &layouttest.Terminal{Columns: 40}
	fill(t, layout.NewTable(screen))
	const folded = `NAME         WHAT IT IS    WHY
first        the first of  since it
             them all      begins
another-one  short
A line among the rows that is longer
than the table
`
	if screen.String() != folded {
		t.Errorf("folded:\n%s\nmust be\n%s", screen.String(), folded)
	}
}

// Figures that are too wide stand below one another, each with the first column.
func TestFigures(t *testing.T) {
	screen := &layouttest.Terminal{Columns: 40}
	table := layout.NewFigures(screen)
	fmt.Fprint(table, "turn\tspeed\theight\tacross\talong the way\n0°\t100 kt\t5000 ft\t0 ft\t0 ft\n")
	if err := table.Flush(); err != nil {
		t.Fatal(err)
	}
	const want = `  turn   speed   height  across
    0°  100 kt  5000 ft    0 ft
  turn  along the way
    0°           0 ft
`
	if screen.String() != want {
		t.Errorf("%s\nmust be\n%s", screen.String(), want)
	}
}

// A verdict has its shape where the screen shows it, and its word alone elsewhere. Shapes: filled, half, struck and
// dotted disc.
func TestMark(t *testing.T) {
	for verdict, glyph := range map[string]string{
		coach.Met: "●", coach.Near: "◐", coach.Missed: "⊘", coach.NotMeasured: "◌",
	} {
		shown := layout.Mark(&layouttest.Terminal{Columns: 80}, verdict, "word")
		if !strings.Contains(shown, glyph+" word") {
			t.Errorf("%s: %q", verdict, shown)
		}
		for _, w := range []io.Writer{&strings.Builder{}, &layouttest.Terminal{Columns: 80, Dumb: true}} {
			if got := layout.Mark(w, verdict, "word"); got != "word" {
				t.Errorf("%s: %q", verdict, got)
			}
			if got := layout.Heading(w, "  Leg 1"); got != "  Leg 1" {
				t.Errorf("%q", got)
			}
		}
	}
	if got := layout.Heading(&layouttest.Terminal{Columns: 80}, "  Leg 1"); got != "  "+string(layout.Bold)+"Leg 1"+
		string(layout.Plain) {
		t.Errorf("%q", got)
	}
}
