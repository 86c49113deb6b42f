package settings

import (
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strconv"
	"strings"
	"time"

	"halfturn/coach"
	"halfturn/coach/names"
	"halfturn/configs/strict"
	"halfturn/stream/ingest/network"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
	"halfturn/stream/wire/format"
)

// Levels are those of the log, the most talkative first.
var Levels = []string{"debug", "info", "warn", "error"}

// validate checks every value, whichever layer it comes from.
func (c *Config) validate() error {
	for _, check := range []func() error{
		c.validateAddresses,
		c.validateNumbers,
		c.validateWords,
		c.validateStations,
		c.validateShare,
		c.validateRequired,
	} {
		if err := check(); err != nil {
			return err
		}
	}
	return nil
}

func (c *Config) validateRequired() error {
	for i, r := range c.Judging.Required {
		words := strings.Fields(r)
		if n := len(words); n < 1 || n > 2 || !slices.Contains(grades, words[n-1]) {
			return c.Errorf(element("judging.required", i), "is %q; must be a grade (unable, fair, good or "+
				"excellent), or a maneuver and a grade such as \"wing-over fair\"", r)
		}
	}
	return nil
}

// grades are those that can be required.
var grades = []string{coach.Unable, coach.Fair, coach.Good, coach.Excellent}

func (c *Config) validateAddresses() error {
	if err := hostPort(c.HTTP, "127.0.0.1:7180"); err != nil {
		return c.Errorf("http", "%v", err)
	}
	if len(c.UDP) == 0 {
		return c.Errorf("udp", "is empty; must be at least one address such as 127.0.0.1:7181")
	}
	for i, a := range c.UDP {
		if err := hostPort(a, "127.0.0.1:7181"); err != nil {
			return c.Errorf(element("udp", i), "%v", err)
		}
	}
	if IsConnection(c.Data) {
		return c.Errorf("data", "is the address of a database; must be a directory: a database is named in the "+
			"file of a cluster")
	}
	if (c.TLS.Certificate == "") != (c.TLS.Key == "") {
		key, other := "tls.key", "tls.certificate"
		if c.TLS.Certificate == "" {
			key, other = other, key
		}
		return c.Errorf(key, "is empty; must be a file, because %s is", other)
	}
	for i, a := range c.Allow {
		if _, err := network.Parse(a); err != nil {
			return c.Errorf(element("allow", i), "%v", err)
		}
	}
	return nil
}

// hostPort checks an address to listen on.
func hostPort(s, example string) error {
	_, port, err := net.SplitHostPort(s)
	if err == nil {
		_, err = strconv.ParseUint(port, 10, 16)
	}
	if err != nil {
		return fmt.Errorf("is %q; must be HOST:PORT such as %s, the port from 0 to 65535", s, example)
	}
	return nil
}

func (c *Config) validateNumbers() error {
	if c.Idle.Duration < 5*time.Second || c.Idle.Duration > 24*time.Hour {
		return c.Errorf("session-idle", "is %v; must be between 5s and 24h", c.Idle.Duration)
	}
	r := &c.Recording
	for _, n := range []struct {
		key       string
		value     float64
		low, high int
		unit      string
	}{
		{"max-stations", float64(c.MaxStations), 0, 10_000, "; 0 is what the machine can take"},
		{"max-rate", float64(c.MaxRate), 0, 1_000_000, "; 0 is no limit"},
		{"subscribe.rate", float64(c.Subscribe.Rate), 1, 200, ""},
		{"recording.rotate-size", float64(r.Rotate), 1, 100_000, " MB"},
		{"recording.keep-days", float64(r.KeepDays), 0, 100_000, "; 0 keeps all"},
		{"recording.keep-size", float64(r.KeepSize), 0, 100_000_000, " MB; 0 is no limit"},
		{"hard-deck", c.Deck, -2000, 60_000, " ft; 0 is none"},
		{"speech.words-per-minute", c.Speech.Rate, 60, 400, ""},
	} {
		if !(n.value >= float64(n.low) && n.value <= float64(n.high)) { // also not a number
			return c.Errorf(n.key, "is %v; must be between %d and %d%s", n.value, n.low, n.high, n.unit)
		}
	}
	if !(c.Speech.Reaction >= 0.01 && c.Speech.Reaction <= 3) {
		return c.Errorf("speech.reaction", "is %v; must be between 0.01 and 3 s", c.Speech.Reaction)
	}
	return nil
}

func (c *Config) validateWords() error {
	for _, w := range []struct {
		key, value string
		known      []string
	}{
		{"language", c.Language, phrase.LanguageCodes},
		{"rows-layout", c.Rows, []string{"auto", "old", "new"}},
		{"speech.words", c.Speech.Words, []string{"checkpoints", "full", "ear"}},
		{"log.level", c.Log.Level, Levels},
		{"log.format", c.Log.Format, []string{"auto", "text", "json"}},
	} {
		if !slices.Contains(w.known, w.value) {
			return c.Errorf(w.key, "is %q; must be %s", w.value, strict.OneOf(w.known))
		}
	}
	for _, s := range []struct{ key, name string }{{"bank-sign", c.BankSign}, {"pitch-sign", c.PitchSign}} {
		if _, err := pipeline.SignNamed(s.name); err != nil {
			return c.Errorf(s.key, "%v", err)
		}
	}
	return nil
}

// rows is the layout of rows-layout, which validateWords has checked.
func (c *Config) rows() format.RowsLayout {
	return map[string]format.RowsLayout{"auto": format.RowsAuto, "old": format.RowsOld, "new": format.RowsNew}[c.Rows]
}

func (c *Config) validateStations() error {
	taken := map[string]bool{}
	for i := range c.Stations {
		if err := c.validateStation(&c.Stations[i], element("station", i)+".", taken); err != nil {
			return err
		}
	}
	return nil
}

func (c *Config) validateStation(s *Station, at string, taken map[string]bool) error {
	if _, err := SenderAddress(s.Address); err != nil {
		return c.Errorf(at+"address", "%v", err)
	}
	name, err := names.Station(s.Name)
	switch {
	case err != nil:
		return c.Errorf(at+"name", "%v", err)
	case taken["name "+names.Key(name)]:
		return c.Errorf(at+"name", "is %q, as of another station; each needs its own", s.Name)
	case taken[s.Address]:
		return c.Errorf(at+"address", "is %q, as of another station; each needs its own", s.Address)
	}
	taken["name "+names.Key(name)], taken[s.Address] = true, true
	if _, err := names.Person(s.Student); err != nil {
		return c.Errorf(at+"student", "%v", err)
	}
	for _, sign := range []struct {
		key  string
		name *string
	}{{"bank-sign", s.BankSign}, {"pitch-sign", s.PitchSign}} {
		if sign.name == nil {
			continue
		}
		if _, err := pipeline.SignNamed(*sign.name); err != nil {
			return c.Errorf(at+sign.key, "%v", err)
		}
	}
	return nil
}

// SenderAddress reads ADDRESS or ADDRESS:PORT, in numbers; port 0 stands for any.
func SenderAddress(s string) (netip.AddrPort, error) {
	if a, err := netip.ParseAddr(s); err == nil {
		return netip.AddrPortFrom(a.Unmap(), 0), nil
	}
	if a, err := netip.ParseAddrPort(s); err == nil {
		return netip.AddrPortFrom(a.Addr().Unmap(), a.Port()), nil
	}
	const rule = "must be the sender's address in numbers, such as 192.168.1.20, " +
		"with its port where several send from there, such as 192.168.1.20:49001"
	return netip.AddrPort{}, fmt.Errorf("is %q; %s", s, rule)
}
