package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"strings"

	"github.com/rs/zerolog"

	"halfturn/coach/names"
	"halfturn/configs/settings"
	"halfturn/stream/ingest"
	"halfturn/stream/ingest/socket"
	"halfturn/stream/pipeline"
	"halfturn/web/desk"
)

// named lists the stations of the configuration for the desk.
func named(c *settings.Config, o pipeline.Options) []desk.Named {
	list := make([]desk.Named, len(c.Stations))
	for i := range c.Stations {
		s := &c.Stations[i]
		n := desk.Named{Maneuver: c.Maneuver, Aircraft: c.Aircraft}
		n.Address, _ = settings.SenderAddress(s.Address) // validated, as the names are
		n.Name, _ = names.Station(s.Name)
		n.Student, _ = names.Person(s.Student)
		set(&n.Maneuver, s.Maneuver)
		set(&n.Aircraft, s.Aircraft)
		bank, pitch := c.BankSign, c.PitchSign
		set(&bank, s.BankSign)
		set(&pitch, s.PitchSign)
		n.Station = settings.Signs(o, bank, pitch)
		list[i] = n
	}
	return list
}

// listen opens the UDP addresses as configured.
func listen(
	ctx context.Context, c *settings.Config, log zerolog.Logger, metrics *ingest.Metrics, seat ingest.Factory,
) (*ingest.Listener, error) {
	o := c.Ingest()
	o.Metrics = metrics
	o.Warn = func(err error) { log.Warn().Err(err).Msg("listening") }
	o.Tell = func(s string) { log.Info().Msg(s) }
	l, err := ingest.Listen(ctx, o, seat)
	if err != nil {
		return nil, err
	}
	networks := []string{}
	for _, p := range l.Allowed() {
		networks = append(networks, p.String())
	}
	log.Info().Strs("networks", networks).
		Msg("datagrams are taken from these networks only; the key allow in the configuration changes that")
	return l, nil
}

// notListening adds to an error of listening which setting gave the address.
func notListening(c *settings.Config, err error) error {
	if strings.HasPrefix(err.Error(), "simulator address ") {
		return c.BlameOr("subscribe.address", "--subscribe", err)
	}
	return c.BlameOr("udp", "--udp", err)
}

// busyUDP adds what else can be done when the port belongs to a running Halfturn.
func busyUDP(c *settings.Config, err error) error {
	var taken *socket.BusyError
	if !errors.As(err, &taken) {
		return err
	}
	host, port, splitErr := net.SplitHostPort(c.HTTP)
	if splitErr != nil {
		return err
	}
	if host == "" {
		host = "localhost"
	}
	page := "http://" + net.JoinHostPort(host, port) + "/setup"
	return fmt.Errorf("%w (a running halfturn serve shows the same at %s)", err, page)
}
