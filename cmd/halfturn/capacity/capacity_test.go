package capacity

import (
	"testing"
	"time"

	"halfturn/configs/settings"
)

// TestStations: the least of what processors, memory and files allow; never none, and never more than the setting does.
func TestStations(t *testing.T) {
	for name, c := range map[string]struct {
		machine  Machine
		stations int
	}{
		"two processors, nothing else bounds": {Machine{Sample: 1500, Processors: 2}, 1010},
		"twice the processors, twice as many": {Machine{Sample: 1500, Processors: 4}, 2020},
		"half as fast, half as many":          {Machine{Sample: 3000, Processors: 2}, 505},
		"1 GiB of memory":                     {Machine{Sample: 1500, Processors: 2, Memory: 1 << 30}, 512},
		"1,024 files":                         {Machine{Sample: 1500, Processors: 2, Files: 1024}, 384},
		"nothing left":                        {Machine{Sample: time.Second, Processors: 1, Memory: 1, Files: 3}, 1},
		"more than anybody has":               {Machine{Sample: 1, Processors: 64, Memory: 1 << 50}, 10_000},
	} {
		if got := c.machine.Stations(); got != c.stations {
			t.Errorf("%s: %d stations; must be %d", name, got, c.stations)
		}
	}
}

// TestMeasure: this machine works on a sample in some time, and takes stations.
func TestMeasure(t *testing.T) {
	cfg, err := settings.Load("", func(string) (string, bool) { return "", false })
	if err != nil {
		t.Fatal(err)
	}
	o, err := settings.Setup{Config: cfg}.Options(settings.Setup{Config: cfg}.Choice(), "")
	if err != nil {
		t.Fatal(err)
	}
	m, err := Measure(o)
	if err != nil {
		t.Fatal(err)
	}
	if m.Sample < 100*time.Nanosecond || m.Sample > 10*time.Millisecond || m.Processors < 1 || m.Stations() < 1 {
		t.Errorf("%+v, %d stations", m, m.Stations())
	}
	t.Logf("%+v, %d stations", m, m.Stations())
}
