package live

import (
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"

	"halfturn/cmd/halfturn/cmdtest"
)

// TestMetricsNames holds the served metrics to the naming rules of Prometheus, as promlint checks them.
func TestMetricsNames(t *testing.T) {
	text := cmdtest.Get(t, serveLive(t, "", nil).URL()+"metrics")
	if !strings.Contains(text, "\nhalfturn_build_info{") || !strings.Contains(text, `version="1.2"} 1`) {
		t.Error("the metrics lack halfturn_build_info with the program's version")
	}
	problems, err := promlint.New(strings.NewReader(text)).Lint()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		t.Errorf("%s: %s", p.Metric, p.Text)
	}
}
