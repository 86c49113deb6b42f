package xplane_test

import (
	"testing"

	"halfturn/stream/wire/format"
	"halfturn/stream/wire/wiretest"
)

func FuzzRows(f *testing.F) {
	wiretest.NeedSeeds(f, "FuzzRows")
	f.Fuzz(func(t *testing.T, b []byte, layout uint8) {
		wiretest.Feed(t, format.Options{Rows: format.RowsLayout(layout % 3)}, []string{string(b)}, b, "rows")
	})
}

func FuzzReplies(f *testing.F) { wiretest.Fuzz(f, "FuzzReplies", "rref") }

func FuzzPositions(f *testing.F) { wiretest.Fuzz(f, "FuzzPositions", "rpos") }

func FuzzOutput(f *testing.F) { wiretest.Fuzz(f, "FuzzOutput", "rref", datarefsBefore()...) }

// datarefsBefore are outputs that make a sample together with one of the bank.
func datarefsBefore() []string {
	return []string{
		string(dref("sim/flightmodel/position/theta", "0000a040")),
		string(dref("sim/flightmodel/position/psi", "00002042")),
	}
}
