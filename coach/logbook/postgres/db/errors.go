package db

import (
	"context"
	"errors"
	"io"
	"net"
	"slices"
	"strings"

	"github.com/jackc/pgx/v5/pgconn"

	"halfturn/coach/logbook"
)

// Classes and codes of errors, appendix A of PostgreSQL's documentation.
const (
	dataException      = "22"
	integrityViolation = "23"
	programLimit       = "54"

	uniqueViolation      = "23505"
	serializationFailure = "40001"
	deadlock             = "40P01"
	stoodStill           = "25P03" // idle_in_transaction_session_timeout
	readOnlyTransaction  = "25006"
	diskFull             = "53100"
	tooManyConnections   = "53300"
)

// codeOf is the code of an error of PostgreSQL; "" for another one.
func codeOf(err error) string {
	var e *pgconn.PgError
	if errors.As(err, &e) && len(e.Code) == 5 {
		return e.Code
	}
	return ""
}

// away reports whether the database cannot be reached, is going away or starting (class 57 of its errors, or 08), or
// does not answer in time.
func away(err error) bool {
	var dial *pgconn.ConnectError
	var network net.Error
	switch code := codeOf(err); {
	case code != "":
		return strings.HasPrefix(code, "57P") || strings.HasPrefix(code, "08") || code == tooManyConnections
	case errors.Is(err, context.DeadlineExceeded), errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF):
		return true
	}
	return errors.As(err, &dial) || errors.As(err, &network) || pgconn.SafeToRetry(err)
}

// meanings are what errors of PostgreSQL mean to people, and what to do, by code.
var meanings = map[string]string{
	"28P01": "the password is wrong: see the connection string, or the file that it names",
	"28000": "there is no such user, or it may not connect from here: create it, or see pg_hba.conf",
	"3D000": "there is no such database: create it",
	"55P03": "its tables are being made or changed, by another node or a rebuild: try again when that is over",
	"42501": "this user may not do that: make it the owner of the database, or of the tables",

	readOnlyTransaction:  "it takes no changes: it is a standby, or its transactions are read only",
	diskFull:             "its disk is full: make room there",
	tooManyConnections:   "it has too many connections already: raise max_connections, or run fewer nodes",
	serializationFailure: "too many change the same rows at once: try again",
}

// plainly says what a failure of the database means, and what to do. Other errors stay as they are.
func (d *Database) plainly(err error) error {
	var told *logbook.Failure
	if err == nil || errors.As(err, &told) {
		return err
	}
	code, gone := codeOf(err), away(err)
	what, known := meanings[code]
	switch {
	case known:
	case gone && errors.Is(err, context.DeadlineExceeded):
		what = "it does not answer: see that it runs, and that this machine may connect"
	case gone:
		what = "it cannot be reached: see that it runs, and that this machine may connect (" + lastOf(err) + ")"
	default:
		return err
	}
	return &logbook.Failure{
		Words:      d.Of + " in " + d.where + ": " + what,
		Err:        err,
		Away:       gone,
		Unwritable: code == readOnlyTransaction || code == diskFull,
	}
}

// lastOf is the reason at the bottom of an error, on one line, which says no more of the connection than why it failed.
// An error of several tries, such as with TLS and without, has several bottoms, of which each reason is said once.
func lastOf(err error) string {
	var all []string
	bottoms(err, func(reason error) {
		if says := strings.Join(strings.Fields(reason.Error()), " "); !slices.Contains(all, says) {
			all = append(all, says)
		}
	})
	return strings.Join(all, ", ")
}

// bottoms tells the errors within an error that hold no other.
func bottoms(err error, tell func(error)) {
	if many, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range many.Unwrap() {
			bottoms(one, tell)
		}
		return
	}
	if next := errors.Unwrap(err); next != nil {
		bottoms(next, tell)
		return
	}
	tell(err)
}
