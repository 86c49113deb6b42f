package db

import (
	"strings"

	lib "modernc.org/sqlite/lib"

	"halfturn/coach/logbook/tables"
)

// dialect is what SQLite understands.
type dialect struct{}

var _ tables.Dialect = dialect{}

// Translate changes nothing: SQLite takes arguments as the packages change and query write them.
func (dialect) Translate(statement string) string { return statement }

// Argument changes nothing.
func (dialect) Argument(v any) any { return v }

// Search asks the index of FTS5, in which a trigger keeps the words of remarks.
func (dialect) Search(words []string) (condition string, arg any) {
	return `r.key IN (SELECT rowid FROM remarks_text WHERE remarks_text MATCH ?)`, match(words)
}

// match is a query of FTS5 for words or their beginnings, whatever they hold.
func match(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = `"` + w + `"*`
	}
	return strings.Join(quoted, " ")
}

// IndexRemark does nothing: a trigger does.
func (dialect) IndexRemark(*tables.Tx, int64, string) error { return nil }

// NumberOn does nothing: a number is one more than the largest.
func (dialect) NumberOn(*tables.Tx, string, string) error { return nil }

// Distinct reads the index of the columns, or the table.
func (dialect) Distinct(table, name, title string) string {
	return `SELECT DISTINCT ` + name + `, ` + title + ` FROM ` + table + ` WHERE ` + name + ` > ''
		ORDER BY ` + title + `, ` + name
}

// OfInput reports whether a row does not fit.
func (dialect) OfInput(err error) bool {
	switch Code(err) {
	case 0, lib.SQLITE_CONSTRAINT, lib.SQLITE_MISMATCH, lib.SQLITE_TOOBIG:
		return !Damaged(err)
	}
	return false
}
