package live

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/cmdtest"
	"halfturn/coach/debrief"
	"halfturn/coach/message"
	"halfturn/configs/settings"
	"halfturn/web"
)

// The recordings that are flown.
const (
	brokenOff = "../testdata/wo-single-b-rolled-out-early-1.pcap.gz"
	flight    = "../../../coach/session/testdata/flights/wo-turboprop-b-good-1.pcap.gz"
)

func TestMain(m *testing.M) {
	if address := os.Getenv("HALFTURN_TEST_SPEAKER"); address != "" {
		os.Exit(speak(address))
	}
	os.Exit(m.Run())
}

// config is the configuration of a test: ports of the system's choice, and a data directory.
func config(t testing.TB, file, data string, flags ...func(*settings.Config)) *settings.Config {
	t.Helper()
	cfg, err := settings.Load(file, func(string) (string, bool) { return "", false }, flags...)
	if err != nil {
		t.Fatal(err)
	}
	cfg.HTTP, cfg.UDP, cfg.Data = "127.0.0.1:0", []string{"127.0.0.1:0"}, data
	return cfg
}

// only is a configuration that never changes.
func only(cfg *settings.Config) configuration { return func() *settings.Config { return cfg } }

// server is a live server on ports of the system's choice.
type server struct {
	*Server
	stop func() // as Ctrl-C does
	data string
}

// serveLive serves with a configuration file, "" for none.
func serveLive(t testing.TB, file string, ended func(*debrief.Report)) *server {
	t.Helper()
	return serveWith(t, config(t, file, t.TempDir()), ended)
}

func serveWith(
	t testing.TB, cfg *settings.Config, ended func(*debrief.Report), how ...func(*Options),
) *server {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	o := Options{Config: cfg, Version: "1.2", Log: zerolog.Nop(), Ended: ended}
	for _, change := range how {
		change(&o)
	}
	l, err := Start(ctx, o)
	if err != nil {
		cancel()
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- l.Serve(ctx) }()
	stopped := false
	stop := func() {
		t.Helper()
		if stopped {
			return
		}
		stopped = true
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
	t.Cleanup(stop)
	return &server{Server: l, data: cfg.Data, stop: stop}
}

// written is a file with a text.
func written(t testing.TB, text string) string {
	t.Helper()
	name := t.TempDir() + "/file.toml"
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

// send sends datagrams from one socket, a few at a time, and waits until the station has
// taken them, as its own report says. It returns the station's name.
func (s *server) send(t *testing.T, list [][]byte) string {
	t.Helper()
	conn, err := net.Dial("udp", s.Addresses()[0].String())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close() })
	name := conn.LocalAddr().String()
	for i, b := range list {
		if _, err := conn.Write(b); err != nil {
			t.Fatal(err)
		}
		if i%50 == 0 || i == len(list)-1 {
			s.await(t, name, i+1)
		}
	}
	return name
}

// await waits until the station has taken n datagrams.
func (s *server) await(t *testing.T, name string, n int) {
	t.Helper()
	taken := 0
	cmdtest.Until(t, func() bool {
		if r, ok := s.desk.Legs(t.Context(), name); ok {
			st := r.(debrief.StationReport)
			taken = int(st.Samples)
			for _, d := range st.Drops {
				taken += d
			}
		}
		return taken >= n-1 // the line of labels gives no sample and is no fault
	}, func() string { return fmt.Sprintf("station %s took %d of %d datagrams", name, taken, n) })
}

// ask sends a request to the pages and returns the status and the answer.
func (s *server) ask(t *testing.T, method, path, kind string, body []byte) (int, []byte) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), method, s.URL()+path, bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	if kind != "" {
		r.Header.Set("Content-Type", kind)
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, data
}

// stationOf is what a station says of itself.
func stationOf(t *testing.T, s *server, name string) message.Station {
	t.Helper()
	resp, err := http.Get(s.URL() + "api/stations")
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	var list web.StationList
	if err := json.NewDecoder(resp.Body).Decode(&list); err != nil {
		t.Fatal(err)
	}
	for _, st := range list.Stations {
		if st.Name == name {
			return st
		}
	}
	return message.Station{}
}
