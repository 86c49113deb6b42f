package school_test

import (
	"context"
	"net/http"
	"net/netip"
	"net/url"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"
	"go.uber.org/goleak"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/command"
	"halfturn/coach/logbook/sqlite"
	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/stored"
	"halfturn/configs"
	"halfturn/configs/settings"
	"halfturn/stream"
	"halfturn/stream/ingest"
	"halfturn/stream/trainer"
	"halfturn/stream/trainer/encode"
	"halfturn/web/desk"
	"halfturn/web/desk/practice"
	"halfturn/web/guard"
	"halfturn/web/hub"
	"halfturn/web/share/home"
	"halfturn/web/share/school"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

// A machine is a Halfturn with a data directory: a desk, and what it writes to.
type machine struct {
	data   string
	book   *archive.Archive
	writer *queue.Writer
	desk   *desk.Desk
	hub    *hub.Hub
	judge  *stored.Judge
}

// newMachine opens a machine on a data directory. The tap hears what is recorded there; nil is none.
func newMachine(t *testing.T, data string, tap practice.Tap) *machine {
	t.Helper()
	return newMachineWith(t, data, tap, archive.Options{Engine: sqlite.Engine{}, Version: "1"})
}

// newMachineWith is newMachine with options of its archive.
func newMachineWith(t *testing.T, data string, tap practice.Tap, options archive.Options) *machine {
	t.Helper()
	cfg, err := settings.Load("", func(string) (string, bool) { return "", false })
	if err != nil {
		t.Fatal(err)
	}
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	m := &machine{
		data:  data,
		hub:   hub.New("1", zerolog.Nop()),
		judge: &stored.Judge{Setup: settings.Setup{Config: cfg}},
	}
	if shares, ok := tap.(*home.Sharer); ok {
		options.Acted = shares.Acted
	}
	if m.book, err = archive.Open(data, options); err != nil {
		t.Fatal(err)
	}
	m.writer = queue.New(m.book, func(err error) { t.Error(err) })
	metrics, err := ingest.NewMetrics(nil)
	if err != nil {
		t.Fatal(err)
	}
	m.desk, err = desk.New(desk.Config{
		Library:   lib,
		Choice:    maneuver.Choice{Maneuver: "wing-over"},
		Output:    m.hub,
		Version:   "1",
		Book:      m.book,
		Writer:    m.writer,
		Recording: &desk.Recording{Recording: practice.Recording{Rotate: 100_000}},
		Idle:      time.Minute,
		Metrics:   metrics,
		Log:       zerolog.Nop(),
		Tap:       tap,
	}, prometheus.NewRegistry())
	if err != nil {
		t.Fatal(err)
	}
	m.desk.Start(t.Context(), time.Now())
	return m
}

// close closes the machine.
func (m *machine) close(t *testing.T) {
	t.Helper()
	m.desk.Close()
	m.writer.Close()
	if err := m.book.Close(); err != nil {
		t.Error(err)
	}
}

// files reads the recording of a session by the names of its files.
func (m *machine) files(t *testing.T, id string) map[string]string {
	t.Helper()
	return filesIn(t, filepath.Join(m.book.Dir(), id))
}

// filesIn reads the recording in a folder.
func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "stream-*"))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, name := range names {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all[filepath.Base(name)] = string(text)
	}
	return all
}

// grade grades a recording again.
func (m *machine) grade(t *testing.T, id string) []coach.Series {
	t.Helper()
	r, err := m.judge.Again(t.Context(), filepath.Join(m.book.Dir(), id))
	if err != nil || r == nil {
		t.Fatalf("%s cannot be graded again: %v", id, err)
	}
	return r.Files[0].Stations[0].Series
}

// keyring is the keys of a school in a test, by name.
type keyring map[string]string

func (k keyring) StationOf(_ context.Context, key string, _ time.Time) (string, error) {
	if name, ok := k[key]; ok {
		return name, nil
	}
	return "", school.ErrNoKey
}

func (k keyring) HasKey(_ context.Context, station string) (bool, error) {
	for _, name := range k {
		if name == station {
			return true, nil
		}
	}
	return false, nil
}

// patience is how long the school of a test waits for a home.
const patience = 3 * time.Minute

// A building is a school that takes links over pipes.
type building struct {
	*machine
	server *school.Server
	http   *http.Server
	stop   context.CancelFunc
	wait   sync.WaitGroup
	doors  *pipes
	lane   *end // where links come in
}

// answers has new links come to this school.
func (b *building) answers() {
	b.doors.mu.Lock()
	defer b.doors.mu.Unlock()
	b.doors.to, b.doors.over = b.lane.from, b.lane.over
}

// newBuilding opens a school on a data directory.
func newBuilding(t *testing.T, data string, keys school.Keys, doors *pipes) *building {
	t.Helper()
	return open(t, newMachine(t, data, nil), keys, doors)
}

