package postgres

import (
	"context"
	"errors"
	"fmt"
	"os"
	"sync"
	"sync/atomic"
	"testing"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/postgres/pgtest"
	"halfturn/coach/logbook/tables"
)

var cluster *pgtest.Cluster

func TestMain(m *testing.M) {
	if dsn := os.Getenv(heldBy); dsn != "" {
		os.Exit(holdLock(dsn))
	}
	if dsn := os.Getenv(stillIn); dsn != "" {
		os.Exit(standStill(dsn))
	}
	os.Exit(pgtest.Main(m, func(c *pgtest.Cluster) { cluster = c }))
}

// shared makes the database of the tests that need no other, once: a schema in it is made in a tenth of the time of a
// database.
var shared = sync.OnceValue(func() (made struct {
	dsn string
	err error
}) {
	made.dsn, made.err = cluster.Make("shared")
	return made
})

var schemas atomic.Int64

// opened opens a logbook that holds nothing, in a schema of its own.
func opened(t testing.TB) *book {
	t.Helper()
	cluster.Need(t)
	database := shared()
	if database.err != nil {
		t.Fatal(database.err)
	}
	own := schema()
	own.Name += fmt.Sprint("_", schemas.Add(1))
	b, err := bookIn(own.Open(context.Background(), database.dsn))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	return b.(*book)
}

// TestBook: the engine keeps a logbook as the interface says.
func TestBook(t *testing.T) {
	t.Parallel()
	booktest.Run(t, func(t *testing.T) logbook.Book { return opened(t) })
}

// TestMany: answers about many sessions are bounded.
func TestMany(t *testing.T) {
	t.Parallel()
	b := opened(t)
	booktest.RunMany(t, b, b.Database)
}

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// TestChangedAtOnce: changes of the same rows by several nodes come one after another; none is lost.
func TestChangedAtOnce(t *testing.T) {
	t.Parallel()
	b := opened(t)
	must(t, b.Begin(booktest.Entry("x", booktest.Began, "")))
	const nodes, each = 4, 10
	var wait sync.WaitGroup
	for range nodes {
		wait.Go(func() {
			for range each {
				g := &logbook.Grading{At: booktest.Began, Report: booktest.Report("x")}
				if err := b.Regrade("x", g); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wait.Wait()
	d, err := b.Session(t.Context(), "x")
	if err != nil || len(d.Regrades) != nodes*each {
		t.Errorf("%d gradings of %d, %v", len(d.Regrades), nodes*each, err)
	}
}

// TestForgotten: after a student is forgotten, no table holds the name. It has a database of its own: PostgreSQL keeps
// rows for whoever may still see them.
func TestForgotten(t *testing.T) {
	t.Parallel()
	made, err := Engine{DSN: cluster.New(t)}.Open("", false)
	must(t, err)
	defer made.Close()
	b := made.(*book)
	must(t, b.Begin(booktest.Entry("x", booktest.Began, "Ada Example")), b.Forget("x"), b.ForgetStudent("ADA example"))
	var bytes int
	must(t, b.Ask(t.Context(), func(tx *tables.Tx) error {
		return tx.QueryRow(`SELECT pg_relation_size('students')`).Scan(&bytes)
	}))
	if bytes != 0 {
		t.Errorf("the table of students has %d bytes", bytes)
	}
}

// TestTexts: what PostgreSQL takes in no text is put in without it.
func TestTexts(t *testing.T) {
	t.Parallel()
	b := opened(t)
	e := booktest.Entry("x", booktest.Began, "")
	e.Version = "1\x00.\xff2"
	must(t, b.Begin(e))
	d, err := b.Session(t.Context(), "x")
	if err != nil || d.Server != "1.\uFFFD2" {
		t.Errorf("%q, %v", d.Server, err)
	}
}
