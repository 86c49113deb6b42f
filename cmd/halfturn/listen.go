package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/names"
	"halfturn/stream/ingest"
	"halfturn/stream/pipeline"
	"halfturn/web/desk"
)

// subscribeConfig says which simulator is asked for its values.
type subscribeConfig struct {
	Address  string `toml:"address"`
	Rate     int    `toml:"rate"`
	Discover bool   `toml:"discover"`
}

// stationConfig is what is known beforehand of a sender. Keys left out are as for all others.
type stationConfig struct {
	Address   string  `toml:"address"`
	Name      string  `toml:"name"`
	Maneuver  *string `toml:"maneuver"`
	Aircraft  *string `toml:"aircraft"`
	BankSign  *string `toml:"bank-sign"`
	PitchSign *string `toml:"pitch-sign"`
	Student   string  `toml:"student"`
}

// validateListening checks the keys about addresses and senders.
func (c *config) validateListening(f *origins) error {
	if err := hostPort(c.HTTP, "127.0.0.1:7180"); err != nil {
		return f.Errorf("http", "%v", err)
	}
	if len(c.UDP) == 0 {
		return f.Errorf("udp", "is empty; it needs at least one address such as 127.0.0.1:7181")
	}
	for i, a := range c.UDP {
		if err := hostPort(a, "127.0.0.1:7181"); err != nil {
			return f.Errorf(fmt.Sprintf("udp[%d]", i), "%v", err)
		}
	}
	if c.MaxStations < 1 || c.MaxStations > 10000 {
		return f.Errorf("max-stations", "is %d; allowed: 1 to 10000", c.MaxStations)
	}
	if c.Idle.Duration < 5*time.Second || c.Idle.Duration > 24*time.Hour {
		return f.Errorf("session-idle", "is %v; allowed: 5s to 24h", c.Idle.Duration)
	}
	for i, a := range c.Allow {
		if _, err := ingest.ParseAllow(a); err != nil {
			return f.Errorf(fmt.Sprintf("allow[%d]", i), "%v", err)
		}
	}
	if c.MaxRate < 0 || c.MaxRate > 1e6 {
		return f.Errorf("max-rate", "is %d; allowed: 1 to 1000000, 0 for no limit", c.MaxRate)
	}
	if c.Subscribe.Rate < 1 || c.Subscribe.Rate > 200 {
		return f.Errorf("subscribe.rate", "is %d; allowed: 1 to 200", c.Subscribe.Rate)
	}
	for key, name := range map[string]string{"bank-sign": c.BankSign, "pitch-sign": c.PitchSign} {
		if _, err := pipeline.SignNamed(name); err != nil {
			return f.Errorf(key, "%v", err)
		}
	}
	taken := map[string]bool{}
	for i := range c.Stations {
		if err := c.Stations[i].validate(f, fmt.Sprintf("station[%d].", i), taken); err != nil {
			return err
		}
	}
	return nil
}

// hostPort checks an address to listen on.
func hostPort(s, such string) error {
	_, port, err := net.SplitHostPort(s)
	if err == nil {
		_, err = strconv.ParseUint(port, 10, 16)
	}
	if err != nil {
		return fmt.Errorf("is %q; wanted: HOST:PORT such as %s, the port from 0 to 65535", s, such)
	}
	return nil
}

func (s *stationConfig) validate(f *origins, at string, taken map[string]bool) error {
	if _, err := senderAddress(s.Address); err != nil {
		return f.Errorf(at+"address", "%v", err)
	}
	name, err := names.Station(s.Name)
	switch {
	case err != nil:
		return f.Errorf(at+"name", "%v", err)
	case taken["name "+names.Key(name)]:
		return f.Errorf(at+"name", "is %q, as of another station; each needs its own", s.Name)
	case taken[s.Address]:
		return f.Errorf(at+"address", "is %q, as of another station; each needs its own", s.Address)
	}
	taken["name "+names.Key(name)], taken[s.Address] = true, true
	if _, err := names.Person(s.Student); err != nil {
		return f.Errorf(at+"student", "%v", err)
	}
	for key, sign := range map[string]*string{"bank-sign": s.BankSign, "pitch-sign": s.PitchSign} {
		if sign == nil {
			continue
		}
		if _, err := pipeline.SignNamed(*sign); err != nil {
			return f.Errorf(at+key, "%v", err)
		}
	}
	return nil
}

