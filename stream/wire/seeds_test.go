package wire

import (
	"path/filepath"
	"testing"
)

// mustHaveSeeds fails when a fuzz target's committed inputs are not found: without them it
// would pass and prove nothing.
func mustHaveSeeds(f *testing.F, target string) {
	f.Helper()
	seeds, err := filepath.Glob(filepath.Join("testdata", "fuzz", target, "*"))
	if err != nil || len(seeds) < 3 {
		f.Fatalf("%d seeds for %s, %v", len(seeds), target, err)
	}
}
