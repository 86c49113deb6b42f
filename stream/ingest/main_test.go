package ingest

import (
	"fmt"
	"os"
	"runtime"
	"testing"
	"time"
)

// TestMain fails when a test leaves a goroutine behind.
func TestMain(m *testing.M) {
	before := runtime.NumGoroutine()
	code := m.Run()
	deadline := time.Now().Add(5 * time.Second)
	for runtime.NumGoroutine() > before && time.Now().Before(deadline) {
		runtime.Gosched()
	}
	if n := runtime.NumGoroutine(); code == 0 && n > before {
		stacks := make([]byte, 1<<20)
		fmt.Fprintf(os.Stderr, "%d goroutines left behind:\n%s", n-before, stacks[:runtime.Stack(stacks, true)])
		code = 1
	}
	os.Exit(code)
}
