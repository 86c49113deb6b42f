package aircraft

import (
	"testing"

	"halfturn/coach/valid/validtest"
)

// The card that the wrong ones were made from is right.
func TestGoodCard(t *testing.T) {
	if _, err := Load("good.toml", validtest.Read(t, "testdata/good.toml")); err != nil {
		t.Error(err)
	}
}

func TestBadCards(t *testing.T) {
	validtest.Folder(t, "aircraft", 20, func(file string, data []byte) error {
		_, err := Load(file, data)
		return err
	})
}

// Whatever the text, the numbers of an aircraft that loads are in order, and the error is one line.
func FuzzLoad(f *testing.F) {
	validtest.Seed(f, "../../configs/aircraft/*.toml", 3)
	validtest.Seed(f, "testdata/bad/*.toml", 20)
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := Load("x.toml", data)
		if err != nil {
			validtest.OneLine(t, err)
			return
		}
		for name := range a.Speeds {
			b := a.For(name)
			for _, x := range []float64{b.Stall, b.Entry, b.Apex, b.Never, b.LoadMax, b.Steepest} {
				if !(x >= 0 && x < 2000) {
					t.Fatalf("%s: %+v", name, b)
				}
			}
			if b.Entry > 0 && b.Stall >= b.Entry || b.Entry > 0 && b.Apex >= b.Entry {
				t.Fatalf("%s: %+v", name, b)
			}
		}
	})
}
