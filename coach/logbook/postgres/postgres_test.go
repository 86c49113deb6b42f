package postgres

import (
	"errors"
	"os"
	"sync"
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
	os.Exit(pgtest.Main(m, func(c *pgtest.Cluster) { cluster = c }))
}

func opened(t testing.TB) *book {
	t.Helper()
	dsn := cluster.Copy(t, "logbook", func(dsn string) error {
		b, err := Engine{DSN: dsn}.Open("", false)
		if err != nil {
			return err
		}
		return b.Close()
	})
	b, err := Engine{DSN: dsn}.Open("", false)
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
	booktest.Run(t, func(t *testing.T) logbook.Book { return opened(t) })
}

// TestMany: answers about many sessions are bounded.
func TestMany(t *testing.T) {
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

// TestForgotten: after a student is forgotten, no table holds the name.
func TestForgotten(t *testing.T) {
	b := opened(t)
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
	b := opened(t)
	e := booktest.Entry("x", booktest.Began, "")
	e.Version = "1\x00.\xff2"
	must(t, b.Begin(e))
	d, err := b.Session(t.Context(), "x")
	if err != nil || d.Server != "1.\uFFFD2" {
		t.Errorf("%q, %v", d.Server, err)
	}
}
