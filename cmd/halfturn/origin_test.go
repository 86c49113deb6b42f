package main

import (
	"net"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/configs/settings"
)

// A wrong value is reported with the flag it comes from, in one line, and nothing starts.
func TestWrongFlagSaysWhere(t *testing.T) {
	for _, c := range []struct{ flag, value, says string }{
		{"http", "7180", `is "7180"; must be HOST:PORT such as 127.0.0.1:7180`},
		{"udp", "127.0.0.1:70000", `is "127.0.0.1:70000"; must be HOST:PORT such as 127.0.0.1:7181`},
		{"log-level", "loud", `is "loud"; must be debug, info, warn or error`},
		{"maneuver", "loop", `there is no maneuver card "loop"; there are: `},
		{"standard", "mine", `there is no standard "mine"; there are: `},
		{"aircraft", "kite", `there is no aircraft card "kite"; there are: `},
		{"cards", "/no/such/folder", `the folder of cards cannot be read: `},
		{"map", "/no/such/map.toml", `the map cannot be read: /no/such/map.toml: no such file`},
		{"subscribe", "no such host:49000", `simulator address "no such host:49000"`},
	} {
		args := []string{"serve", "--data", t.TempDir(), "--" + c.flag + "=" + c.value}
		for _, other := range []string{"http", "udp"} {
			if other != c.flag {
				args = append(args, "--"+other+"=127.0.0.1:0")
			}
		}
		want := exitUsage
		if c.flag == "subscribe" { // a name that is not known is a failure of the network
			want = exitFailed
		}
		status, out, msg := call(t, nil, args...)
		last := msg[strings.LastIndexByte(strings.TrimSpace(msg), '\n')+1:]
		if status != want || out != "" || !strings.HasPrefix(last, "halfturn: --"+c.flag+": ") ||
			!strings.Contains(last, c.says) {
			t.Errorf("--%s=%s: exit status %d, %q", c.flag, c.value, status, last)
		}
	}
}

// The cautions are shown whatever the log shows.
func TestCautionsAtEveryLevel(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	for _, level := range settings.Levels {
		for _, format := range []string{"text", "json"} {
			env := map[string]string{"HALFTURN_LOG_FORMAT": format}
			_, _, msg := call(t, env, "serve", "--data", t.TempDir(), "--log-level", level, "--http",
				taken.Addr().String(), "--udp", "127.0.0.1:0")
			for _, c := range coach.Cautions {
				if !strings.Contains(msg, c) {
					t.Errorf("%s, %s: no %q in %q", level, format, c, msg)
				}
			}
		}
	}
}
