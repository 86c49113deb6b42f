package layout

import (
	"io"
	"slices"
	"strings"
	"text/tabwriter"
)

// gap is how many spaces stand between columns.
const gap = 2

// A Below is a column that goes below its row when the row does not fit.
type Below struct {
	Column int
	Title  string // before what stands in it
}

// A Table lines up cells that end with tabs, as text/tabwriter does. Rows that do not fit their screen give their last
// columns away to lines below them, as far as that is allowed, and then fold their longest cells.
type Table struct {
	w     io.Writer
	right bool
	below []Below
	text  strings.Builder
}

// NewTable makes a table on w. The columns given go below, in this order, where a row is too long.
func NewTable(w io.Writer, below ...Below) *Table { return &Table{w: w, below: below} }

// NewFigures makes a table whose cells stand at the right of their columns. One that is too wide is divided into tables
// below one another; each begins with the first column.
func NewFigures(w io.Writer) *Table { return &Table{w: w, right: true} }

// Write takes lines of cells.
func (t *Table) Write(b []byte) (int, error) { return t.text.Write(b) }

// Width is that of the screen.
func (t *Table) Width() int { return WidthOf(t.w) }

// Glyphs reports whether the screen shows shapes.
func (t *Table) Glyphs() bool { return HasGlyphs(t.w) }

// Flush writes the table.
func (t *Table) Flush() error {
	columns := WidthOf(t.w)
	whole := t.aligned(t.text.String())
	switch {
	case columns == 0:
	case !t.right:
		whole = t.folded(columns) // also where it fits: marks of style have no width
	case widest(whole) > columns:
		whole = t.divided(columns)
	}
	_, err := io.WriteString(t.w, whole)
	return err
}

// aligned lines the cells up.
func (t *Table) aligned(text string) string {
	var b strings.Builder
	flags := uint(0)
	if t.right {
		flags = tabwriter.AlignRight
	}
	w := tabwriter.NewWriter(&b, 0, 8, gap, ' ', flags)
	_, _ = io.WriteString(w, text) // into memory
	_ = w.Flush()
	return b.String()
}

func widest(text string) (n int) {
	for line := range strings.Lines(text) {
		n = max(n, width(strings.TrimRight(line, " \n")))
	}
	return n
}

// rows splits the table into cells.
func (t *Table) rows() (rows [][]string) {
	for line := range strings.Lines(t.text.String()) {
		line = strings.TrimSuffix(line, "\n")
		if t.right {
			line = strings.TrimSuffix(line, "\t")
		}
		rows = append(rows, strings.Split(line, "\t"))
	}
	return rows
}

// divided puts as many columns side by side as fit, again and again, each time after the first.
func (t *Table) divided(columns int) string {
	rows := t.rows()
	sizes := sizesOf(rows)
	var b strings.Builder
	for from := 1; from < len(sizes); {
		to, total := from, sizes[0]+gap
		for to < len(sizes) && (to == from || total+sizes[to]+gap <= columns) {
			total += sizes[to] + gap
			to++
		}
		var part strings.Builder
		for _, row := range rows {
			cells := append([]string{row[0]}, row[min(from, len(row)):min(to, len(row))]...)
			part.WriteString(strings.Join(cells, "\t") + "\t\n")
		}
		b.WriteString(t.aligned(part.String()))
		from = to
	}
	return b.String()
}

// sizesOf are the widths of the columns. A line without tabs is none of their rows.
func sizesOf(rows [][]string) (sizes []int) {
	for _, row := range rows {
		if len(row) == 1 {
			continue
		}
		for i, c := range row {
			if i == len(sizes) {
				sizes = append(sizes, 0)
			}
			sizes[i] = max(sizes[i], width(strings.TrimRight(c, " ")))
		}
	}
	return sizes
}

// folded fits the table into a number of columns.
func (t *Table) folded(columns int) string {
	rows := t.rows()
	sizes := sizesOf(rows)
	var moved []Below
	for _, below := range t.below {
		if total(sizes) <= columns {
			break
		}
		if below.Column < len(sizes) {
			moved = append(moved, below)
			sizes[below.Column] = 0
		}
	}
	slices.SortFunc(moved, func(a, b Below) int { return a.Column - b.Column })
	shrink(sizes, columns, rows)
	var b strings.Builder
	for i, row := range rows {
		if len(row) == 1 {
			b.WriteString(strings.Join(Fold(row[0], columns), "\n") + "\n")
			continue
		}
		writeRow(&b, row, sizes)
		var further []string
		for _, below := range moved {
			// The first row names the columns; below the others stands what they are.
			if cell := at(row, below.Column); cell != "" && cell != "–" && (i > 0 || !isHead(rows, below)) {
				further = append(further, below.Title+cell)
			}
		}
		if len(further) > 0 {
			hang := indentOf(row[0]) + "    "
			b.WriteString(strings.Join(fold(strings.Join(further, "; "), hang, hang, columns), "\n") + "\n")
		}
	}
	return b.String()
}

// isHead reports whether the first row names the columns: in capitals.
func isHead(rows [][]string, below Below) bool {
	name := at(rows[0], below.Column)
	return name == strings.ToUpper(name)
}

func at(row []string, i int) string {
	if i < len(row) {
		return row[i]
	}
	return ""
}

func indentOf(s string) string { return s[:len(s)-len(strings.TrimLeft(s, " "))] }

// total is the width of a row; columns of no width are left out.
func total(sizes []int) (n int) {
	for _, s := range sizes {
		if s > 0 {
			n += s + gap
		}
	}
	return max(n-gap, 0)
}

// shrink makes the widest columns narrower until a row fits: first not below their longest word, then below that too.
func shrink(sizes []int, columns int, rows [][]string) {
	const least = 6
	for _, whole := range []bool{true, false} {
		words := make([]int, len(sizes))
		for _, row := range rows {
			for i, c := range row {
				if len(row) > 1 && whole {
					words[i] = max(words[i], width(indentOf(c))+longestWord(c))
				}
			}
		}
		for total(sizes) > columns {
			widest := -1
			for i := range sizes {
				if sizes[i] > max(words[i], least) && (widest < 0 || sizes[i] > sizes[widest]) {
					widest = i
				}
			}
			if widest < 0 {
				break
			}
			sizes[widest]--
		}
	}
}

func longestWord(s string) (n int) {
	for _, word := range words(s) {
		n = max(n, width(word))
	}
	return n
}

// writeRow writes a row whose cells are folded into the columns.
func writeRow(b *strings.Builder, row []string, sizes []int) {
	var cells [][]string
	height := 1
	for i, size := range sizes {
		var lines []string
		if cell := strings.TrimRight(at(row, i), " "); size > 0 && cell != "" {
			indent := indentOf(cell)
			lines = fold(cell[len(indent):], indent, indent, size)
		}
		cells = append(cells, lines)
		height = max(height, len(lines))
	}
	for n := range height {
		line := ""
		pad := 0
		for i, size := range sizes {
			if size == 0 {
				continue
			}
			if text := at(cells[i], n); text != "" {
				line += strings.Repeat(" ", pad) + text
				pad = size - width(text)
			} else {
				pad += size
			}
			pad += gap
		}
		b.WriteString(line + "\n")
	}
}
