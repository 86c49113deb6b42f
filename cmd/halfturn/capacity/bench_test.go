package capacity

import (
	"testing"

	"halfturn/configs/settings"
)

// BenchmarkMeasure is what looking at the machine costs the start of a server.
func BenchmarkMeasure(b *testing.B) {
	cfg, err := settings.Load("", func(string) (string, bool) { return "", false })
	if err != nil {
		b.Fatal(err)
	}
	o, err := cfg.Session()
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Measure(o); err != nil {
			b.Fatal(err)
		}
	}
}
