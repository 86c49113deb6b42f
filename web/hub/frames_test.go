package hub

import (
	"slices"
	"strconv"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/streamtest"
)

// arrivals are the times at which the datagrams of a recording came, from its first on.
func arrivals(t *testing.T, file string) []time.Duration {
	t.Helper()
	all := streamtest.Read(t, file)
	at := make([]time.Duration, len(all))
	for i := range all {
		at[i] = all[i].Received.Sub(all[0].Received)
	}
	return at
}

// spaced are times with these steps between them, over and over.
func spaced(n int, steps ...time.Duration) []time.Duration {
	at := make([]time.Duration, n)
	for i := 1; i < n; i++ {
		at[i] = at[i-1] + steps[(i-1)%len(steps)]
	}
	return at
}

// Whatever the rhythm in which frames come: each is shown, or a newer one, at most one gap after it came, and no
// two are shown closer together than the gap.
func TestNoFrameWaitsLongerThanAGap(t *testing.T) {
	const ms = time.Millisecond
	tests := map[string][]time.Duration{
		"a simulator that stutters at its start": arrivals(t, "../../stream/testdata/startup-stutter.pcap.gz"),
		"a simulator on a busy machine": arrivals(
			t,
			"../../coach/session/testdata/flights/simulator-chandelle-civil-right.pcap.gz",
		),
		"a flight dynamics library at 60 Hz": arrivals(t, "../../stream/testdata/wing-over.pcap.gz"),
		"an even 30 Hz":                      spaced(300, time.Second/30),
		"an even 60 Hz":                      spaced(600, time.Second/60),
		"as fast as the gap":                 spaced(300, frameGap),
		"a little faster than the gap":       spaced(300, frameGap-1),
		"30 Hz, each second one 6 ms early":  spaced(300, 27*ms, 39*ms),
		"30 Hz, each second one 15 ms early": spaced(300, 18*ms, 48*ms),
		"pairs":                              spaced(300, 0, 66*ms),
		"bursts of five after a stall":       spaced(300, 1*ms, 1*ms, 1*ms, 1*ms, 250*ms),
		"one alone":                          spaced(1),
		"one just after another":             spaced(2, 1*ms),
	}
	for name, at := range tests {
		t.Run(name, func(t *testing.T) {
			if len(at) == 0 {
				t.Fatal("no frames to show")
			}
			synctest.Test(t, func(t *testing.T) { feedAndCheck(t, at) })
		})
	}
}

func feedAndCheck(t *testing.T, at []time.Duration) {
	v, s := newViewer(&pace{}), &fakeSink{}
	_, stop := start(t, v, s)
	defer stop()
	begin := time.Now()
	for i, when := range at {
		if wait := when - time.Since(begin); wait > 0 {
			<-time.After(wait) // of the bubble's clock
		}
		v.offer([]byte(strconv.Itoa(i)))
	}
	<-time.After(2 * frameGap)
	synctest.Wait()
	shown := make([]int, len(s.wrote))
	for k, m := range s.wrote {
		shown[k], _ = strconv.Atoi(string(m))
		if k > 0 && s.times[k].Sub(s.times[k-1]) < frameGap {
			t.Errorf(
				"frames %d and %d were shown %v apart, want at least %v",
				shown[k-1],
				shown[k],
				s.times[k].Sub(s.times[k-1]),
				frameGap,
			)
		}
	}
	if !slices.IsSorted(shown) {
		t.Errorf("frames were shown in the order %v", shown)
	}
	k := 0
	for i, when := range at {
		for k < len(shown) && shown[k] < i {
			k++
		}
		if k == len(shown) {
			t.Fatalf("frame %d of %d, and all after it, were never shown", i, len(at))
		}
		if waited := s.times[k].Sub(begin) - when; waited > frameGap {
			t.Errorf("frame %d waited %v until frame %d was shown, want at most %v", i, waited, shown[k], frameGap)
		}
	}
}

// A socket that takes its time is given the frame that is the latest then.
func TestASlowSocketGetsTheLatestFrame(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		v, s := newViewer(&pace{}), &fakeSink{gate: make(chan struct{})}
		_, stop := start(t, v, s)
		defer stop()
		for i := range 30 {
			v.offer([]byte(strconv.Itoa(i)))
			<-time.After(time.Second / 30)
		}
		s.gate <- struct{}{} // the first leaves at last
		s.gate <- struct{}{}
		synctest.Wait()
		if len(s.wrote) != 2 || string(s.wrote[1]) != "29" {
			t.Errorf("%d frames went, want the first, and then the last that was offered", len(s.wrote))
		}
	})
}
