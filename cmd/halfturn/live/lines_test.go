package live

import (
	"context"
	"errors"
	"net/netip"
	"slices"
	"testing"
	"testing/synctest"

	"github.com/rs/zerolog"
)

// Lines are done one after another in their order, one that fails stops none, and too many are dropped without waiting.
func TestLines(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		from := netip.MustParseAddrPort("192.0.2.1:5000")
		l := make(lines, mostLines)
		for range mostLines {
			l.take(from, "mark")
		}
		l.take(from, "one too many")
		ctx, stop := context.WithCancel(t.Context())
		var done []string
		go l.run(ctx, func(_ context.Context, act string) error {
			done = append(done, act)
			return errors.New("no station")
		}, zerolog.Nop())
		synctest.Wait()
		l.take(from, "mute")
		synctest.Wait()
		stop()
		synctest.Wait()
		if len(done) != mostLines+1 || done[mostLines] != "mute" || slices.Contains(done, "one too many") {
			t.Errorf("done: %q", done)
		}
	})
}
