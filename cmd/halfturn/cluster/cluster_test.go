package cluster

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/base"
	"halfturn/configs/settings"
	"halfturn/web/cluster/flow/nats"
)

func written(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "cluster.toml")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func environment(name string) (string, bool) { return "postgres://db.example/x", name == "DSN" }

// nowhere is an address at which nobody listens: port 1 is that of a service that is long gone (RFC 1078).
const nowhere = "node = 'n1'\nnats.urls = ['nats://127.0.0.1:1']\n"

// A check says what is not reachable, where, and fails; in JSON too.
func TestCheckUnreachable(t *testing.T) {
	for _, asJSON := range []bool{false, true} {
		var out bytes.Buffer
		c := checkCmd{File: written(t, nowhere), JSON: asJSON}
		err := c.Run(t.Context(), base.Streams{Out: &out, Env: environment})
		if err == nil || !strings.Contains(err.Error(), "stands in the way") {
			t.Errorf("%v", err)
		}
		if !strings.Contains(out.String(), "127.0.0.1:1") {
			t.Errorf("it does not say where: %s", out.String())
		}
		var r report
		if asJSON {
			if err := json.Unmarshal(out.Bytes(), &r); err != nil || r.OK || r.Node != "n1" || len(r.Findings) < 2 {
				t.Errorf("%v: %s", err, out.String())
			}
		} else if !strings.Contains(out.String(), "TROUBLE") || !strings.Contains(out.String(), "Node n1") {
			t.Errorf("%s", out.String())
		}
	}
}

// A file that cannot be used is a wrong call, for a check and for a server.
func TestWrongFile(t *testing.T) {
	for text, want := range map[string]string{
		"colour = 1":                           "colour",
		nowhere + "postgres.dsn-env = 'DSN'\n": "PostgreSQL",
	} {
		_, _, err := Open(t.Context(), written(t, text), environment, nil, zerolog.Nop())
		var wrong settings.Error
		if !errors.As(err, &wrong) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v; must be of a setting, and hold %q", text, err, want)
		}
	}
	c := checkCmd{File: written(t, "colour = 1")}
	var wrong settings.Error
	if err := c.Run(t.Context(), base.Streams{Out: new(bytes.Buffer), Env: environment}); !errors.As(err, &wrong) {
		t.Errorf("%v", err)
	}
}

// What servers and streams are found is said, and whether anything stands in the way.
func TestFindings(t *testing.T) {
	r := &report{OK: true}
	r.servers([]nats.Server{{Address: "a:1", Name: "n0", Version: "2.15.3"}}, nil)
	r.streams([]nats.Stream{{Made: true, Messages: 2}, {Changed: true, Messages: 3}}, nil)
	if r.streams(nil, nil); !r.OK || len(r.Findings) != 2 {
		t.Errorf("%+v", r)
	}
	const want = "2 streams, of which 1 were made now, 1 changed, and 0 have replicas that are not up to date; " +
		"5 messages"
	if r.Findings[0].Says != "version 2.15.3, server n0" || r.Findings[1].Says != want {
		t.Errorf("%+v", r.Findings)
	}
	r.servers([]nats.Server{{Address: "a:1", Err: errors.New("it is away")}}, nil)
	if r.OK || r.Findings[2].Says != "it is away" {
		t.Errorf("%+v", r)
	}
	r.OK = true
	if r.streams([]nats.Stream{{Behind: 1}}, nil); r.OK {
		t.Error("a replica that is behind is no trouble")
	}
}

type clocks time.Duration

func (c clocks) Apart() (string, time.Duration) { return "n2", time.Duration(c) }

// Clocks that are a minute apart are refused, with which is how far behind.
func TestClocksApart(t *testing.T) {
	for ahead, want := range map[time.Duration]string{
		0:                 "",
		59 * time.Second:  "",
		-59 * time.Second: "",
		2 * time.Minute:   "is 2m0s behind that of node n2",
		-3 * time.Minute:  "is 3m0s ahead of that of node n2",
	} {
		err := apart(clocks(ahead), nil)
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%v: %v; must hold %q", ahead, err, want)
		}
	}
}
