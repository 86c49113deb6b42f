package db

import (
	"strconv"
	"strings"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
)

// dialect is what PostgreSQL understands.
type dialect struct{}

var _ tables.Dialect = dialect{}

// sqliteOnly is what only SQLite wants to be told: which index to read, and where a join begins.
var sqliteOnly = strings.NewReplacer(" INDEXED BY sessions_began", "", "CROSS JOIN", "JOIN")

// Translate numbers the arguments as PostgreSQL wants it, and leaves out what is for SQLite. No statement has a
// question mark otherwise.
func (dialect) Translate(statement string) string {
	var b strings.Builder
	n := 0
	parts := strings.Split(sqliteOnly.Replace(statement), "?")
	for i, part := range parts {
		if i > 0 {
			b.WriteByte('$')
			if part == "" || part[0] < '0' || part[0] > '9' {
				n++
				b.WriteString(strconv.Itoa(n))
			}
		}
		b.WriteString(part)
	}
	return b.String()
}

// Argument makes a text one that PostgreSQL takes.
func (dialect) Argument(v any) any { return tables.Text(v) }

// Search asks the index of the words of remarks.
func (dialect) Search(words []string) (condition string, arg any) {
	return "r.found @@ to_tsquery('simple', ?)", prefixes(words)
}

// prefixes is a query for words or their beginnings. Words hold letters, figures and marks only, so that none is an
// operator.
func prefixes(words []string) string {
	list := make([]string, len(words))
	for i, w := range words {
		list[i] = "'" + query.Plain(w) + "':*"
	}
	return strings.Join(list, " & ")
}

// Among sends the keys as one text: PostgreSQL sees how many they are as it plans.
func (dialect) Among(column string, keys []int64) (condition string, arg any) {
	return column + " = ANY (string_to_array(?, ',')::BIGINT[])", tables.Joined(keys)
}

// NumberOn sets the sequence behind a column.
func (dialect) NumberOn(tx *tables.Tx, table, column string) error {
	_, err := tx.Exec(`SELECT setval(pg_get_serial_sequence('` + table + `', '` + column + `'),
		coalesce(max(` + column + `), 0) + 1, false) FROM ` + table)
	return err
}

// Distinct goes from each pair to the next in the index of the columns: there are few among a million rows, and
// PostgreSQL would read all of them.
func (dialect) Distinct(table, name, title string) string {
	columns := name + `, ` + title
	return `WITH RECURSIVE pairs AS (
			(SELECT ` + columns + ` FROM ` + table + ` WHERE ` + name + ` > '' ORDER BY ` + columns + ` LIMIT 1)
			UNION ALL SELECT next.* FROM pairs, LATERAL (SELECT t.` + name + `, t.` + title + `
				FROM ` + table + ` t WHERE (t.` + name + `, t.` + title + `) > (pairs.` + name + `, pairs.` + title + `)
				ORDER BY t.` + name + `, t.` + title + ` LIMIT 1) AS next)
		SELECT ` + columns + ` FROM pairs ORDER BY ` + title + `, ` + name
}

// OfInput reports whether a row does not fit; errors that are not of the database are of the input too.
func (dialect) OfInput(err error) bool {
	if away(err) {
		return false
	}
	code := codeOf(err)
	if code == "" {
		return true
	}
	switch code[:2] {
	case dataException, integrityViolation, programLimit:
		return true
	}
	return false
}
