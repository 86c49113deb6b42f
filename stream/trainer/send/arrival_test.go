package send

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"slices"
	"sync"
	"syscall"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/trainer"
)

// A network is what a datagram meets, at times since the beginning. Like a connected socket it gives the refusal of one
// datagram to the next.
type network struct {
	start   time.Time
	closed  [][2]time.Duration // when nobody listens
	cut     [][2]time.Duration // when nothing can be sent
	replies time.Duration      // between two refusals, at least

	mu      sync.Mutex
	refused time.Time // the last
}

var errCut = errors.New("network is unreachable")

func during(t time.Duration, spans [][2]time.Duration) bool {
	return slices.ContainsFunc(spans, func(s [2]time.Duration) bool { return t >= s[0] && t < s[1] })
}

type connected struct {
	*network
	pending bool
}

func (c *connected) Write(b []byte) (int, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	now := time.Now()
	if c.pending {
		c.pending = false
		return 0, syscall.ECONNREFUSED
	}
	if during(now.Sub(c.start), c.cut) {
		return 0, errCut
	}
	if during(now.Sub(c.start), c.closed) && now.Sub(c.refused) >= c.replies {
		c.pending, c.refused = true, now
	}
	return len(b), nil
}

func (*connected) Close() error { return nil }

// That nobody listens is told once, with one station or many, and that somebody does again; a sender that began before
// its listener is not a failed one.
func TestToldWhenNobodyListens(t *testing.T) {
	const s = time.Second
	always := [][2]time.Duration{{0, time.Hour}}
	for name, c := range map[string]struct {
		net      *network
		stations int
		want     []string // second and what is told
		arrived  bool
	}{
		"somebody":     {net: &network{}, stations: 1, arrived: true},
		"nobody":       {net: &network{closed: always}, stations: 1, want: []string{"0 nobody listens"}},
		"nobody, many": {net: &network{closed: always}, stations: 50, want: []string{"0 nobody listens"}},
		"few answers": {net: &network{closed: always, replies: s}, stations: 3,
			want: []string{"0 nobody listens"}},
		"late": {net: &network{closed: [][2]time.Duration{{0, 5 * s}}}, stations: 1,
			want: []string{"0 nobody listens", "7 again"}, arrived: true},
		"gone and back": {net: &network{closed: [][2]time.Duration{{5 * s, 10 * s}}}, stations: 4,
			want: []string{"5 nobody listens", "12 again"}, arrived: true},
		"gone": {net: &network{closed: [][2]time.Duration{{5 * s, time.Hour}}}, stations: 1,
			want: []string{"5 nobody listens"}, arrived: true},
		"for a moment": {net: &network{closed: [][2]time.Duration{{5 * s, 6 * s}, {7 * s, 8 * s}}}, stations: 2,
			want: []string{"5 nobody listens", "10 again"}, arrived: true},
		"cannot be sent": {net: &network{cut: always}, stations: 3, want: []string{"0 network is unreachable"}},
		"cut in mid-flight": {net: &network{cut: [][2]time.Duration{{5 * s, 6 * s}}}, stations: 1,
			want: []string{"5 network is unreachable", "7 again"}, arrived: true},
	} {
		t.Run(name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				ctx, cancel := context.WithTimeout(t.Context(), 20*s)
				defer cancel()
				start := time.Now()
				c.net.start = start
				var told []string
				counts, err := Send(ctx, Options{Stations: c.stations, Rate: 20, Told: func(err error) {
					words := "again"
					if err != nil {
						words = err.Error()
					}
					told = append(told, fmt.Sprintf("%d %s", int(time.Since(start).Seconds()), words))
				}, dial: func() (io.WriteCloser, error) { return &connected{network: c.net}, nil }},
					pilot(t, trainer.Flight{}))
				if !errors.Is(err, context.DeadlineExceeded) {
					t.Fatal(err)
				}
				if !slices.Equal(told, c.want) || counts.Arrived != c.arrived {
					t.Errorf("told %q; must be %q; arrived: %v", told, c.want, counts.Arrived)
				}
			})
		})
	}
}

// The same over a real socket, whose system refuses for the port that nobody has.
func TestToldBySystem(t *testing.T) {
	free, err := net.ListenUDP("udp", &net.UDPAddr{IP: net.IPv4(127, 0, 0, 1)})
	if err != nil {
		t.Fatal(err)
	}
	to := free.LocalAddr().String()
	free.Close()
	var told []error
	counts, err := Send(t.Context(), Options{To: to, Pace: 100, Rate: 10, Stations: 8,
		Told: func(err error) { told = append(told, err) }}, pilot(t, trainer.Flight{}))
	if err != nil || len(told) != 1 || !errors.Is(told[0], ErrNobody) || counts.Arrived || counts.Refused == 0 {
		t.Errorf("told %v, counts %+v, error %v", told, counts, err)
	}
}

// A look-up of a name ends with the context.
func TestSendEndsWhileLookingUp(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := Send(ctx, Options{To: "no-such-host.invalid:7181"}, pilot(t, trainer.Flight{}))
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}
