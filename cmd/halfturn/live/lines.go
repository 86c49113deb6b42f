package live

import (
	"context"
	"net/netip"
	"strconv"

	"github.com/rs/zerolog"
)

// A line is one that came to the UDP port: "mark" of "halfturn mark".
type line struct {
	from netip.AddrPort
	act  string
}

// lines are those of button boxes that are still to be done.
type lines chan line

// mostLines is how many wait: more than a hand can press. What is more is dropped.
const mostLines = 16

// take keeps a line, without waiting.
func (l lines) take(from netip.AddrPort, act string) {
	select {
	case l <- line{from, act}:
	default:
	}
}

// run does one line after another until the context ends.
func (l lines) run(ctx context.Context, do func(ctx context.Context, act string) error, log zerolog.Logger) {
	for {
		select {
		case <-ctx.Done():
			return
		case next := <-l:
			if err := do(ctx, next.act); err != nil {
				log.Warn().Err(err).Stringer("from", next.from).
					Msg("the line halfturn " + strconv.Quote(next.act) + " was not carried out")
			}
		}
	}
}
