package soak

import (
	"context"
	"fmt"
	"os"
	"strconv"
	"strings"
	"sync/atomic"
	"time"
)

// A gate holds senders back while much waits at the server's socket: the test is of what is left behind, not of load.
type gate struct {
	suffix  string // of the local address, as the system lists it
	waiting atomic.Int64
}

// mostWaiting is how much may wait, in bytes as the system counts them.
const mostWaiting = 32 << 10

func newGate(port int) *gate { return &gate{suffix: fmt.Sprintf(":%04X", port)} }

// watch reads how much waits, from proc_net_udp(5), until a context ends.
func (g *gate) watch(ctx context.Context) {
	for wait(ctx, 5*time.Millisecond) {
		b, err := os.ReadFile("/proc/net/udp")
		if err != nil {
			continue
		}
		for line := range strings.Lines(string(b)) {
			w := strings.Fields(line)
			if len(w) < 5 || !strings.HasSuffix(w[1], g.suffix) {
				continue
			}
			if _, in, ok := strings.Cut(w[4], ":"); ok {
				n, _ := strconv.ParseInt(in, 16, 64) // hexadecimal, as everything there
				g.waiting.Store(n)
			}
		}
	}
	g.waiting.Store(0)
}

// pass waits until little waits.
func (g *gate) pass(ctx context.Context) {
	for g.waiting.Load() > mostWaiting && wait(ctx, time.Millisecond) {
	}
}
