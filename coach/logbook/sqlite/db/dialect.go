package db

import (
	"strings"

	lib "modernc.org/sqlite/lib"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
)

// dialect is what SQLite understands.
type dialect struct{}

var _ tables.Dialect = dialect{}

// Translate changes nothing: SQLite takes arguments as the packages change and query write them.
func (dialect) Translate(statement string) string { return statement }

// Argument changes nothing.
func (dialect) Argument(v any) any { return v }

// Search asks the index of FTS5, in which a trigger keeps the plain words of remarks.
func (dialect) Search(words []string) (condition string, arg any) {
	return `r.key IN (SELECT rowid FROM remarks_text WHERE remarks_text MATCH ?)`, match(words)
}

// match is a query of FTS5 for words or their beginnings, whatever they hold.
func match(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = `"` + query.Plain(w) + `"*`
	}
	return strings.Join(quoted, " ")
}

// Among sends the keys as JSON.
func (dialect) Among(column string, keys []int64) (condition string, arg any) {
	return column + " IN (SELECT value FROM json_each(?))", "[" + tables.Joined(keys) + "]"
}

// NumberOn does nothing: a number is one more than the largest.
func (dialect) NumberOn(*tables.Tx, string, string) error { return nil }

// Distinct goes from each pair to the next in the index of the columns: there are few among a million rows.
func (dialect) Distinct(table, name, title string) string {
	next := func(column string) string {
		return `(SELECT t.` + column + ` FROM ` + table + ` t WHERE (t.` + name + `, t.` + title + `) > (a, b)
			ORDER BY t.` + name + `, t.` + title + ` LIMIT 1)`
	}
	return `WITH RECURSIVE pairs (a, b) AS (
			SELECT * FROM (SELECT ` + name + `, ` + title + ` FROM ` + table + ` WHERE ` + name + ` > ''
				ORDER BY ` + name + `, ` + title + ` LIMIT 1)
			UNION ALL SELECT ` + next(name) + `, ` + next(title) + ` FROM pairs WHERE a IS NOT NULL)
		SELECT a, b FROM pairs WHERE a IS NOT NULL ORDER BY b, a`
}

// OfInput reports whether a row does not fit.
func (dialect) OfInput(err error) bool {
	switch Code(err) {
	case 0, lib.SQLITE_CONSTRAINT, lib.SQLITE_MISMATCH, lib.SQLITE_TOOBIG:
		return !Damaged(err)
	}
	return false
}
