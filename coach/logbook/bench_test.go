package logbook

import (
	"context"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"

	"halfturn/coach"
	"halfturn/coach/debrief"
)

// school is what a school of fifty students flies in a few years.
const (
	schoolSessions = 10_000
	schoolStudents = 50
	schoolLegs     = 6
	schoolChecks   = 18
)

var schoolManeuvers = []string{"wing-over", "chandelle-civil", "lazy-eight", "steep-turn"}

// filled enters sessions as they would have been flown, straight into the database.
func filled(tb testing.TB, dir string, sessions int) *Book {
	tb.Helper()
	b, err := Open(dir, Options{Version: "1.2"})
	if err != nil {
		tb.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	words := []string{"the nose is late", "bank sooner", "look at the reference point", "coordinated, well done", "altitude lost over the top"}
	err = b.change(func(tx *sql.Tx) error {
		for i := range sessions {
			at := began.Add(time.Duration(i) * 3 * time.Hour)
			id := fmt.Sprintf("%s_seat-%d", at.Format("2006-01-02T15-04-05Z"), i%8)
			e := &Entry{ID: id, Station: fmt.Sprintf("seat %d", i%8), Student: fmt.Sprintf("Student %02d", rnd.IntN(schoolStudents)), Began: at, Version: "1.2",
				Maneuver: schoolManeuvers[i%4], Aircraft: fmt.Sprintf("trainer-%d", i%3)}
			key, err := enter(tx, e)
			if err != nil {
				return err
			}
			if err := first(tx, key, e); err != nil {
				return err
			}
			if err := keep(tx, id, schoolDay(id, schoolManeuvers[i%4], rnd)); err != nil {
				return err
			}
			if _, err := tx.Exec(`UPDATE sessions SET ended = began + 1800000 WHERE key = ?`, key); err != nil {
				return err
			}
			if i%3 == 0 {
				if err := insertRemark(tx, key, &Remark{ID: 1, Words: words[rnd.IntN(len(words))] + " on the " + words[rnd.IntN(len(words))], At: at}); err != nil {
					return err
				}
			}
		}
		return nil
	})
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

func schoolDay(id, name string, rnd *rand.Rand) *debrief.Report {
	s := coach.Series{Maneuver: name, Standard: "course", Verdict: coach.Near, Score: 80, Grade: coach.Good}
	for n := range schoolLegs {
		score := 40 + 60*rnd.Float64()
		l := flight(n+1, coach.Finished, coach.Near, []string{coach.Unable, coach.Fair, coach.Good, coach.Excellent}[rnd.IntN(4)], score, fmt.Sprintf("Correction %d", rnd.IntN(12)))
		l.Checks = nil
		for k := range schoolChecks {
			c := flight(1, coach.Finished, coach.Met, coach.Good, score+rnd.Float64(), "").Checks[0]
			c.ID, c.Turn = fmt.Sprintf("check-%d", k), p(float64(k*10))
			l.Checks = append(l.Checks, c)
		}
		s.Legs = append(s.Legs, l)
	}
	r := sitting(id)
	r.Files[0].Stations[0].Series = []coach.Series{s}
	return r
}

var (
	schoolOnce sync.Once
	schoolDir  string
)

func TestMain(m *testing.M) {
	if name := os.Getenv("HALFTURN_TEST_WRITES"); name != "" {
		os.Exit(otherProcess(name))
	}
	if what := os.Getenv("HALFTURN_TEST_BREAKS"); what != "" {
		os.Exit(breakOff(what))
	}
	goleak.VerifyTestMain(m, goleak.Cleanup(func(status int) {
		if schoolDir != "" {
			_ = os.RemoveAll(schoolDir)
		}
		os.Exit(status)
	}))
}

// school is a logbook of ten thousand sessions, made once.
func school(b *testing.B) *Book {
	b.Helper()
	schoolOnce.Do(func() {
		var err error
		if schoolDir, err = os.MkdirTemp("", "logbook"); err != nil {
			b.Fatal(err)
		}
		if err := filled(b, schoolDir, schoolSessions).Close(); err != nil {
			b.Fatal(err)
		}
	})
	book, err := Open(schoolDir, Options{})
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() {
		if err := book.Close(); err != nil {
			b.Error(err)
		}
	})
	if info, err := os.Stat(filepath.Join(schoolDir, "logbook.db")); err == nil {
		b.ReportMetric(float64(info.Size())/1e6, "MB")
	}
	return book
}

var schoolFilters = []struct {
	name   string
	filter Filter
}{
	{"all", Filter{}},
	{"flown", Filter{Flown: true}},
	{"student", Filter{Student: "Student 07"}},
	{"maneuver", Filter{Maneuver: "lazy-eight"}},
	{"aircraft", Filter{Aircraft: "trainer-1"}},
	{"grade", Filter{Grade: coach.Good}},
	{"dates", Filter{From: began.AddDate(1, 0, 0), To: began.AddDate(1, 3, 0)}},
	{"text", Filter{Text: "reference poi"}},
	{"everything", Filter{Flown: true, Student: "Student 07", Maneuver: "lazy-eight", Aircraft: "trainer-1", Grade: coach.Good, From: began, Text: "nose"}},
}

func BenchmarkList(b *testing.B) {
	book := school(b)
	for _, f := range schoolFilters {
		b.Run(f.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := book.List(context.Background(), f.filter); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("deep", func(b *testing.B) {
		f := Filter{After: fmt.Sprintf("%d_x", began.Add(3*100*time.Hour).UnixMilli())}
		for b.Loop() {
			if _, err := book.List(context.Background(), f); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkTrend(b *testing.B) {
	book := school(b)
	for _, f := range schoolFilters {
		b.Run(f.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := book.Trend(context.Background(), f.filter); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkModels(b *testing.B) {
	book := school(b)
	list, err := book.List(context.Background(), Filter{Limit: 1})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := book.Models(context.Background(), list.Sessions[0].ID, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSession(b *testing.B) {
	book := school(b)
	list, err := book.List(context.Background(), Filter{Limit: 1})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := book.Session(context.Background(), list.Sessions[0].ID); err != nil {
			b.Fatal(err)
		}
		if _, err := book.Report(context.Background(), list.Sessions[0].ID, 1); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkKeep enters a leg more of a session of thirty.
func BenchmarkKeep(b *testing.B) {
	book, err := Open(b.TempDir(), Options{})
	if err != nil {
		b.Fatal(err)
	}
	defer book.Close()
	id, err := book.NewID(began, "seat")
	if err != nil {
		b.Fatal(err)
	}
	if err := book.Begin(Entry{ID: id, Began: began}); err != nil {
		b.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(1, 2))
	r := sitting(id)
	r.Files[0].Stations[0].Series = nil
	for range 5 {
		r.Files[0].Stations[0].Series = append(r.Files[0].Stations[0].Series, schoolDay(id, "wing-over", rnd).Files[0].Stations[0].Series...)
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
		if err := book.sound(); err != nil {
			b.Fatal(err)
		}
	}
}
