// Package tables is what engines that keep a logbook in tables share. Package change writes and package query reads
// them, in one SQL that SQLite and PostgreSQL both understand; an engine brings connections, the tables themselves, and
// a [Dialect] for the little in which they differ. Statements have question marks for arguments: ? for the next, ?1 for
// the first. The rules that keep the SQL common: no bare columns beside an aggregate, no scalar min and max, flags are
// numbers, and names of columns are qualified in an upsert.
package tables

import (
	"context"
	"database/sql"
)

// A Dialect is what is different between the databases.
type Dialect interface {
	// Translate puts a statement into the words of the database.
	Translate(statement string) string
	// Argument makes an argument one that the database takes.
	Argument(v any) any
	// Search returns a condition on the key of remarks r, with one argument, that finds the remarks holding every word
	// of a list, or a word that begins with it, whatever its case and accents.
	Search(words []string) (condition string, arg any)
	// Among returns a condition, with one argument, that a column holds one of some keys: one statement for any number
	// of them.
	Among(column string, keys []int64) (condition string, arg any)
	// NumberOn makes the numbers that the database gives to rows of a table go on after those that are in a column.
	NumberOn(tx *Tx, table, column string) error
	// Distinct is a query for the pairs of values that two columns of a table have, by the second and the first. It may
	// leave out rows in which the first is empty.
	Distinct(table, name, title string) string
	// OfInput reports whether an error is about what was to be entered, and not of the database: it does not fit.
	OfInput(err error) bool
}

// A Database is open.
type Database interface {
	// Change makes a change, whole or not at all. f may be called again when another change came between.
	Change(f func(*Tx) error) error
	// ChangeAlone is Change while nobody else changes anything; f is called once.
	ChangeAlone(f func(*Tx) error) error
	// Ask reads in one state of the database, whatever is written meanwhile.
	Ask(ctx context.Context, f func(*Tx) error) error
	// Rewrite takes what was deleted out of the files.
	Rewrite() error
	// ShapeIs is the version of the tables as they are read.
	ShapeIs() int
}

// The shapes from which on the tables have something. A file that is older and cannot be written is read as it is.
const (
	ShapeOfNames     = 3 // folded names, and the sessions that are left out
	ShapeOfIDs       = 4 // ids
	ShapeOfHeadlines = 5 // headlines
	ShapeOfJudging   = 6 // what people made of grades
	ShapeOfCourses   = 9 // the courses of students
)

// A Tx is a transaction. Its statements are translated.
type Tx struct {
	ctx context.Context // of the transaction as a whole, for the statements that are given none
	tx  *sql.Tx
	Dialect
}

// NewTx makes the transaction of a database one whose statements are translated. They end with the context.
func NewTx(ctx context.Context, tx *sql.Tx, d Dialect) *Tx { return &Tx{ctx, tx, d} }

func (t *Tx) arguments(args []any) []any {
	for i, v := range args {
		args[i] = t.Argument(v)
	}
	return args
}

// Exec runs a statement.
func (t *Tx) Exec(q string, args ...any) (sql.Result, error) {
	return t.tx.ExecContext(t.ctx, t.Translate(q), t.arguments(args)...)
}

// Query asks for rows.
func (t *Tx) Query(q string, args ...any) (*sql.Rows, error) {
	return t.QueryContext(t.ctx, q, args...)
}

// QueryContext asks for rows until a context ends.
func (t *Tx) QueryContext(ctx context.Context, q string, args ...any) (*sql.Rows, error) {
	return t.tx.QueryContext(ctx, t.Translate(q), t.arguments(args)...)
}

// QueryRow asks for one row.
func (t *Tx) QueryRow(q string, args ...any) *sql.Row {
	return t.QueryRowContext(t.ctx, q, args...)
}

// QueryRowContext asks for one row until a context ends.
func (t *Tx) QueryRowContext(ctx context.Context, q string, args ...any) *sql.Row {
	return t.tx.QueryRowContext(ctx, t.Translate(q), t.arguments(args)...)
}
