package settings

import (
	"errors"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/configs"
	"halfturn/stream/pipeline"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

// loaded is a configuration of a file with a text.
func loaded(t *testing.T, text string, flags ...func(*Config)) *Config {
	t.Helper()
	c, err := Load(written(t, text), none, flags...)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// How datagrams are received follows from the configuration, key by key.
func TestIngest(t *testing.T) {
	got := loaded(t, `
udp = [":7181", "127.0.0.1:9"]
allow = ["192.168.1.0/24", "::1"]
max-rate = 12
max-stations = 3
session-idle = "1m30s"
[subscribe]
address = "192.168.1.20"
rate = 50
discover = true
[[station]]
address = "192.168.1.20:49001"
name = "a"
[[station]]
address = "192.168.1.20:49002"
name = "b"
[[station]]
address = "::ffff:10.0.0.1"
name = "c"
`).Ingest()
	if !slices.Equal(got.Addresses, []string{":7181", "127.0.0.1:9"}) || got.MaxRate != 12 || got.MaxStations != 3 ||
		got.Idle != 90*time.Second {
		t.Errorf("%+v", got)
	}
	if s := got.Subscribe; !slices.Equal(s.Addresses, []string{"192.168.1.20"}) || s.Rate != 50 || !s.Discover {
		t.Errorf("asked: %+v", s)
	}
	networks := []netip.Prefix{netip.MustParsePrefix("192.168.1.0/24"), netip.MustParsePrefix("::1/128")}
	if !slices.Equal(got.Allow, networks) {
		t.Errorf("allowed: %v; must be %v", got.Allow, networks)
	}
	// One address is known once, however many ports it has, and an IPv4 address in its IPv6 form is the same (RFC 4291,
	// 2.5.5.2).
	known := []netip.Addr{netip.MustParseAddr("192.168.1.20"), netip.MustParseAddr("10.0.0.1")}
	if !slices.Equal(got.Known, known) {
		t.Errorf("known: %v; must be %v", got.Known, known)
	}
	if s := loaded(t, "").Ingest().Subscribe; len(s.Addresses) != 0 || s.Discover {
		t.Errorf("by default it asks %+v", s)
	}
}

// The defaults are what configs/halfturn.toml says: loopback alone, wing-over, 150 words per minute.
func TestSession(t *testing.T) {
	o, err := loaded(t, "").Session()
	if err != nil {
		t.Fatal(err)
	}
	if o.Coach.Plan.Card.Name != "wing-over" || len(o.Auto) != 0 || o.Coach.Deck != 0 ||
		o.Coach.Voice.Rate != 2.5 || o.Coach.Voice.Reaction != 0.25 {
		t.Errorf("by default %s, %d cards, %+v", o.Coach.Plan.Card.Name, len(o.Auto), o.Coach.Voice)
	}
	if o.Station.BankSign != pipeline.AsSent || o.Station.GroundSpeedAsAirspeed || o.Station.Wire.Map != nil ||
		o.Station.Wire.Rows != format.RowsAuto {
		t.Errorf("by default %+v", o.Station)
	}
	o, err = loaded(t, `
maneuver = "chandelle-civil"
aircraft = "light-single"
hard-deck = 2500.0
bank-sign = "reversed"
pitch-sign = "auto"
ground-speed-as-airspeed = true
rows-layout = "old"
`).Session()
	if err != nil {
		t.Fatal(err)
	}
	if o.Coach.Plan.Card.Name != "chandelle-civil" || o.Coach.Plan.Aircraft.Name != "light-single" ||
		o.Coach.Deck != 2500 {
		t.Errorf("%s in %s above %g ft", o.Coach.Plan.Card.Name, o.Coach.Plan.Aircraft.Name, o.Coach.Deck)
	}
	if o.Station.BankSign != pipeline.Reversed || o.Station.PitchSign != pipeline.Auto ||
		!o.Station.GroundSpeedAsAirspeed || o.Station.Wire.Rows != format.RowsOld {
		t.Errorf("%+v", o.Station)
	}
}

// With auto each maneuver is followed, by the standard that was asked for.
func TestSessionAuto(t *testing.T) {
	c := loaded(t, "maneuver = 'auto'\nstandard = 'practice'\n")
	o, err := c.Session()
	if err != nil {
		t.Fatal(err)
	}
	lib, err := c.Library()
	if err != nil {
		t.Fatal(err)
	}
	if c.Maneuver != coach.AutoManeuver || len(o.Auto) != len(lib.Distinct()) || len(o.Auto) < 3 ||
		o.Coach.Plan != o.Auto[0] {
		t.Fatalf("%d cards are followed, of %d", len(o.Auto), len(lib.Distinct()))
	}
	for _, p := range o.Auto {
		card, err := lib.Card(p.Card.Name)
		if err != nil || p.Card.Standard != card.Standard {
			t.Errorf("%s is judged by %q, %v", p.Card.Name, p.Card.Standard, err)
		}
	}
}

// One map of the user's reads every text stream; several are tried.
func TestMaps(t *testing.T) {
	dir := t.TempDir()
	var flags []string
	for _, name := range []string{"one", "two"} {
		file := filepath.Join(dir, name+".toml")
		text := "order = ['t']\nsources = [{ name = 't', channel = 'time', unit = 's' }]\n"
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		flags = append(flags, file)
	}
	hashes := map[string]bool{}
	for n := range 3 {
		c := loaded(t, "", func(c *Config) { c.AddMaps(flags[:n]) })
		o, err := c.Stream()
		if err != nil {
			t.Fatal(err)
		}
		if len(o.Wire.Maps) != len(mapping.Shipped())+n || (o.Wire.Map != nil) != (n == 1) {
			t.Errorf("%d maps: %d are tried, forced is %v", n, len(o.Wire.Maps), o.Wire.Map)
		}
		h, err := c.MapsHash()
		if err != nil || len(h) != 64 || hashes[h] {
			t.Errorf("%d maps: hash %q, %v", n, h, err)
		}
		hashes[h] = true
	}
	c := loaded(t, "maps = ['"+flags[0]+"']\n", func(c *Config) { c.AddMaps([]string{"no.toml"}) })
	_, err := c.Stream()
	if err == nil || !strings.HasPrefix(err.Error(), "--map: the map cannot be read: ") {
		t.Errorf("a map of the flag: %v", err)
	}
	if _, err := c.MapsHash(); err == nil || !strings.HasPrefix(err.Error(), "--map: ") {
		t.Errorf("its hash: %v", err)
	}
	if err := os.WriteFile(flags[0], []byte("separator = 'x'\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := loaded(t, "maps = ['"+flags[0]+"']\n").Session(); err == nil ||
		!strings.HasPrefix(err.Error(), flags[0]+":1: separator: ") {
		t.Errorf("a map that is wrong: %v", err)
	}
}

// Recordings are judged by another choice, and by the cards that stand with them, without a change to what is
// configured.
func TestSetup(t *testing.T) {
	besides := t.TempDir()
	shipped, err := fs.ReadFile(configs.FS, "maneuvers/chandelle-civil.toml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(besides, "maneuvers"), 0o700); err != nil {
		t.Fatal(err)
	}
	theirs := strings.Replace(string(shipped), "\ntitle = \"", "\ntitle = \"Their ", 1)
	file := filepath.Join(besides, "maneuvers", "chandelle-civil.toml")
	if err := os.WriteFile(file, []byte(theirs), 0o600); err != nil {
		t.Fatal(err)
	}
	c := loaded(t, "")
	s := Setup{c}
	choice := s.Choice()
	if choice.Maneuver != "wing-over" || choice.Standard != "course" || choice.Aircraft != "" {
		t.Errorf("configured is %+v", choice)
	}
	choice.Maneuver = "chandelle-civil"
	for folder, title := range map[string]string{"": "", besides: "Their "} {
		o, err := s.Options(choice, folder)
		if err != nil {
			t.Fatal(err)
		}
		card := o.Coach.Plan.Card
		if card.Name != "chandelle-civil" || strings.HasPrefix(card.Title, "Their ") != (title != "") {
			t.Errorf("with %q: %s, %s", folder, card.Name, card.Title)
		}
	}
	if c.Maneuver != "wing-over" || len(c.Cards) != 0 {
		t.Errorf("the configuration is now %s, %v", c.Maneuver, c.Cards)
	}
	if _, err := s.Options(choice, filepath.Join(besides, "none")); err == nil {
		t.Error("a folder that is not there is read")
	}
}

// An error names the setting that it comes from: the flag, the variable, the line; for a default, the flag to give.
func TestBlame(t *testing.T) {
	failed := errors.New("it is taken")
	port := "127.0.0.1:9"
	for _, c := range []struct {
		name string
		cfg  *Config
		err  error
		want string
	}{
		{"default", loaded(t, ""), failed, "it is taken (--udp)"},
		{"flag", loaded(t, "", func(c *Config) { c.ListenOn([]string{port}) }), failed, "--udp: it is taken"},
		{"file", loaded(t, "\nudp = ['127.0.0.1:9']\n"), failed, ":2: udp: it is taken"},
		{"the simulator's", loaded(t, ""), errors.New("simulator address x"), "simulator address x (--subscribe)"},
		{"the simulator's, by flag", loaded(t, "", func(c *Config) { c.SubscribeTo(&port) }),
			errors.New("simulator address x"), "--subscribe: simulator address x"},
	} {
		got := c.cfg.BlameListening(c.err)
		if !strings.HasSuffix(got.Error(), c.want) || !errors.Is(got, c.err) {
			t.Errorf("%s: %v; must end with %q", c.name, got, c.want)
		}
	}
	c, err := Load("", only("HALFTURN_UDP", port))
	if err != nil {
		t.Fatal(err)
	}
	if got := c.BlameListening(failed); got.Error() != "HALFTURN_UDP: it is taken" {
		t.Errorf("by a variable: %v", got)
	}
	wrapped := NewError(failed)
	var setting Error
	if !errors.As(wrapped, &setting) || !errors.Is(wrapped, failed) || wrapped.Error() != "it is taken" {
		t.Errorf("an error of a setting: %v", wrapped)
	}
}

// The folders of the flag are read after those of the file, and the one that cannot be read is named with its origin.
func TestAddCards(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	text := "cards = ['" + dir + "']\n"
	c := loaded(t, text, func(c *Config) { c.AddCards([]string{dir, file}) })
	if !slices.Equal(c.Cards, []string{dir, dir, file}) {
		t.Errorf("cards of %v", c.Cards)
	}
	for want, c := range map[string]*Config{
		"--cards: the folder of cards cannot be read: ":            c,
		":1: cards[0]: the folder of cards cannot be read: ":       loaded(t, "cards = ['"+file+"']\n"),
		":1: cards[1]: the folder of cards cannot be read: stat /": loaded(t, "cards = ['"+dir+"', '/no/folder']\n"),
	} {
		if _, err := c.Library(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v; must contain %q", err, want)
		}
	}
}

// Addresses of senders, as RFC 5952 writes them; a name has to be looked up and is none.
func TestSenderAddress(t *testing.T) {
	for text, want := range map[string]string{
		"192.168.1.20":            "192.168.1.20:0",
		"192.168.1.20:49001":      "192.168.1.20:49001",
		"::1":                     "[::1]:0",
		"[::1]:49001":             "[::1]:49001",
		"::ffff:10.0.0.1":         "10.0.0.1:0",
		"[::ffff:10.0.0.1]:49001": "10.0.0.1:49001",
		"localhost":               "",
		"localhost:49001":         "",
		"192.168.1.20:":           "",
		"192.168.1.20:70000":      "",
		"":                        "",
	} {
		got, err := SenderAddress(text)
		if want == "" {
			if err == nil || !strings.Contains(err.Error(), "must be the sender's address in numbers") {
				t.Errorf("%q: %v, %v", text, got, err)
			}
		} else if err != nil || got.String() != want {
			t.Errorf("%q: %v, %v; must be %s", text, got, err, want)
		}
	}
}