// open opens a school on a machine.
func open(t *testing.T, m *machine, keys school.Keys, doors *pipes) *building {
	t.Helper()
	b := &building{machine: m, doors: doors}
	b.server = school.New(school.Options{
		Keys:     keys,
		Book:     b.book,
		Grade:    b.judge.Whole,
		Complete: func(string) {},
		Session:  b.desk.Options,
		Plans:    b.desk.Plans,
		Output:   b.hub,
		Has:      func(string) bool { return false },
		Watching: b.hub.Audience,
		Idle:     time.Minute,
		Wait:     patience,
		Log:      zerolog.Nop(),
	})
	var visits guard.Visits
	b.http = &http.Server{Handler: visits.Wrap(guard.Handle(zerolog.Nop(), b.server.Serve))}
	ctx, stop := context.WithCancel(t.Context())
	b.stop = stop
	b.lane = doors.listen()
	b.wait.Go(func() { b.server.Run(ctx) })
	b.wait.Go(func() { _ = b.http.Serve(b.lane) }) // ends with Close
	return b
}

// close ends the school.
func (b *building) close(t *testing.T) {
	t.Helper()
	b.stop()
	if err := b.http.Close(); err != nil {
		t.Error(err)
	}
	b.wait.Wait()
	b.machine.close(t)
}

// A house is a home that shares a station.
type house struct {
	*machine
	sharer *home.Sharer
	stop   context.CancelFunc
	wait   sync.WaitGroup
}

// newHouse opens a home. Its commands are done by do.
func newHouse(t *testing.T, data, key string, doors *pipes, do func(command.Command) error) *house {
	t.Helper()
	return newHouseLogging(t, data, key, doors, do, zerolog.Nop())
}

// newHouseLogging is newHouse with a log.
func newHouseLogging(
	t *testing.T, data, key string, doors *pipes, do func(command.Command) error, log zerolog.Logger,
) *house {
	t.Helper()
	at, err := url.Parse("http://127.0.0.1")
	if err != nil {
		t.Fatal(err)
	}
	sharer, err := home.New(home.Options{
		URL:     at,
		Key:     key,
		Data:    data,
		Version: "1",
		Dial:    doors.dial,
		Do:      func(_ context.Context, c command.Command) error { return do(c) },
		Log:     log,
	}, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	h := &house{machine: newMachine(t, data, sharer), sharer: sharer}
	h.sharer.Settle()
	ctx, stop := context.WithCancel(t.Context())
	h.stop = stop
	h.wait.Go(func() { sharer.Run(ctx) })
	return h
}

// close ends the home.
func (h *house) close(t *testing.T) {
	t.Helper()
	h.stop()
	h.wait.Wait()
	h.machine.close(t)
}

// seat is where the simulator at home sends from.
var seat = netip.MustParseAddrPort("127.0.0.1:49000")

// A flight is the built-in aircraft at a station, 10 datagrams a second.
type flight struct {
	handler ingest.Handler
	pilot   *trainer.Pilot
	encoder encode.Encoder
	ahead   time.Duration // of the clock by which datagrams are received
	over    bool
}

// spacing is the time between two datagrams of a flight.
const spacing = 100 * time.Millisecond

// fly begins a flight of a number of legs.
func (m *machine) fly(t *testing.T, legs int) *flight {
	t.Helper()
	encoder, err := encode.New("json")
	if err != nil {
		t.Fatal(err)
	}
	pilot, err := trainer.New(trainer.Flight{Maneuver: "wing-over", Direction: "right", Legs: legs})
	if err != nil {
		t.Fatal(err)
	}
	f := &flight{handler: m.desk.Station(seat), pilot: pilot, encoder: encoder}
	m.desk.Attach(direct{f.handler})
	return f
}

// direct brings requests to the one station of a test, whose goroutine is that of the test.
type direct struct{ to ingest.Handler }

func (d direct) Send(_ context.Context, _ netip.AddrPort, r ingest.Request) error {
	d.to.Take(r)
	return nil
}

func (d direct) End(ctx context.Context, at netip.AddrPort, r ingest.Request) error {
	return d.Send(ctx, at, r)
}

func (d direct) Addresses() []netip.AddrPort { return nil }

// goOn flies for a time, or to the end of the flight.
func (f *flight) goOn(d time.Duration) {
	var sample stream.Sample
	for end := time.Now().Add(d); time.Now().Before(end) && !f.over; {
		f.over = !f.pilot.Step(spacing.Seconds(), &sample)
		f.handler.Datagram(f.encoder.Append(nil, &sample), time.Now().Add(f.ahead))
		f.handler.Tick(time.Now().Add(f.ahead))
		<-time.After(spacing)
	}
}

// info is what the pages of a machine show of a station.
func (m *machine) info(name string) *message.Station {
	for _, s := range m.hub.Stations() {
		if s.Name == name {
			return &s
		}
	}
	return nil
}

// damage changes a byte in the middle of a file.
func damage(t *testing.T, name string) {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil || len(text) == 0 {
		t.Fatalf("%d bytes, %v", len(text), err)
	}
	text[len(text)/2] ^= 0xff
	if err := os.WriteFile(name, text, 0o600); err != nil {
		t.Fatal(err)
	}
}
