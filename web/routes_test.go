package web

import (
	"net/http"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/permit"
)

// Every route says who may have it and where, and what a browser can be made to send without asking is only for
// reading.
func TestTable(t *testing.T) {
	f := &first{}
	s, _, _ := newServer(t, Config{Finder: f, Show: f, Measuring: f})
	rights := map[permit.Right]bool{}
	for _, r := range permit.Rights() {
		rights[r] = true
	}
	seen := map[string]bool{}
	for _, row := range s.table(prometheus.NewRegistry()) {
		method, path, _ := strings.Cut(row.pattern, " ")
		switch {
		case seen[row.pattern]:
			t.Errorf("%s has two rows", row.pattern)
		case !rights[row.right]:
			t.Errorf("%s takes the right %q; must be one of %v", row.pattern, row.right, permit.Rights())
		case method != http.MethodGet && method != http.MethodPost && method != http.MethodDelete:
			t.Errorf("%s has the method %q; must be GET, POST or DELETE", row.pattern, method)
		case (row.at == atStation) != strings.HasPrefix(path, "/api/stations/"):
			t.Errorf("%s: the right is needed at the station of the path", row.pattern)
		case row.at == beside && strings.Contains(path, "/{id}") && row.right != permit.Enter:
			t.Errorf("%s: the right is needed at the station of the session", row.pattern)
		}
		seen[row.pattern] = true
	}
}
