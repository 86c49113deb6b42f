package live

import (
	"context"
	"errors"
	"fmt"
	"net"
	"syscall"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/descriptors"
	"halfturn/configs/settings"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
	"halfturn/web/guard"
)

// listenUDP opens the UDP addresses as configured, for the most stations there may be.
func (s *Server) listenUDP(ctx context.Context, metrics *ingest.Metrics) (*ingest.Listener, error) {
	o := s.options.Config.Ingest()
	o.Line, o.Metrics, o.Faults, o.MaxStations = s.lines.take, metrics, s.faults, s.most
	o.Warn = func(err error) { s.log.Warn().Err(err).Msg("listening") }
	o.Tell = func(words string) { s.log.Info().Msg(words) }
	l, err := ingest.Listen(ctx, o, s.heard())
	if err != nil {
		return nil, err
	}
	networks := []string{}
	for _, p := range l.Allowed() {
		networks = append(networks, p.String())
	}
	s.log.Info().Strs("networks", networks).
		Msg("datagrams are taken from these networks only; the key allow in the configuration changes that")
	return l, nil
}

// listenPages opens the address of the pages.
func listenPages(ctx context.Context, cfg *settings.Config, in *phrase.Language) (net.Listener, error) {
	l, err := (&net.ListenConfig{}).Listen(ctx, "tcp", cfg.HTTP)
	if err != nil {
		return nil, cfg.BlameOr("http", "--http", pagesError(cfg.HTTP, in, err))
	}
	return l, nil
}

// pagesError says what to do about an address that the pages cannot be served on.
func pagesError(address string, in *phrase.Language, err error) error {
	if errors.Is(err, syscall.EADDRINUSE) {
		return base.Failf(in, "the pages' address %s is taken by another program; stop it, or choose another", address)
	}
	return base.Failf(in, "the pages' address %s cannot be listened on: %w; choose another", address, err)
}

// connections is how many the pages may have open here, beside the stations. When that is few it is logged, with what
// to do.
func connections(stations int, log zerolog.Logger) int {
	files := descriptors.Limit()
	n := descriptors.Connections(files, stations, guard.MostOpen)
	if n < guard.MostOpen/8 {
		log.Warn().Int("files", files).Int("connections", n).Msg(fmt.Sprintf(
			"few files may be open at once, so the pages take few connections; a limit of %d (ulimit -n) is enough "+
				"for all", descriptors.Enough(stations, guard.MostOpen)))
	}
	return n
}

// warnOpen logs what it means when others than this machine reach the pages.
func warnOpen(log zerolog.Logger, a net.Addr, encrypted bool) {
	if tcp, ok := a.(*net.TCPAddr); ok && tcp.IP.IsLoopback() {
		return
	}
	log.Warn().Stringer("http", a).Msg("the pages are open to the network: who comes from another machine logs in by " +
		"name and password (halfturn users add), or types the code that the page Set-up shows on this machine")
	if !encrypted {
		log.Warn().Msg("whoever can listen to the network can read passwords and what is shown; halfturn tls init " +
			"makes what is needed to prevent that")
	}
}
