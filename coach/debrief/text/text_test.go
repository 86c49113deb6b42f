package text

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/debrief"
)

var update = flag.Bool("update", false, "write the golden files")

// handMade is a report with everything a report can hold, as package debrief writes it.
func handMade(t *testing.T) *debrief.Report {
	t.Helper()
	data, err := os.ReadFile("../testdata/report.json")
	if err != nil {
		t.Fatal(err)
	}
	r := &debrief.Report{}
	if err := json.Unmarshal(data, r); err != nil {
		t.Fatal(err)
	}
	return r
}

func TestReport(t *testing.T) {
	var b bytes.Buffer
	if err := Report(&b, handMade(t)); err != nil {
		t.Fatal(err)
	}
	const golden = "testdata/report.txt"
	if *update {
		if err := os.WriteFile(golden, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), b.String()); diff != "" {
		t.Errorf("differs from %s (run with -update to accept):\n%s", golden, diff)
	}
	for _, caution := range coach.Cautions {
		if !strings.Contains(b.String(), caution) {
			t.Errorf("caution missing: %s", caution)
		}
	}
}

// faulty counts the writes and fails one of them.
type faulty struct{ n, fails int }

var errFull = errors.New("no space left")

func (w *faulty) Write(p []byte) (int, error) {
	if w.n++; w.n-1 == w.fails {
		return 0, errFull
	}
	return len(p), nil
}

// Whichever write fails, Report says so, also when those after it succeed.
func TestWriterFails(t *testing.T) {
	whole := &faulty{fails: -1}
	if err := Report(whole, handMade(t)); err != nil || whole.n < 50 {
		t.Fatalf("%d writes, %v", whole.n, err)
	}
	for i := range whole.n {
		if err := Report(&faulty{fails: i}, handMade(t)); !errors.Is(err, errFull) {
			t.Errorf("write %d of %d: %v", i, whole.n, err)
		}
	}
}

// Every verdict has its mark, and all are as wide.
func TestMark(t *testing.T) {
	seen := []string{}
	for _, v := range []string{coach.Met, coach.Near, coach.Missed, coach.NotMeasured} {
		m := mark(v)
		if strings.TrimSpace(m) == "" || len([]rune(m)) != 6 || slices.Contains(seen, m) {
			t.Errorf("%s: %q", v, m)
		}
		seen = append(seen, m)
	}
}
