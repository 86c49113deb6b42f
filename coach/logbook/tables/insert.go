package tables

import "strings"

// batches are how many rows one statement enters. They are few, so that a database that keeps statements prepared keeps
// few; the arguments of the largest, of a table of 24 columns, are fewer than any database takes.
var batches = []int{256, 32, 4, 1}

// An Insert enters rows into a table, many by one statement: a database on another machine is asked less often.
type Insert struct {
	tx      *Tx
	into    string
	columns int
	rows    [][]any
}

// Into enters rows of a table with the given columns.
func (t *Tx) Into(table string, columns ...string) *Insert {
	return &Insert{tx: t, into: "INSERT INTO " + table + " (" + strings.Join(columns, ", ") + ") VALUES ",
		columns: len(columns)}
}

// Row adds a row, which is entered by [Insert.Flush].
func (in *Insert) Row(values ...any) { in.rows = append(in.rows, values) }

// Flush enters the rows that were added.
func (in *Insert) Flush() error {
	for _, n := range batches {
		for len(in.rows) >= n {
			args := make([]any, 0, n*in.columns)
			for _, row := range in.rows[:n] {
				args = append(args, row...)
			}
			one := "(?" + strings.Repeat(", ?", in.columns-1) + ")"
			if _, err := in.tx.Exec(in.into+one+strings.Repeat(", "+one, n-1), args...); err != nil {
				return err
			}
			in.rows = in.rows[n:]
		}
	}
	return nil
}
