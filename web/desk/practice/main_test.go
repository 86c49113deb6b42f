package practice

import (
	"sync"
	"testing"
	"time"

	"go.uber.org/goleak"
)

// TestMain fails when a test leaves a goroutine behind.
func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// resume plays what the last run left, and returns what goes on.
func resume(t *testing.T, c *Common, now time.Time) (goOn []*Practice) {
	t.Helper()
	var mu sync.Mutex
	LookBack(t.Context(), c, now).Play(t.Context(), func(p *Practice) {
		mu.Lock()
		defer mu.Unlock()
		goOn = append(goOn, p)
	})
	return goOn
}
