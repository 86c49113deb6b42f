// Package finder says what the server knows of simulators around it: which it asks, whose beacons it hears, and where
// others can send to. It has a simulator asked when somebody names it, and opens the UDP port to the local network, as
// the pages can be opened to it.
package finder

import (
	"context"
	"errors"
	"math"
	"net/netip"
	"strconv"

	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
)

// A Listener receives datagrams and asks simulators. An [ingest.Listener] implements it.
type Listener interface {
	Addresses() []netip.AddrPort
	IsReachable() bool
	Found() ingest.Finding
	Ask(ctx context.Context, address string) error
	StopAsking(ctx context.Context, address string) error
	Open(ctx context.Context, addresses []string) error
	Shut()
}

// A Finder tells pages of simulators. It is safe for concurrent use.
type Finder struct {
	Listener Listener
	Machine  func() []netip.Addr // this machine's addresses in private networks
	Fixed    bool                // the configuration has opened the UDP port to others
}

// A Status is what is known of simulators.
type Status struct {
	Machine   []string    `json:"machine"` // this machine's addresses in private networks
	Listen    []string    `json:"listen"`  // where datagrams are received
	Port      uint16      `json:"port"`    // of the first of them
	Open      bool        `json:"open"`    // datagrams of other machines arrive
	Fixed     bool        `json:"fixed"`   // by the configuration
	Asked     []Asked     `json:"asked"`
	Announced []Announced `json:"announced"`
}

// An Asked is a simulator that is asked for its values.
type Asked struct {
	Address string        `json:"address"`
	By      ingest.Reason `json:"by"`
	Name    string        `json:"name"` // as it announces itself; "" when it does not
	Answers bool          `json:"answers"`
	Waited  float64       `json:"waited"` // s since it was first asked
}

// An Announced is a simulator whose beacon is heard.
type Announced struct {
	Address string `json:"address"` // where it can be asked
	Name    string `json:"name"`
	Here    bool   `json:"here"` // it runs on this machine, and is asked by itself
}

// Nothing is the status of a server that looks for no simulators.
func Nothing(listen []string) Status {
	return Status{Machine: []string{}, Listen: listen, Asked: []Asked{}, Announced: []Announced{}}
}

// Status tells how it is now.
func (f *Finder) Status() Status {
	s := Nothing([]string{})
	s.Open, s.Fixed = f.Listener.IsReachable(), f.Fixed
	for _, a := range f.Machine() {
		s.Machine = append(s.Machine, a.String())
	}
	for i, a := range f.Listener.Addresses() {
		if i == 0 {
			s.Port = a.Port()
		}
		s.Listen = append(s.Listen, a.String())
	}
	found := f.Listener.Found()
	for _, a := range found.Asked {
		s.Asked = append(s.Asked, Asked{a.Address.String(), a.By, a.Name, a.Answers, math.Floor(a.Waited.Seconds())})
	}
	for _, a := range found.Announced {
		s.Announced = append(s.Announced, Announced{a.Address.String(), a.Name, a.Here})
	}
	return s
}

// mostNamed is how many simulators may be named; see ingest.ErrTooManyAsked.
const mostNamed = 8

// Ask has a simulator asked, at HOST or HOST:PORT. The error is worded for whoever asks.
func (f *Finder) Ask(ctx context.Context, address string) error {
	return worded(f.Listener.Ask(ctx, address), address)
}

// StopAsking has a simulator that was named asked no more. The error is worded for whoever asks.
func (f *Finder) StopAsking(ctx context.Context, address string) error {
	return worded(f.Listener.StopAsking(ctx, address), address)
}

func worded(err error, address string) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, ingest.ErrNotAsking):
		return phrase.AskNobody.Error()
	case errors.Is(err, ingest.ErrTooManyAsked):
		return phrase.AskFull.Error(phrase.Int("most", mostNamed))
	case errors.Is(err, ingest.ErrPublic):
		return phrase.AskPublic.Error()
	}
	return phrase.AskAddress.Error(phrase.Name("address", address))
}

// Open lets other machines of the local network send to this machine's addresses there, or ends that. The error is
// worded for whoever asks.
func (f *Finder) Open(ctx context.Context, open bool) error {
	if !open {
		f.Listener.Shut()
		return nil
	}
	s := f.Status()
	at := []string{}
	for _, a := range f.Machine() {
		at = append(at, netip.AddrPortFrom(a, s.Port).String())
	}
	if len(at) == 0 {
		return phrase.NoNetwork.Error()
	}
	if err := f.Listener.Open(ctx, at); err != nil {
		return phrase.PortTaken.Error(phrase.Name("port", strconv.Itoa(int(s.Port))), phrase.Name("why", err.Error()))
	}
	return nil
}
