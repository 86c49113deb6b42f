package live

import (
	"time"

	"halfturn/coach/archive"
	"halfturn/coach/maneuver"
	"halfturn/coach/names"
	"halfturn/configs/settings"
	"halfturn/stream/pipeline"
	"halfturn/web/desk"
	"halfturn/web/desk/identity"
	"halfturn/web/desk/practice"
)

const megabyte = 1_000_000

// deskConfig is what the configuration says to the desk.
func deskConfig(cfg *settings.Config, version string) (desk.Config, error) {
	lib, err := cfg.Library()
	if err != nil {
		return desk.Config{}, err
	}
	if err := cfg.CheckChosen(lib); err != nil {
		return desk.Config{}, err
	}
	reading, err := cfg.Stream()
	if err != nil {
		return desk.Config{}, err
	}
	maps, err := cfg.MapsHash()
	if err != nil {
		return desk.Config{}, err
	}
	return desk.Config{
		Library:   lib,
		Choice:    maneuver.Choice{Maneuver: cfg.Maneuver, Aircraft: cfg.Aircraft},
		Deck:      cfg.Deck,
		Voice:     cfg.Voice(),
		Station:   reading,
		Named:     Named(cfg, reading),
		Forget:    cfg.Chosen(),
		Recording: recording(&cfg.Recording),
		Idle:      cfg.Idle.Duration,
		Maps:      maps,
		Version:   version,
	}, nil
}

// recording says to the desk how sessions are recorded; nil when nothing is to be recorded.
func recording(r *settings.Recording) *desk.Recording {
	if !r.Enabled {
		return nil
	}
	return &desk.Recording{
		Recording: practice.Recording{Rotate: int64(r.Rotate) * megabyte},
		Compress:  r.Compress,
		Retention: archive.Retention{
			Age:  time.Duration(r.KeepDays) * 24 * time.Hour,
			Size: int64(r.KeepSize) * megabyte,
		},
	}
}

// Named lists the stations of the configuration. Their streams are read as o says, but for what a station's own
// settings say of its signs.
func Named(c *settings.Config, o pipeline.Options) []identity.Sender {
	list := make([]identity.Sender, len(c.Stations))
	for i := range c.Stations {
		s := &c.Stations[i]
		n := identity.Sender{Choice: maneuver.Choice{
			Maneuver: or(s.Maneuver, c.Maneuver),
			Aircraft: or(s.Aircraft, c.Aircraft),
		}}
		// The address and the names were validated.
		n.Address, _ = settings.SenderAddress(s.Address)
		n.Name, _ = names.Station(s.Name)
		n.Student, _ = names.Person(s.Student)
		n.Station = settings.Signs(o, or(s.BankSign, c.BankSign), or(s.PitchSign, c.PitchSign))
		list[i] = n
	}
	return list
}

// or is what a setting of a station says, or the server's own value where it says nothing.
func or(own *string, otherwise string) string {
	if own != nil {
		return *own
	}
	return otherwise
}
