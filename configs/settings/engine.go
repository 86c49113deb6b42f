package settings

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"halfturn/coach"
	"halfturn/coach/callout"
	"halfturn/coach/judge"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/configs/tomlfile"
	"halfturn/stream/ingest"
	"halfturn/stream/ingest/network"
	"halfturn/stream/pipeline"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

// Session says how a sender is followed: the cards chosen, and how its stream is read.
func (c *Config) Session() (session.Options, error) {
	lib, err := c.Library()
	if err != nil {
		return session.Options{}, err
	}
	if err := c.CheckChosen(lib); err != nil {
		return session.Options{}, err
	}
	aircraft, err := lib.AircraftNamed(c.Aircraft)
	if err != nil {
		return session.Options{}, err
	}
	stations, err := c.Stream()
	if err != nil {
		return session.Options{}, err
	}
	o := session.Options{Station: stations, Aircraft: lib.Aircraft(), Coach: judge.Options{
		Deck:   c.Deck,
		Voice:  c.Voice(),
		Others: lib.Distinct(),
	}}
	if c.Maneuver == coach.AutoManeuver {
		for _, written := range lib.Distinct() {
			card, err := lib.Card(written.Name) // by the standard
			if err != nil {
				return session.Options{}, err
			}
			o.Auto = append(o.Auto, plan.New(card, aircraft))
		}
		o.Coach.Plan = o.Auto[0]
		return o, nil
	}
	card, err := lib.Card(c.Maneuver)
	if err != nil {
		return session.Options{}, err
	}
	o.Coach.Plan = plan.New(card, aircraft)
	return o, nil
}

// Stream says how the datagrams of a sender are read.
func (c *Config) Stream() (pipeline.Options, error) {
	o := Signs(pipeline.Options{
		GroundSpeedAsAirspeed: c.GroundSpeed,
		Wire:                  format.Options{Maps: mapping.Shipped(), Rows: c.rows()},
	}, c.BankSign, c.PitchSign)
	for i, name := range c.Maps {
		data, err := tomlfile.Read(name)
		if err != nil {
			return o, Error{c.Blame(element("maps", i), fmt.Errorf("the map cannot be read: %w", err))}
		}
		m, err := mapping.Load(name, data)
		if err != nil {
			return o, err
		}
		o.Wire.Maps = append(o.Wire.Maps, m)
		o.Wire.Map = m
	}
	if len(c.Maps) > 1 {
		o.Wire.Map = nil // with several, each is tried by what it says about itself
	}
	return o, nil
}

// Signs puts the names of signs, validated before, into the options of a station.
func Signs(o pipeline.Options, bank, pitch string) pipeline.Options {
	o.BankSign, _ = pipeline.SignNamed(bank)
	o.PitchSign, _ = pipeline.SignNamed(pitch)
	return o
}

// Voice is the listener that the timing of callouts assumes.
func (c *Config) Voice() callout.Options {
	return callout.Options{Rate: c.Speech.Rate / 60, Reaction: c.Speech.Reaction}
}

// Ingest says how datagrams are received; the caller adds the functions that take warnings and notes.
func (c *Config) Ingest() ingest.Config {
	o := ingest.Config{
		Addresses:   c.UDP,
		MaxStations: c.MaxStations,
		MaxRate:     c.MaxRate,
		Idle:        c.Idle.Duration,
		Subscribe: ingest.Subscribe{
			Rate:     c.Subscribe.Rate,
			Discover: c.Subscribe.Discover,
			Nearby:   c.Subscribe.Nearby && !c.Subscribe.Discover && c.Subscribe.Address == "",
		},
	}
	if c.Subscribe.Address != "" {
		o.Subscribe.Addresses = []string{c.Subscribe.Address}
	}
	for _, a := range c.Allow {
		p, _ := network.Parse(a) // validated
		o.Allow = append(o.Allow, p)
	}
	for i := range c.Stations {
		a, _ := SenderAddress(c.Stations[i].Address) // validated
		if !slices.Contains(o.Known, a.Addr()) {
			o.Known = append(o.Known, a.Addr())
		}
	}
	return o
}

// MapsHash identifies the user's column maps and everything else that decides how streams are read.
func (c *Config) MapsHash() (string, error) {
	h := sha256.New()
	fmt.Fprintln(h, c.Rows, c.Standard)
	for i, name := range c.Maps {
		data, err := tomlfile.Read(name)
		if err != nil {
			return "", Error{c.Blame(element("maps", i), fmt.Errorf("the map cannot be read: %w", err))}
		}
		h.Write(data)
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
