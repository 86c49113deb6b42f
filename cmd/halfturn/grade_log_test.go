package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/stream"
	"halfturn/stream/trainer"
)

// unknownLog is a wing-over as another program logs it: with names, units and signs that no shipped map has.
func unknownLog(t *testing.T) string {
	t.Helper()
	pilot, err := trainer.New(trainer.Flight{Direction: "right", Airplane: "light-single", Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	b.WriteString("Elapsed (ms),True Heading (deg),Pitch Angle (deg),Roll Angle (deg),IAS (km/h),Altitude (m)," +
		"Cabin (C)\n")
	var s stream.Sample
	const step = 1.0 / 30
	for i, on := 0, true; on; i++ {
		on = pilot.Step(step, &s)
		fmt.Fprintf(&b, "%.0f,%g,%g,%g,%g,%g,21\n", float64(i)*step*1000, s.Value(stream.Heading),
			s.Value(stream.Pitch), s.Value(stream.Bank),
			s.Value(stream.Airspeed)*1.852, s.Value(stream.Altitude)*0.3048)
	}
	return b.String()
}

// A log of unknown columns is refused with the command that proposes a map; what that prints is saved and grades it.
func TestGradeUnknownLog(t *testing.T) {
	dir := t.TempDir()
	log, mine := filepath.Join(dir, "flight.csv"), filepath.Join(dir, "my-map.toml")
	if err := os.WriteFile(log, []byte(unknownLog(t)), 0o600); err != nil {
		t.Fatal(err)
	}
	args := []string{"grade", "--aircraft", "light-single", "--format", "table"}
	const refused = "line 1: no column is known to hold heading, pitch and bank; halfturn grade --map propose FILE"
	if status, _, msg := call(t, nil, append(args, log)...); status != exitFailed || !strings.Contains(msg, refused) {
		t.Errorf("exit status %d: %s", status, msg)
	}
	status, text, msg := call(t, nil, "grade", "--map", "propose", log)
	if status != exitDone || !strings.Contains(text, "# Channels that stay empty: true-airspeed,") ||
		!strings.Contains(text, `# Columns that are not used: "Cabin (C)".`) {
		t.Fatalf("exit status %d: %s%s", status, msg, text)
	}
	if err := os.WriteFile(mine, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	status, table, msg := call(t, nil, append(args, "--map", mine, log)...)
	if status != exitDone || !strings.Contains(table, "right") || !strings.Contains(table, "finished") {
		t.Errorf("exit status %d: %s%s", status, msg, table)
	}
	// The same by the import.
	status, text, msg = call(t, nil, "sessions", "import", "--data", filepath.Join(dir, "data"), "--map", mine, log)
	if status != exitDone || !strings.Contains(text, "_flight  1 leg (from 127.0.0.1:1 in flight.csv)") {
		t.Errorf("exit status %d: %s%s", status, msg, text)
	}
}

// Wrong calls say what is right.
func TestLogFlags(t *testing.T) {
	none := filepath.Join(t.TempDir(), "none.csv")
	for want, args := range map[string][]string{
		"--rate is -1; must be between 0.1 and 1000":  {"grade", "--rate=-1", "x.csv"},
		"--map propose takes one log; 2 are given":    {"grade", "--map", "propose", "a.csv", "b.csv"},
		"--rate is 2000; must be between 0.1 and 100": {"sessions", "import", "--rate", "2000", "x.csv"},
	} {
		if status, _, msg := call(t, nil, args...); status != exitUsage || !strings.Contains(msg, want) {
			t.Errorf("%v: %d, %s; must say %s", args, status, msg, want)
		}
	}
	if status, _, msg := call(t, nil, "grade", "--map", "propose", none); status != exitFailed ||
		!strings.Contains(msg, "no such file") {
		t.Errorf("%d, %s", status, msg)
	}
}
