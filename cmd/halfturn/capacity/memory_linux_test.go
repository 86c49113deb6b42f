package capacity

import "testing"

// TestFree reads texts as proc(5) and the kernel's documentation of control groups show them.
func TestFree(t *testing.T) {
	const meminfo = "MemTotal:       24568412 kB\nMemFree:         1034220 kB\nMemAvailable:   20531036 kB\n"
	for name, c := range map[string]struct {
		meminfo, most, used string
		free                int64
	}{
		"no control group":        {meminfo, "", "", 20531036 << 10},
		"one without a limit":     {meminfo, "max\n", "1000\n", 20531036 << 10},
		"a limit":                 {meminfo, "1073741824\n", "73741824\n", 1_000_000_000},
		"a limit above the free":  {meminfo, "107374182400\n", "0\n", 20531036 << 10},
		"a limit that is used up": {meminfo, "1000\n", "2000\n", 1},
		"a limit alone":           {"", "1000\n", "300\n", 700},
		"nothing":                 {"", "", "", 0},
	} {
		if got := free(c.meminfo, c.most, c.used); got != c.free {
			t.Errorf("%s: %d bytes; must be %d", name, got, c.free)
		}
	}
	if available() == 0 {
		t.Error("this machine does not say how much memory is free")
	}
}
