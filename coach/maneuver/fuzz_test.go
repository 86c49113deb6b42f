package maneuver

import (
	"io/fs"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/configs"
)

// seed adds the shipped cards of a folder and the wrong ones.
func seed(f *testing.F, kind string) {
	f.Helper()
	files, err := fs.Glob(configs.FS, kind+"/*.toml")
	if err != nil || len(files) < 3 {
		f.Fatalf("%d shipped %s, %v", len(files), kind, err)
	}
	for _, file := range files {
		data, err := fs.ReadFile(configs.FS, file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	bad, err := filepath.Glob("testdata/bad/" + kind + "/*.toml")
	if err != nil || len(bad) < 20 {
		f.Fatalf("%d wrong %s, %v", len(bad), kind, err)
	}
	for _, file := range bad {
		f.Add(read(f, file))
	}
}

func oneLine(t *testing.T, err error) {
	t.Helper()
	if s := err.Error(); !strings.HasPrefix(s, "x.toml") || strings.ContainsAny(s, "\n\r") {
		t.Fatalf("error %q", s)
	}
}

// Whatever the text, a card that loads is one the coach can work with, and the error is one line.
func FuzzLoadCard(f *testing.F) {
	seed(f, "maneuvers")
	f.Fuzz(func(t *testing.T, data []byte) {
		c, err := LoadCard("x.toml", data)
		if err != nil {
			oneLine(t, err)
			return
		}
		n := len(c.Checkpoints)
		if !(c.Turn > 0) || n == 0 || c.Checkpoints[n-1].Turn != c.Turn || len(c.Profile) < 3 || len(c.Checks) == 0 {
			t.Fatalf("turn %g, %d checkpoints, %d knots, %d checks", c.Turn, n, len(c.Profile), len(c.Checks))
		}
		for i := range c.Checks {
			k := &c.Checks[i]
			if (k.From == nil) != (k.To == nil) || k.MetBand.Low == nil && k.MetBand.High == nil || !k.MetBand.inside(k.NearBand) {
				t.Fatalf("check %+v", k)
			}
		}
	})
}

// Whatever the text, the numbers of an aircraft that loads are in order, and the error is one line.
func FuzzLoadAircraft(f *testing.F) {
	seed(f, "aircraft")
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := LoadAircraft("x.toml", data)
		if err != nil {
			oneLine(t, err)
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
