package nats

import (
	"crypto/x509"
	"encoding/binary"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"
	"go.uber.org/goleak"

	"halfturn/web/cluster/flow"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A token can stand between two dots of a subject (NATS: no dots, wildcards or white space), and says which name it is.
func TestToken(t *testing.T) {
	seen := map[string]string{}
	for _, name := range []string{
		"", "a", "A", "a.b", "a b", "*", ">", "=", "=2e", ".", "\xff", "ü", "_", "-", "a\tb", "\x00",
		strings.Repeat("n", mostToken), strings.Repeat("n", mostToken+1), strings.Repeat("n", mostToken+2),
		strings.Repeat(".", 400),
	} {
		is := token(name)
		if is == "" || len(is) > mostToken || strings.ContainsAny(is, ".*> \t\x00") || strings.HasPrefix(is, "$") {
			t.Errorf("%q is %q", name, is)
		}
		if other, twice := seen[is]; twice {
			t.Errorf("%q and %q are both %q", name, other, is)
		}
		seen[is] = name
	}
	if got := token("Seat-1_a"); got != "Seat-1_a" {
		t.Error(got)
	}
}

// Stations are spread over all streams, about as many in each: of 300 in 16, none has more than 40.
func TestPlace(t *testing.T) {
	s := Settings{Prefix: "halfturn", Keeping: Keeping{Streams: 16}}
	count := map[int]int{}
	for i := range 300 {
		p := s.place(fmt.Sprint("Seat ", i))
		count[p.stream]++
		if want := fmt.Sprintf("halfturn.st.%02x.Seat=20%d.lease", p.stream, i); p.lease != want {
			t.Fatalf("%q; must be %q", p.lease, want)
		}
	}
	for k := range 16 {
		if count[k] == 0 || count[k] > 40 {
			t.Errorf("stream %d has %d stations", k, count[k])
		}
	}
	// The place of a station never changes: its record would not be found.
	if got := s.place("Seat 1"); got.stream != 11 || got.ofSession("s.1") != "halfturn.st.0b.Seat=201.rec.s=2e1" {
		t.Errorf("%+v", got)
	}
}

func TestSettings(t *testing.T) {
	good := func() Settings {
		return Settings{Node: "north", Cluster: "school", URLs: []string{"nats://127.0.0.1:4222"}}
	}
	s := good()
	if err := s.complete(); err != nil || s.Prefix != "halfturn" || s.Keeping.Streams != 16 || s.Keeping.Replicas != 1 {
		t.Errorf("%+v, %v", s, err)
	}
	for says, change := range map[string]func(*Settings){
		"node has no name":              func(s *Settings) { s.Node = "" },
		"cluster has no name":           func(s *Settings) { s.Cluster = "" },
		"no NATS server is named":       func(s *Settings) { s.URLs = nil },
		`prefix is "a.b"; must be`:      func(s *Settings) { s.Prefix = "a.b" },
		"streams is 257; must be":       func(s *Settings) { s.Keeping.Streams = 257 },
		"streams is -1; must be":        func(s *Settings) { s.Keeping.Streams = -1 },
		"replicas is 2; must be 1, 3":   func(s *Settings) { s.Keeping.Replicas = 2 },
		"max age is 1m0s; must be at":   func(s *Settings) { s.Keeping.MaxAge = time.Minute },
		"max bytes is 5; must be at":    func(s *Settings) { s.Keeping.MaxBytes = 5 },
		"1073741824 for 256 streams":    func(s *Settings) { s.Keeping.MaxBytes, s.Keeping.Streams = 64<<20, 256 },
		"set in several ways; must be":  func(s *Settings) { s.Access = Access{User: "u", Token: "t"} },
		`begins with "http"; must be`:   func(s *Settings) { s.URLs = []string{"http://u:secret@h"} },
		"cannot be read; must be like":  func(s *Settings) { s.URLs = []string{"nats://u:secret@h:x"} },
		"the NATS server at h:1 begins": func(s *Settings) { s.URLs = []string{"ftp://u:secret@h:1"} },
	} {
		s := good()
		change(&s)
		if err := s.complete(); err == nil || !strings.Contains(err.Error(), says) || strings.Contains(err.Error(),
			"secret") {
			t.Errorf("%v; must say %q", err, says)
		}
	}
}

// Why a node is not let in is said with the address and without the password.
func TestConnectFault(t *testing.T) {
	s := Settings{URLs: []string{"nats://u:secret@h:4222", "h2:4223"}, Access: Access{CredentialsFile: "c.creds"}}
	for says, c := range map[string]struct{ err, is error }{
		"refuses the credentials":          {client.ErrAuthorization, ErrRefused},
		"server at h:4222, h2:4223 refuse": {client.ErrAuthExpired, ErrRefused},
		"takes no keys":                    {client.ErrNkeysNotSupported, ErrRefused},
		"do not agree on TLS":              {client.ErrSecureConnRequired, ErrRefused},
		"name its authority":               {fmt.Errorf("x: %w", x509.UnknownAuthorityError{}), ErrRefused},
		"file c.creds cannot be used":      {&fs.PathError{Op: "open", Err: fs.ErrNotExist}, ErrRefused},
		"can be reached at h:4222":         {client.ErrNoServers, flow.ErrAway},
	} {
		if err := s.connectFault(c.err); !errors.Is(err, c.is) || !strings.Contains(err.Error(), says) ||
			strings.Contains(err.Error(), "secret") {
			t.Errorf("%v; must say %q", err, says)
		}
	}
}

func TestOwn(t *testing.T) {
	s := Settings{Node: "north", Cluster: "school", URLs: []string{"h"}}
	if err := s.complete(); err != nil {
		t.Fatal(err)
	}
	if err := s.own(s.config(0, time.Now())); err != nil {
		t.Error(err)
	}
	for says, change := range map[string]func(*jetstream.StreamConfig){
		"not made by Halfturn":        func(c *jetstream.StreamConfig) { c.Metadata = nil },
		`belongs to the cluster "x"`:  func(c *jetstream.StreamConfig) { c.Metadata[noteCluster] = "x" },
		"another version of Halfturn": func(c *jetstream.StreamConfig) { c.Metadata[noteFormat] = "0" },
		"streams is 16; must be 8":    func(c *jetstream.StreamConfig) { c.Metadata[noteStreams] = "8" },
	} {
		c := s.config(3, time.Now())
		change(&c)
		if err := s.own(c); !errors.Is(err, ErrForeign) || !strings.Contains(err.Error(), says) {
			t.Errorf("%v; must say %q", err, says)
		}
	}
}

func TestOld(t *testing.T) {
	for version, want := range map[string]bool{
		"2.9.25": true,
		"1.4.1":  true,
		"2.10.0": false,
		"2.15.3": false,
		"3.0":    false,
		"dev":    false,
	} {
		if got := old(version); got != want {
			t.Errorf("%s: %v", version, got)
		}
	}
}

// What is no tell is passed over, whatever it is.
func TestHeard(t *testing.T) {
	whole := append([]byte{tellFormat}, binary.BigEndian.AppendUint64(nil, 5)...)
	whole = appendText(appendText(whole, "north"), "Seat 1")
	whole = append(whole, "text"...)
	got, at, err := heard(flow.Live, whole)
	if err != nil || got.Node != "north" || got.Station != "Seat 1" || string(got.Bytes) != "text" ||
		at.UnixNano() != 5 {
		t.Errorf("%+v, %v, %v", got, at, err)
	}
	for n := range len(whole) - len("text") {
		if got, _, err := heard(flow.Live, whole[:n]); err == nil {
			t.Errorf("%d bytes: %+v", n, got)
		}
	}
	if _, _, err := heard(flow.Live, append([]byte{9}, whole[1:]...)); err == nil {
		t.Error("another format is read")
	}
}

// Of what a node tells in half a minute that counts which took least time: of two clocks that are 2 s apart the nearest
// is found, and nodes that are gone are forgotten.
func TestClocks(t *testing.T) {
	e := &Engine{}
	c := &e.clocks
	c.of = map[string]*clock{}
	now := time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)
	for i, took := range []time.Duration{30 * time.Millisecond, time.Millisecond, time.Second} {
		at := now.Add(time.Duration(i) * time.Second)
		c.add("ahead", 2*time.Second-took, at)
		c.add("behind", -time.Minute-took, at)
		c.add("same", -took, at)
	}
	if node, ahead := e.Apart(); node != "behind" || ahead != -time.Minute-time.Millisecond {
		t.Error(node, ahead)
	}
	now = now.Add(clockTime + time.Second)
	c.add("same", -time.Second, now)
	if node, ahead := e.Apart(); node != "behind" || ahead != -time.Minute-time.Millisecond {
		t.Error("in the next time:", node, ahead)
	}
	now = now.Add(clockTime + time.Second)
	c.add("same", -time.Millisecond, now)
	if node, ahead := e.Apart(); node != "same" || ahead != -time.Millisecond {
		t.Error("after two:", node, ahead)
	}
	for i := range 2 * mostClocks {
		c.add(fmt.Sprint(i), 0, now)
	}
	if len(c.of) > mostClocks {
		t.Errorf("%d clocks are known", len(c.of))
	}
}
