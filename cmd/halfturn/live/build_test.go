package live

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/prometheus/client_golang/prometheus/testutil/promlint"
	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/stream/streamtest"
	"halfturn/web/cluster/flow/memory"
)

// everything is the configuration of a server that does all that a server can: it speaks, and shares a station with a
// school that is not there. TestMetrics gives it a depot.
func everything(t *testing.T) string {
	t.Helper()
	key := filepath.Join(t.TempDir(), "key")
	if err := os.WriteFile(key, []byte("0123456789abcdef0123456789abcdef\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	return written(t, fmt.Sprintf("[speech]\ncommand = [%q, \"-test.run=^$\"]\n[share]\nurl = \"http://127.0.0.1:9\"\n"+
		"key-file = %q\n", os.Args[0], key))
}

// TestMetrics holds the metrics of a server that does everything to the naming rules of Prometheus, as promlint checks
// them, and to the table that says what each means, with its labels.
func TestMetrics(t *testing.T) {
	engine := memory.New().Join("one")
	t.Cleanup(func() { engine.Close() })
	s := serveWith(t, config(t, everything(t), t.TempDir()), nil, func(o *Options) {
		o.Depot = &Depot{In: newDepot(t), Node: "one"}
		o.Cluster = &Cluster{Name: "one", Flow: engine}
	})
	station := s.send(t, streamtest.Payloads(t, brokenOff))
	end := "api/stations/" + station + "/end"
	if status, answer := s.ask(t, "POST", end, "application/json", []byte("{}")); status != 200 {
		t.Fatalf("the end of the session: %d, %s", status, answer)
	}
	text := ""
	cmdtest.Until(t, func() bool {
		text = cmdtest.Get(t, s.URL()+"metrics")
		return strings.Contains(text, "\nhalfturn_legs_total{") && strings.Contains(text, "\nhalfturn_speech_total{")
	}, func() string { return "no leg, or nothing spoken, is counted" })
	if !strings.Contains(text, `version="1.2"} 1`) {
		t.Error("the metrics lack the program's version")
	}
	problems, err := promlint.New(strings.NewReader(text)).Lint()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		t.Errorf("%s: %s", p.Metric, p.Text)
	}
	if d := cmp.Diff(listedMetrics(t), servedMetrics(t, text)); d != "" {
		t.Errorf("the table of metrics (-) and what is served (+):\n%s", d)
	}
}

// servedMetrics reads the program's own metrics: each with its labels.
func servedMetrics(t *testing.T, text string) map[string]string {
	t.Helper()
	parser := expfmt.NewTextParser(model.UTF8Validation)
	families, err := parser.TextToMetricFamilies(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	served := map[string]string{}
	for name, f := range families {
		if !strings.HasPrefix(name, "halfturn_") {
			continue
		}
		labels := []string{}
		for _, l := range f.GetMetric()[0].GetLabel() {
			labels = append(labels, l.GetName())
		}
		slices.Sort(labels)
		served[name] = strings.Join(labels, " ")
	}
	return served
}

var metricRow = regexp.MustCompile("(?m)^\\| `(halfturn_[a-z_]+)` \\| ([^|]*)\\| ([^|]+)\\|")

// listedMetrics reads the table of metrics.
func listedMetrics(t *testing.T) map[string]string {
	t.Helper()
	text, err := os.ReadFile("../../../configs/service/METRICS.md")
	if err != nil {
		t.Fatal(err)
	}
	listed := map[string]string{}
	for _, row := range metricRow.FindAllStringSubmatch(string(text), -1) {
		labels := strings.FieldsFunc(row[2], func(r rune) bool { return strings.ContainsRune("`, ", r) })
		slices.Sort(labels)
		if _, twice := listed[row[1]]; twice || strings.TrimSpace(row[3]) == "" {
			t.Errorf("%s is listed twice, or without a meaning", row[1])
		}
		listed[row[1]] = strings.Join(labels, " ")
	}
	return listed
}
