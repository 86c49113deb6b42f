package overload

import (
	"context"
	"slices"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/prometheus/client_golang/prometheus/testutil"
	"github.com/rs/zerolog"
	"go.uber.org/goleak"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A rig is a watch whose readings a test writes.
type rig struct {
	*Watch
	gap time.Duration
	now time.Time
}

func newRig() *rig {
	r := &rig{now: time.Date(2026, 1, 2, 12, 0, 0, 0, time.UTC)}
	r.Watch = New(Config{SetGap: func(d time.Duration) { r.gap = d }, Log: zerolog.Nop()})
	return r
}

// read gives the watch the same reading each second.
func (r *rig) read(seconds int, is Reading) {
	for range seconds {
		r.now = r.now.Add(time.Second)
		r.look(is, r.now)
	}
}

func (r *rig) words() string {
	list := []string{}
	for _, p := range r.lacking(r.now) {
		list = append(list, p.String())
	}
	return strings.Join(list, " ")
}

// TestViewersGiveWay: where datagrams wait, viewers are sent less, step by step; a single slow second changes nothing,
// and neither does a wait between calm and busy, whichever step was reached. Then they get all again, step by step.
func TestViewersGiveWay(t *testing.T) {
	r := newRig()
	slow, between, fine := Reading{Wait: 150 * time.Millisecond}, Reading{Wait: 50 * time.Millisecond}, Reading{}
	for i, c := range []struct {
		seconds int
		is      Reading
		gap     time.Duration
	}{
		{1, slow, 0}, {1, fine, 0}, {1, slow, 0}, {30, between, 0},
		{2, slow, gaps[1]}, {30, between, gaps[1]},
		{2, slow, gaps[2]}, {1, slow, gaps[2]}, {1, slow, gaps[3]}, {20, slow, gaps[3]},
		{4, fine, gaps[3]}, {1, fine, gaps[2]}, {4, fine, gaps[2]}, {1, between, gaps[2]}, {4, fine, gaps[2]},
		{1, fine, gaps[1]}, {5, fine, 0}, {60, fine, 0},
	} {
		r.read(c.seconds, c.is)
		if r.gap != c.gap {
			t.Fatalf("row %d: a gap of %v; must be %v", i, r.gap, c.gap)
		}
		if says := strings.Contains(r.words(), "pictures a second"); says != (c.gap > 0) {
			t.Errorf("row %d: with a gap of %v it says %q", i, c.gap, r.words())
		}
	}
}

// TestSaid: each thing that is given up is said and counted; what was lost is said for a minute after the last of it,
// summed up since it began. Lost datagrams slow the viewers at once.
func TestSaid(t *testing.T) {
	r := newRig()
	r.read(1, Reading{Unrecorded: 7})
	r.read(1, Reading{Unrecorded: 5})
	if got := r.words(); got != "Recordings lack 12 datagrams: the disk is full or too slow." {
		t.Errorf("%q", got)
	}
	r.read(1, Reading{Lost: 3})
	got := r.words()
	at := func(part string) int { return strings.Index(got, part) }
	order := []int{at("at most 10 pictures a second"), at("lack 12 datagrams"), at("lost 3 datagrams")}
	if order[0] < 0 || !slices.IsSorted(order) {
		t.Errorf("in the order of what they cost: %q", got)
	}
	r.read(60, Reading{})
	if got := r.words(); !strings.Contains(got, "lost 3") || strings.Contains(got, "lack") {
		t.Errorf("a minute later: %q", got)
	}
	r.read(1, Reading{})
	if got := r.words(); got != "" {
		t.Errorf("when all is well: %q", got)
	}
	r.read(1, Reading{Lost: 2})
	if got := r.words(); !strings.Contains(got, "lost 2 ") {
		t.Errorf("what is lost later is counted by itself: %q", got)
	}
	for step, least := range map[string]float64{stepViewers: 6, stepRecording: 2, stepCoaching: 2} {
		if n := testutil.ToFloat64(r.counts.WithLabelValues(step)); n < least || n > 10 {
			t.Errorf("%s: counted are %g s", step, n)
		}
	}
}

// TestRun: it looks once a second until it is stopped.
func TestRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		reads := 0
		w := New(Config{
			Read:   func() Reading { reads++; return Reading{Lost: 1} },
			SetGap: func(time.Duration) {},
			Log:    zerolog.Nop(),
		})
		ctx, cancel := context.WithTimeout(t.Context(), 3500*time.Millisecond)
		defer cancel()
		w.Run(ctx)
		if reads != 3 || len(w.Lacking()) != 2 {
			t.Errorf("read %d times, lacking %v", reads, w.Lacking())
		}
	})
}
