package main

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"halfturn/cmd/halfturn/demo"
)

var returns = flag.Int("returns", 1,
	"how often TestSendersReturn runs the program; with -parallel 5, 50 take four minutes")

const (
	returners   = 60
	returnIdle  = 5 * time.Second                  // the shortest session-idle that can be configured
	returnBurst = 10                               // datagrams, each time
	returnTimes = 3                                // bursts, with a silence of 5 s between: the time it takes
	returnPace  = 20 * time.Millisecond            // between these
	returnEarly = returnIdle - 50*time.Millisecond // the shortest silence
	// how much longer it may be: more than the pace of the stations' clocks
	returnLate = 450 * time.Millisecond
	stopsIn    = 30 * time.Second // on a busy machine; idle, it takes a quarter of a second
)

// A returned is what became of one run.
type returned struct {
	sent, taken, recorded, sessions int
	stop                            time.Duration // how long it took to stop; 0: it did not
}

// Senders that fall silent for just as long as a session may be interrupted, and come back at any moment around
// its end, lose no datagram, and the program stops when it is told to. Where it hangs, a second signal ends it.
func TestSendersReturn(t *testing.T) {
	t.Parallel()
	var mu sync.Mutex
	var all []returned
	t.Run("runs", func(t *testing.T) {
		for n := range *returns {
			t.Run(fmt.Sprint(n), func(t *testing.T) {
				t.Parallel()
				r := sendersReturn(t, rand.New(rand.NewPCG(uint64(n), 7)))
				mu.Lock()
				defer mu.Unlock()
				t.Logf("stopped in %v", r.stop.Round(time.Millisecond))
				all = append(all, r)
			})
		}
	})
	hung, longest, sum := 0, time.Duration(0), returned{}
	for _, r := range all {
		if r.stop == 0 {
			hung++
		}
		longest = max(longest, r.stop)
		sum.sent, sum.taken, sum.recorded, sum.sessions = sum.sent+r.sent, sum.taken+r.taken, sum.recorded+r.recorded,
			sum.sessions+r.sessions
	}
	t.Logf("%d runs: %d hung, the others stopped within %v; %d datagrams sent, %d taken, %d recorded in %d sessions",
		len(all), hung, longest.Round(time.Millisecond), sum.sent, sum.taken, sum.recorded, sum.sessions)
	if len(all) != *returns || hung > 0 || sum.taken != sum.sent || sum.recorded != sum.sent {
		t.Error("it hung, or lost something")
	}
}

func sendersReturn(t *testing.T, random *rand.Rand) (r returned) {
	t.Helper()
	data := t.TempDir()
	s := beginFollowed(t, func(c *exec.Cmd) {
		c.Env = append(c.Env, "HALFTURN_SESSION_IDLE="+returnIdle.String())
	}, data)
	var wait sync.WaitGroup
	for n := range returners {
		rnd := rand.New(rand.NewPCG(random.Uint64(), uint64(n)))
		wait.Go(func() { comesBack(t, s.udp, n, rnd) })
	}
	wait.Wait()
	r.sent = returners * returnTimes * returnBurst
	ctx, cancel := context.WithTimeout(t.Context(), stopsIn)
	defer cancel()
	for r.taken < r.sent && ctx.Err() == nil {
		r.taken = s.taken(t)
		demo.Pause(ctx, 50*time.Millisecond)
	}
	asked := time.Now()
	s.signal(t, os.Interrupt)
	select {
	case <-s.ended:
		r.stop = time.Since(asked)
		if status := s.ProcessState.ExitCode(); status != exitDone {
			t.Errorf("it ended with exit status %d", status)
		}
	case <-time.After(stopsIn):
		s.kill(t)
	}
	s.told(t)
	list := allRecorded(t, data)
	r.recorded = len(list)
	entries, err := os.ReadDir(filepath.Join(data, "sessions"))
	if err != nil {
		t.Error(err)
	}
	r.sessions = len(entries)
	return r
}

// comesBack flies level in bursts, with a silence between.
func comesBack(t *testing.T, to *net.UDPAddr, n int, random *rand.Rand) {
	conn, err := net.DialUDP("udp", nil, to)
	if err != nil {
		t.Error(err)
		return
	}
	defer conn.Close()
	start := time.Now()
	for burst := range returnTimes {
		if burst > 0 && !demo.Pause(t.Context(), returnEarly+time.Duration(random.Int64N(int64(returnLate)))) {
			return
		}
		for range returnBurst {
			if _, err := fmt.Fprintf(conn,
				`{"time": %.3f, "heading": %d, "pitch": 2, "bank": 0, "airspeed": 120, "altitude": 5000}`,
				time.Since(start).Seconds(), n); err != nil {
				t.Error(err)
			}
			demo.Pause(t.Context(), returnPace)
		}
	}
}
