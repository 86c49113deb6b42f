package booktest

import (
	"fmt"
	"testing"
	"time"

	"halfturn/coach/logbook"
)

// BenchmarkList asks for a page of the list, by filters.
func BenchmarkList(b *testing.B, book logbook.Book) {
	for _, f := range Filters {
		b.Run(f.Name, func(b *testing.B) {
			for b.Loop() {
				if _, err := book.List(b.Context(), f.Filter); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("deep", func(b *testing.B) {
		f := logbook.Filter{After: fmt.Sprintf("%d_x", Began.Add(3*100*time.Hour).UnixMilli())}
		for b.Loop() {
			if _, err := book.List(b.Context(), f); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkTrend asks for a trend, by filters.
func BenchmarkTrend(b *testing.B, book logbook.Book) {
	for _, f := range Filters {
		b.Run(f.Name, func(b *testing.B) {
			for b.Loop() {
				if _, err := book.Trend(b.Context(), f.Filter); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkModels asks for the legs to compare one with.
func BenchmarkModels(b *testing.B, book logbook.Book) {
	list, err := book.List(b.Context(), logbook.Filter{Limit: 1})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := book.Models(b.Context(), list.Sessions[0].ID, 1); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSession asks for a session with its grades.
func BenchmarkSession(b *testing.B, book logbook.Book) {
	list, err := book.List(b.Context(), logbook.Filter{Limit: 1})
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := book.Session(b.Context(), list.Sessions[0].ID); err != nil {
			b.Fatal(err)
		}
		if _, err := book.Report(b.Context(), list.Sessions[0].ID, 1); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkGraded asks for what the grade sheet of a student is made of.
func BenchmarkGraded(b *testing.B, book logbook.Book) {
	list, err := logbook.ListAll(b.Context(), book, logbook.Filter{Student: "Student 07"}, 0)
	if err != nil {
		b.Fatal(err)
	}
	ids := make([]string, len(list.Sessions))
	for i := range list.Sessions {
		ids[i] = list.Sessions[i].ID
	}
	b.ReportMetric(float64(len(ids)), "sessions")
	for b.Loop() {
		if _, err := book.Graded(b.Context(), ids); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkNear asks for the sessions whose names are most like one that there is not.
func BenchmarkNear(b *testing.B, book logbook.Book) {
	for b.Loop() {
		if _, err := book.Near(b.Context(), "2031-05-04T09-00-07Z_nowhere"); err != nil {
			b.Fatal(err)
		}
	}
}
