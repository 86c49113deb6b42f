package postgres

import (
	"errors"
	"testing"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
)

// schoolSessions is what a school of fifty students flies in a few years, as in the benchmarks of SQLite.
const schoolSessions = 10_000

// school is a logbook of ten thousand sessions, made once.
func school(b *testing.B) logbook.Book {
	b.Helper()
	dsn := cluster.Copy(b, "school", func(dsn string) error {
		made, err := Engine{DSN: dsn}.Open("", false)
		if err != nil {
			return err
		}
		booktest.Fill(b, made, schoolSessions)
		return errors.Join(analyze(made), made.Close())
	})
	made, err := Engine{DSN: dsn}.Open("", false)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		if err := made.Close(); err != nil {
			b.Error(err)
		}
	})
	return made
}

// analyze does what a server does by itself in time.
func analyze(b logbook.Book) error { return b.(*book).Analyze() }

func BenchmarkList(b *testing.B) { booktest.BenchmarkList(b, school(b)) }

func BenchmarkTrend(b *testing.B) { booktest.BenchmarkTrend(b, school(b)) }

func BenchmarkModels(b *testing.B) { booktest.BenchmarkModels(b, school(b)) }

func BenchmarkSession(b *testing.B) { booktest.BenchmarkSession(b, school(b)) }

func BenchmarkGraded(b *testing.B) { booktest.BenchmarkGraded(b, school(b)) }

func BenchmarkNear(b *testing.B) { booktest.BenchmarkNear(b, school(b)) }
