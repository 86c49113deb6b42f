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
