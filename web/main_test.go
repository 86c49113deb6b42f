package web

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"testing"
	"time"
)

// TestMain fails when goroutines of this package outlive the tests.
func TestMain(m *testing.M) {
	code := m.Run()
	if left := leaked(); code == 0 && left != "" {
		fmt.Fprintln(os.Stderr, "goroutines left behind:\n"+left)
		code = 1
	}
	os.Exit(code)
}

// leaked waits a little for goroutines that are about to end, and returns the others.
func leaked() string {
	deadline := time.After(3 * time.Second)
	for {
		left := ours()
		if left == "" {
			return ""
		}
		select {
		case <-deadline:
			return left
		default:
			runtime.Gosched()
		}
	}
}

func ours() string {
	buf := make([]byte, 1<<20)
	buf = buf[:runtime.Stack(buf, true)]
	left := []string{}
	for i, g := range strings.Split(string(buf), "\n\n") {
		if i > 0 && strings.Contains(g, "halfturn/web.") {
			left = append(left, g)
		}
	}
	return strings.Join(left, "\n\n")
}
