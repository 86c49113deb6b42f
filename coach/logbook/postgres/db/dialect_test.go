package db

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/jackc/pgx/v5/pgconn"
)

func pgError(code string) error { return &pgconn.PgError{Code: code} }

// The bottom of an error is said once and on one line, also where several tries failed: a connection without a word on
// TLS is tried with it and without it.
func TestLastOf(t *testing.T) {
	refused, late := errors.New("connection refused"), errors.New("no route to host")
	try := func(err error) error { return fmt.Errorf("127.0.0.1:1: %w", fmt.Errorf("dial: %w", err)) }
	for _, c := range []struct {
		err  error
		want string
	}{
		{refused, "connection refused"},
		{try(refused), "connection refused"},
		{fmt.Errorf("connect: %w", errors.Join(try(refused), try(refused))), "connection refused"},
		{errors.Join(try(refused), errors.Join(try(late), try(refused))), "connection refused, no route to host"},
		{errors.New("first line\n second line"), "first line second line"},
	} {
		if got := lastOf(c.err); got != c.want {
			t.Errorf("%q: %q; must be %q", c.err, got, c.want)
		}
	}
}

// TestTranslate numbers arguments, and leaves out what only SQLite wants to be told.
func TestTranslate(t *testing.T) {
	for statement, want := range map[string]string{
		`SELECT a FROM t WHERE b = ? AND c IN (?, ?)`:           `SELECT a FROM t WHERE b = $1 AND c IN ($2, $3)`,
		`SELECT ?2, ?1 WHERE ?2 > 0`:                            `SELECT $2, $1 WHERE $2 > 0`,
		`FROM sessions s INDEXED BY sessions_began WHERE x = ?`: `FROM sessions s WHERE x = $1`,
		`a CROSS JOIN b ON b.x = a.x`:                           `a JOIN b ON b.x = a.x`,
		`a = ?`:                                                 `a = $1`,
		``:                                                      ``,
	} {
		if got := (dialect{}).Translate(statement); got != want {
			t.Errorf("%s\nbecomes %s", statement, got)
		}
	}
}

// TestOfInput tells what does not fit from a database that fails.
func TestOfInput(t *testing.T) {
	for err, of := range map[error]bool{
		pgError("23502"):              true, // NULL where there must be a value
		pgError("22012"):              true, // divided by zero
		pgError("54000"):              true, // too long
		pgError("42P01"):              false,
		pgError("57P01"):              false,
		pgError("40001"):              false,
		context.DeadlineExceeded:      false,
		error(&pgconn.ConnectError{}): false,
		errors.New("not JSON"):        true,
	} {
		if (dialect{}).OfInput(err) != of {
			t.Errorf("%v, of the input: %v", err, !of)
		}
	}
}
