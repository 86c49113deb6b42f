package sqlite

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"go.uber.org/goleak"

	"halfturn/coach/logbook/booktest"
)

// schoolSessions is what a school of fifty students flies in a few years.
const schoolSessions = 10_000

var (
	schoolOnce sync.Once
	schoolDir  string
)

func TestMain(m *testing.M) {
	goleak.VerifyTestMain(m, goleak.Cleanup(func(status int) {
		if schoolDir != "" {
			_ = os.RemoveAll(schoolDir)
		}
		os.Exit(status)
	}))
}

// school is a logbook of ten thousand sessions, made once.
func school(b *testing.B) *book {
	b.Helper()
	schoolOnce.Do(func() {
		var err error
		if schoolDir, err = os.MkdirTemp("", "logbook"); err != nil {
			b.Fatal(err)
		}
		made, err := Engine{}.Open(filepath.Join(schoolDir, "logbook.db"), false)
		if err != nil {
			b.Fatal(err)
		}
		booktest.Fill(b, made, schoolSessions)
		if err := made.Close(); err != nil {
			b.Fatal(err)
		}
	})
	made, err := Engine{}.Open(filepath.Join(schoolDir, "logbook.db"), false)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		if err := made.Close(); err != nil {
			b.Error(err)
		}
	})
	if info, err := os.Stat(filepath.Join(schoolDir, "logbook.db")); err == nil {
		b.ReportMetric(float64(info.Size())/1e6, "MB")
	}
	return made.(*book)
}

func BenchmarkList(b *testing.B) { booktest.BenchmarkList(b, school(b)) }

func BenchmarkTrend(b *testing.B) { booktest.BenchmarkTrend(b, school(b)) }

func BenchmarkModels(b *testing.B) { booktest.BenchmarkModels(b, school(b)) }

func BenchmarkSession(b *testing.B) { booktest.BenchmarkSession(b, school(b)) }

func BenchmarkGraded(b *testing.B) { booktest.BenchmarkGraded(b, school(b)) }

func BenchmarkNear(b *testing.B) { booktest.BenchmarkNear(b, school(b)) }

// BenchmarkKeep enters a leg more of a session of thirty.
func BenchmarkKeep(b *testing.B) {
	book, err := Engine{}.Open(filepath.Join(b.TempDir(), "logbook.db"), false)
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	const id = "2031-05-04T09-00-07Z_seat"
	if err := book.Begin(booktest.Entry(id, booktest.Began, "")); err != nil {
		b.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	r := booktest.Report(id)
	r.Files[0].Stations[0].Series = nil
	for range 5 {
		more := booktest.SchoolDay(id, "wing-over", rnd).Files[0].Stations[0].Series
		r.Files[0].Stations[0].Series = append(r.Files[0].Stations[0].Series, more...)
	}
	for b.Loop() {
		r.Files[0].Stations[0].Series[4].Legs[5].Score = rnd.Float64()
		if err := book.Keep(id, r); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSound(b *testing.B) {
	book := school(b)
	for b.Loop() {
		if err := book.Sound(); err != nil {
			b.Fatal(err)
		}
	}
}
