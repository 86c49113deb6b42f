package main

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"halfturn/coach/debrief"
	"halfturn/stream/station"
)

// Every wrong key about senders is told with file, line, key and what is allowed.
func TestListeningKeys(t *testing.T) {
	for text, want := range map[string]string{
		"allow = ['192.168.1.0/24', 'everyone']":                           `:1: allow[1]: "everyone" is no network; write a network such as 192.168.1.0/24`,
		"max-rate = -1":                                                    ":1: max-rate: is -1; allowed: 1 to 1000000, 0 for no limit",
		"bank-sign = 'left'":                                               `:1: bank-sign: is "left"; allowed: as-sent, reversed, auto`,
		"pitch-sign = 'down'":                                              `:1: pitch-sign: is "down"; allowed: as-sent, reversed, auto`,
		"[subscribe]\nrate = 0":                                            ":2: subscribe.rate: is 0; allowed: 1 to 200",
		"[subscribe]\nadress = ''":                                         ":2: subscribe.adress: is not a known key; allowed here: address, discover, rate",
		"[[station]]\nname = 'Seat 3'":                                     `:1: station[0].address: is ""; wanted: the sender's address in numbers`,
		"[[station]]\naddress = 'seat-3'":                                  `:2: station[0].address: is "seat-3"; wanted`,
		"[[station]]\naddress = '::1'\nname = 'a/b'":                       `:3: station[0].name: the name of the station is "a/b"; wanted: 1 to 40 letters`,
		"[[station]]\naddress = '::1'\nname = \"a\\u001b[2J\"":             `:3: station[0].name: the name "a\x1b[2J" holds the character "U+001B"`,
		"[[station]]\naddress = '::1'\nname = 'a'\nstudent = \"\\u202eb\"": `:4: station[0].student: the name "\u202eb" holds the character "U+202E"`,
		"[[station]]\naddress = '::1'\nname = 'a'\nbank-sign = 'x'":        ":4: station[0].bank-sign: is \"x\"; allowed: as-sent",
		"[[station]]\naddress = '::1'\nname = 'a'\n[[station]]\naddress = '10.0.0.1'\nname = 'a'":            ":6: station[1].name: is \"a\", as of another station",
		"[[station]]\naddress = '::1'\nname = 'Seat  3'\n[[station]]\naddress = '10.0.0.1'\nname = 'seat 3'": ":6: station[1].name: is \"seat 3\", as of another station",
		"[[station]]\naddress = '10.0.0.1'\nname = 'a'\n[[station]]\naddress = '10.0.0.1'\nname = 'b'":       ":5: station[1].address: is \"10.0.0.1\", as of another",
	} {
		file := filepath.Join(t.TempDir(), "c.toml")
		if err := os.WriteFile(file, []byte(text+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		_, err := loadConfig(&common{Config: file}, func(string) (string, bool) { return "", false })
		if err == nil || !strings.HasPrefix(err.Error(), file+want) {
			t.Errorf("%q:\n%v\nwant %s", text, err, want)
		}
	}
	_, err := loadConfig(&common{}, func(k string) (string, bool) { return "x", k == "HALFTURN_STATION" })
	if err == nil || !strings.Contains(err.Error(), "write [[station]] into the configuration file") {
		t.Errorf("stations from the environment: %v", err)
	}
}

// What the file says of a sender comes to hold for it: its name, what it flies, its signs.
func TestNamedStation(t *testing.T) {
	file := filepath.Join(t.TempDir(), "c.toml")
	text := "bank-sign = 'auto'\n[[station]]\naddress = '127.0.0.1'\nname = 'Seat 3'\nmaneuver = 'chandelle-civil'\naircraft = 'light-single'\nbank-sign = 'reversed'\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s := serveLive(t, common{Config: file}, nil)
	for _, want := range []string{"Seat 3", "Seat 3 (2)"} {
		conn, err := net.Dial("udp", s.listener.Addresses()[0].String())
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		fmt.Fprintf(conn, `{"time": 1, "heading": 90, "pitch": 2, "bank": -20, "airspeed": 100, "altitude": 5000}`)
		s.await(t, want, 2) // both have come; one sample is one datagram
	}
	r, _ := s.desk.Legs(t.Context(), "Seat 3")
	if got := r.(debrief.StationReport); got.Station != "Seat 3" || got.Samples != 1 {
		t.Errorf("%+v", got)
	}
	named := func() *config {
		cfg, err := loadConfig(&common{Config: file}, func(string) (string, bool) { return "", false })
		if err != nil {
			t.Fatal(err)
		}
		return cfg
	}().named(station.Options{})
	if n := named[0]; n.Address != netip.MustParseAddrPort("127.0.0.1:0") || n.Maneuver != "chandelle-civil" || n.Aircraft != "light-single" || n.Station.BankSign != station.Reversed || n.Station.PitchSign != station.AsSent {
		t.Errorf("%+v", n)
	}
}

// A station named with a card that does not exist is told before anything starts.
func TestNamedStationWrongCard(t *testing.T) {
	file := filepath.Join(t.TempDir(), "c.toml")
	if err := os.WriteFile(file, []byte("[[station]]\naddress = '127.0.0.1'\nname = 'Seat 3'\nmaneuver = 'loop'\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	status, _, msg := call(t, nil, "serve", "--config", file, "--data", t.TempDir(), "--log-level", "error", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0")
	if status != exitUsage || !strings.Contains(msg, "c.toml:4: station[0].maneuver: there is no") || !strings.Contains(msg, "there are: chandelle-civil") {
		t.Errorf("exit status %d: %s", status, msg)
	}
}

// The flag decides over the file: an address, or whoever tells of itself.
func TestSubscribeFlag(t *testing.T) {
	for flag, want := range map[string]subscribeConfig{
		"": {"file:1", 30, true}, "auto": {"", 30, true}, "192.168.1.20": {"192.168.1.20", 30, false},
	} {
		c := config{Subscribe: subscribeConfig{"file:1", 30, true}}
		given := &flag
		if flag == "" {
			given = nil
		}
		if c.subscribeTo(given); c.Subscribe != want {
			t.Errorf("%q: %+v, want %+v", flag, c.Subscribe, want)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel() // an error is expected before anything could wait
	cfg, err := loadConfig(&common{}, func(string) (string, bool) { return "", false })
	if err != nil {
		t.Fatal(err)
	}
	wrong := "192.168.1.20:port"
	cfg.HTTP, cfg.UDP, cfg.Data, cfg.Log.Level = "127.0.0.1:0", []string{"127.0.0.1:0"}, t.TempDir(), "error"
	cfg.subscribeTo(&wrong)
	if _, err := start(ctx, cfg, streams{io.Discard, io.Discard, func(string) (string, bool) { return "", false }}, nil, nil); err == nil || !strings.Contains(err.Error(), `simulator address "192.168.1.20:port"`) {
		t.Errorf("wrong address: %v", err)
	}
}