// senderAddress reads ADDRESS or ADDRESS:PORT; port 0 stands for any.
func senderAddress(s string) (netip.AddrPort, error) {
	if a, err := netip.ParseAddr(s); err == nil {
		return netip.AddrPortFrom(a.Unmap(), 0), nil
	}
	if a, err := netip.ParseAddrPort(s); err == nil {
		return netip.AddrPortFrom(a.Addr().Unmap(), a.Port()), nil
	}
	return netip.AddrPort{}, fmt.Errorf("is %q; wanted: the sender's address in numbers, such as 192.168.1.20, with its port where several send from there, such as 192.168.1.20:49001", s)
}

// signs puts signs, validated before, into what a station is told.
func signs(o pipeline.Options, bank, pitch string) pipeline.Options {
	o.BankSign, _ = pipeline.SignNamed(bank)
	o.PitchSign, _ = pipeline.SignNamed(pitch)
	return o
}

// named lists the stations of the configuration for the desk.
func (c *config) named(o pipeline.Options) []desk.Named {
	list := make([]desk.Named, len(c.Stations))
	for i := range c.Stations {
		s := &c.Stations[i]
		n := desk.Named{Maneuver: c.Maneuver, Aircraft: c.Aircraft}
		n.Address, _ = senderAddress(s.Address) // validated, as the names are
		n.Name, _ = names.Station(s.Name)
		n.Student, _ = names.Person(s.Student)
		set(&n.Maneuver, s.Maneuver)
		set(&n.Aircraft, s.Aircraft)
		bank, pitch := c.BankSign, c.PitchSign
		set(&bank, s.BankSign)
		set(&pitch, s.PitchSign)
		n.Station = signs(o, bank, pitch)
		list[i] = n
	}
	return list
}

// ingest says how datagrams are received, without whom to tell.
func (c *config) ingest() ingest.Config {
	o := ingest.Config{Addresses: c.UDP, MaxStations: c.MaxStations, MaxRate: c.MaxRate, Idle: c.Idle.Duration, Subscribe: c.subscription()}
	for _, a := range c.Allow {
		p, _ := ingest.ParseAllow(a) // validated
		o.Allow = append(o.Allow, p)
	}
	for i := range c.Stations {
		a, _ := senderAddress(c.Stations[i].Address) // validated
		if !slices.Contains(o.Known, a.Addr()) {
			o.Known = append(o.Known, a.Addr())
		}
	}
	return o
}

// listen opens the UDP addresses as configured.
func (c *config) listen(ctx context.Context, log zerolog.Logger, metrics *ingest.Metrics, seat ingest.Factory) (*ingest.Listener, error) {
	o := c.ingest()
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
	log.Info().Strs("networks", networks).Msg("datagrams are taken from these networks only; the key allow in the configuration changes that")
	return l, nil
}

func (c *config) subscription() ingest.Subscribe {
	s := ingest.Subscribe{Rate: c.Subscribe.Rate, Discover: c.Subscribe.Discover}
	if c.Subscribe.Address != "" {
		s.Addresses = []string{c.Subscribe.Address}
	}
	return s
}

// subscribeTo takes the flag --subscribe.
func (c *config) subscribeTo(flag *string) {
	if flag == nil {
		return
	}
	c.from.set("subscribe.address", "--subscribe")
	c.from.set("subscribe.discover", "--subscribe")
	c.Subscribe.Address, c.Subscribe.Discover = *flag, *flag == "auto"
	if c.Subscribe.Discover {
		c.Subscribe.Address = ""
	}
}

// listenOn takes the flags --udp.
func (c *config) listenOn(udp []string) {
	if len(udp) > 0 {
		c.UDP = udp
		c.from.set("udp", "--udp")
	}
}

// notListening says which address it is that could not be listened on or asked, and by what it was given.
func (c *config) notListening(err error) error {
	if strings.HasPrefix(err.Error(), "simulator address ") {
		return c.from.orBy("subscribe.address", "--subscribe", err)
	}
	return c.from.orBy("udp", "--udp", err)
}

// busyUDP adds what else can be done when the port belongs to a running Halfturn.
func (c *config) busyUDP(err error) error {
	var taken *ingest.BusyError
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
	return fmt.Errorf("%w (a running halfturn serve shows the same at http://%s/setup)", err, net.JoinHostPort(host, port))
}
