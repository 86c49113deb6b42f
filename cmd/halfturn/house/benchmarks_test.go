package house

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Every benchmark is in .ci/benchmarks, which make bench measures, and each line there is of one that exists.
func TestBenchmarksListed(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(root, ".ci", "benchmarks"))
	if err != nil {
		t.Fatal(err)
	}
	listed := []string{}
	for line := range strings.Lines(string(data)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		fields := strings.Fields(line)
		if len(fields) < 4 {
			t.Fatalf("%q lacks the package, the benchmark, the time or what it is of", line)
		}
		listed = append(listed, fmt.Sprintf("%s Benchmark%s", fields[0], fields[1]))
	}
	there := benchmarks(t)
	slices.Sort(listed)
	slices.Sort(there)
	if d := cmp.Diff(there, listed); d != "" {
		t.Errorf(".ci/benchmarks lists others than there are (-there +listed):\n%s", d)
	}
}

// benchmarks lists those of all packages.
func benchmarks(t *testing.T) (list []string) {
	t.Helper()
	function := regexp.MustCompile(`(?m)^func (Benchmark\w+)\(`)
	for _, s := range sources(t, ".go") {
		if !strings.HasSuffix(s.name, "_test.go") {
			continue
		}
		for _, m := range function.FindAllSubmatch(s.text, -1) {
			list = append(list, path.Dir(s.name)+" "+string(m[1]))
		}
	}
	return list
}
