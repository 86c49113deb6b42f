package postgres

import (
	"errors"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/jackc/pgx/v5/pgconn"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
)

// dialect is what PostgreSQL understands.
type dialect struct{}

var _ tables.Dialect = dialect{}

// translated are the statements that were translated: they are constant but for the filters of lists.
var translated sync.Map

// mostTranslated bounds the length of a statement that is remembered, in bytes: the longer ones list stations.
const mostTranslated = 4096

// argument is a place for an argument, with its number where it has one. No statement has a question mark otherwise.
var argument = regexp.MustCompile(`\?(\d*)`)

// sqliteOnly is what only SQLite wants to be told: which index to read, and where a join begins.
var sqliteOnly = strings.NewReplacer(" INDEXED BY sessions_began", "", "CROSS JOIN", "JOIN")

// Translate numbers the arguments as PostgreSQL wants it, and leaves out what is for SQLite.
func (dialect) Translate(statement string) string {
	if known, ok := translated.Load(statement); ok {
		return known.(string)
	}
	n := 0
	q := argument.ReplaceAllStringFunc(sqliteOnly.Replace(statement), func(place string) string {
		if number := place[1:]; number != "" {
			return "$" + number
		}
		n++
		return "$" + strconv.Itoa(n)
	})
	if len(statement) <= mostTranslated {
		translated.Store(statement, q)
	}
	return q
}

// Argument makes a text one that PostgreSQL takes: UTF-8 without zero bytes.
func (dialect) Argument(v any) any {
	if s, ok := v.(string); ok {
		return strings.ReplaceAll(strings.ToValidUTF8(s, "\uFFFD"), "\x00", "")
	}
	return v
}

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

// IndexRemark writes the words as they are searched.
func (dialect) IndexRemark(tx *tables.Tx, key int64, words string) error {
	_, err := tx.Exec(`UPDATE remarks SET plain = ? WHERE key = ?`, query.Plain(words), key)
	return err
}

// Classes of errors, appendix A of PostgreSQL's documentation.
const (
	dataException      = "22"
	integrityViolation = "23"
	programLimit       = "54"

	serializationFailure = "40001"
	deadlock             = "40P01"
)

// OfInput reports whether a row does not fit; errors that are not of the database are of the input too.
func (dialect) OfInput(err error) bool {
	if lost(err) {
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

// codeOf is the code of an error of PostgreSQL; "" for another one.
func codeOf(err error) string {
	var e *pgconn.PgError
	if errors.As(err, &e) && len(e.Code) == 5 {
		return e.Code
	}
	return ""
}
