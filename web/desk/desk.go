// Package desk runs the stations of the live server. Each sender of datagrams is at a station, and each station has one
// practice session at a time, which is coached, recorded and entered in the logbook.
//
// The desk itself brings together what the packages below do: it gives each sender its station, takes commands to
// stations and brings questions to them, and lets a restarted simulator or server go on with its session.
//
//   - menu: what can be chosen, and the plans made from it
//   - identity: which station a sender is, and what was last chosen there
//   - practice: the sessions of a station: coach, record, keep, rest, resume
//   - outlet: counts what is published, and holds back what was published before
//   - upkeep: background work on stored sessions
//
// Data runs one way: datagram → station → practice → hub, recorder and logbook. Everything done to a station, by its
// sender or by people, runs in the goroutine of that sender.
package desk

import (
	"context"
	"fmt"
	"net/netip"
	"sync"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/callout"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/session"
	"halfturn/coach/stations"
	"halfturn/stream/contain"
	"halfturn/stream/ingest"
	"halfturn/stream/pipeline"
	"halfturn/stream/quiet"
	"halfturn/web"
	"halfturn/web/desk/identity"
	"halfturn/web/desk/menu"
	"halfturn/web/desk/outlet"
	"halfturn/web/desk/practice"
	"halfturn/web/desk/upkeep"
)

// Config is what a Desk works with.
type Config struct {
	Library   *maneuver.Library
	Choice    maneuver.Choice // what a new station flies
	Deck      float64         // ft MSL, 0 is none
	Voice     callout.Options
	Station   pipeline.Options
	Named     []identity.Sender // senders that the configuration names
	Output    session.Output
	Stations  *stations.Register // known stations; nil: none are known or kept
	Version   string             // of the program
	Forget    bool               // begin with Choice, ignoring what was last chosen at a station
	Book      *archive.Archive
	Writer    *queue.Writer // enters sessions into the Book; nil: they are not entered
	Recording *Recording    // nil: nothing is recorded
	Idle      time.Duration // a session interrupted for longer ends; 0 is a minute
	Maps      string        // hash of the user's column maps, which decide how streams are read
	Metrics   *ingest.Metrics
	Log       zerolog.Logger
	Ended     func(*debrief.Report)  // called when a session ends; may be nil
	Faults    *contain.Faults        // contains those of stations; nil: they end the program
	Tap       practice.Tap           // hears what is recorded; nil: nothing does
	Reserved  func(name string) bool // names that no sender here gets; nil: none
	// Resumes is called before and after it is played what the last run left of a station; nil: nobody is.
	Resumes func(station string, on bool)
}

// Recording says how sessions are recorded and how long they are kept.
type Recording struct {
	practice.Recording
	Compress  bool              // complete files, with zstd
	Retention archive.Retention // what is kept
}

// A Desk runs stations. It implements web.Desk.
type Desk struct {
	cfg       Config
	menu      atomic.Pointer[menu.Menu] // replaced, never nil
	directory *identity.Directory
	practices practice.Common
	upkeep    *upkeep.Upkeep
	stopping  atomic.Bool
	quiet     quiet.Log // for messages that any datagram may cause
	opened    time.Time // when the desk was made

	here atomic.Pointer[netip.AddrPort] // the first address that datagrams are received at; read for each datagram

	mu      sync.Mutex
	senders Senders
	shows   Demonstrator                     // nil: none are flown
	present map[string]*station              // by name
	ended   map[string]debrief.StationReport // the latest stations that left, by name
	order   []string                         // of ended, oldest first
	failed  map[string]bool                  // names of stations that a fault ended, until they come again
	paused  map[string]*practice.Practice    // unfinished sessions of the server's last run, by station name

	resuming
}

// Senders bring requests to stations, in order with their datagrams. An ingest.Listener implements it.
type Senders interface {
	// Send delivers a request; see ingest.Listener.
	Send(ctx context.Context, address netip.AddrPort, r ingest.Request) error
	// End delivers a request that may end the sender's handler.
	End(ctx context.Context, address netip.AddrPort, r ingest.Request) error
	// Addresses lists where datagrams are received.
	Addresses() []netip.AddrPort
}

// remembered is how many stations that left can still be asked for their legs.
const remembered = 64

// New makes a desk. It fails when cards that the Config names do not exist.
func New(cfg Config, reg prometheus.Registerer) (*Desk, error) {
	if cfg.Idle <= 0 {
		cfg.Idle = time.Minute
	}
	d := &Desk{
		cfg:     cfg,
		opened:  time.Now(),
		present: map[string]*station{},
		ended:   map[string]debrief.StationReport{},
		failed:  map[string]bool{},
		paused:  map[string]*practice.Practice{},
	}
	d.awaited = map[string]int{}
	d.menu.Store(menu.New(cfg.Library, cfg.Maps))
	if err := d.check(cfg.Choice); err != nil {
		return nil, err
	}
	for i := range cfg.Named {
		if err := d.check(cfg.Named[i].Choice); err != nil {
			return nil, fmt.Errorf("station %q: %w", cfg.Named[i].Name, err)
		}
		cfg.Named[i].Student = d.spelling(context.Background(), cfg.Named[i].Student)
	}
	d.assemble()
	for _, c := range append(d.practices.Counts.Collectors(), recordedMetrics(d.Recorded)...) {
		if err := reg.Register(c); err != nil {
			return nil, fmt.Errorf("cannot register the desk's metrics: %w", err)
		}
	}
	return d, nil
}

// assemble makes the parts of the desk.
func (d *Desk) assemble() {
	cfg := &d.cfg
	d.directory = identity.New(identity.Config{
		Named:    cfg.Named,
		Other:    identity.Sender{Choice: cfg.Choice, Station: cfg.Station},
		Stations: cfg.Stations,
		Book:     cfg.Book,
		Forget:   cfg.Forget,
		Check:    d.check,
		Warn: func(err error, station, words string) {
			d.cfg.Log.Warn().Err(err).Str("station", station).Msg(words)
		},
	})
	work := upkeep.Config{Book: cfg.Book, Each: d.second, Faults: cfg.Faults, Log: cfg.Log}
	d.practices = practice.Common{
		Menu:      d.menu.Load,
		Directory: d.directory,
		Book:      cfg.Book,
		Writer:    cfg.Writer,
		Output:    cfg.Output,
		Counts:    outlet.NewCounts(),
		Deck:      cfg.Deck,
		Voice:     cfg.Voice,
		Version:   cfg.Version,
		Idle:      cfg.Idle,
		Log:       cfg.Log,
		Receiver:  d.receiver,
		Ended:     d.over,
		Tap:       cfg.Tap,
		Faults:    cfg.Faults,
		Resumes:   cfg.Resumes,
	}
	if r := cfg.Recording; r != nil {
		d.practices.Recording = &r.Recording
		work.Compress, work.Retention = r.Compress, r.Retention
	}
	d.upkeep = upkeep.New(work)
	d.practices.Complete, d.practices.Over = d.upkeep.Complete, d.upkeep.Ended
}

// check returns an error that names a card of a choice that does not exist.
func (d *Desk) check(c maneuver.Choice) error { return d.menu.Load().Check(c) }

// Start looks for the sessions that the server's last run left, has them played, and starts the background work, which
// Close ends. What comes for a station waits until its own session is played; Resumed waits for all. When ctx ends, and
// when the desk is stopping, sessions not begun yet are left to the next start.
func (d *Desk) Start(ctx context.Context, now time.Time) {
	d.resume(ctx, now)
	d.upkeep.Start()
}

// Stopping announces that the server stops: sessions that end from now on may be resumed.
func (d *Desk) Stopping() {
	d.stopping.Store(true)
	d.stopResuming()
}

// Close stops the background work, and waits for it and for what is still being kept.
func (d *Desk) Close() {
	d.stopResuming()
	d.Resumed()
	d.practices.Wait()
	d.upkeep.Close()
	d.save()
	d.quiet.Close()
}

// second is called about once a second.
func (d *Desk) second(now time.Time) {
	d.expire(now)
	d.save()
}

// save writes the ids of stations to the disk.
func (d *Desk) save() {
	if err := d.directory.Save(); err != nil {
		d.quiet.Say("stations", "", func(int) { d.cfg.Log.Warn().Err(err).Msg("it is tried again") })
	}
}

// expire ends paused sessions whose station did not come back in time.
func (d *Desk) expire(now time.Time) {
	for _, p := range d.overdue(now) {
		p.End(true)
	}
}

// overdue takes the paused sessions out that are to end, those that a fault ended among them.
func (d *Desk) overdue(now time.Time) (over []*practice.Practice) {
	d.mu.Lock()
	defer d.mu.Unlock()
	for name, p := range d.paused {
		whole := d.cfg.Faults.Run("station", name, func() { p.Tick(now) })
		if !whole {
			p.Fail()
		}
		if !whole || now.Sub(p.Last()).Abs() > d.cfg.Idle && d.awaited[name] == 0 {
			over = append(over, p)
			delete(d.paused, name)
		}
	}
	return over
}

// Attach connects the desk to the listener whose goroutines run its stations.
func (d *Desk) Attach(senders Senders) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.senders = senders
	if here := senders.Addresses(); len(here) > 0 {
		d.here.Store(&here[0])
	}
}

// receiver is the address that a sender's datagrams were sent to, as far as it is known, for the recording.
func (d *Desk) receiver(from netip.AddrPort) netip.AddrPort {
	var here netip.AddrPort
	if first := d.here.Load(); first != nil {
		here = *first
	}
	switch {
	case here.Addr().Unmap().Is4() == from.Addr().Unmap().Is4() && here.IsValid():
		return here
	case from.Addr().Unmap().Is4():
		return netip.AddrPortFrom(netip.IPv4Unspecified(), here.Port())
	}
	return netip.AddrPortFrom(netip.IPv6Unspecified(), here.Port())
}

// Station returns the handler of a new sender. It is an ingest.Factory. It waits while the session of the station that
// the server's last run left is played; nil says that the server stops before that.
func (d *Desk) Station(address netip.AddrPort) ingest.Handler {
	sender := d.directory.Of(address)
	came, played := d.await(&sender, address)
	defer came()
	if !played {
		return nil
	}
	s := &station{desk: d, address: address, ready: make(chan struct{})}
	s.hear(time.Now())
	var goesOn *practice.Practice
	if s.name, goesOn = d.claim(s, sender.Name); goesOn != nil {
		s.practice = goesOn
		s.practice.GoOn(sender, address)
		return s
	}
	s.practice = practice.New(&d.practices, s.name, sender, address)
	if d.troubled(s.name) {
		s.practice.Trouble()
	}
	return s
}

// Cards lists the cards that can be chosen.
func (d *Desk) Cards() web.Cards { return d.menu.Load().Cards() }

// Brief returns the sheet for one maneuver in one aircraft.
func (d *Desk) Brief(c maneuver.Choice) (any, error) { return d.menu.Load().Brief(c) }

// Legs returns what a station has flown so far.
func (d *Desk) Legs(ctx context.Context, station string) (any, bool) {
	var q legsQuestion
	if d.ask(ctx, station, &q) == nil {
		return q.answer, true
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	r, ok := d.ended[station]
	return r, ok
}

// Probe returns everything known of a station's stream.
func (d *Desk) Probe(ctx context.Context, station string) (any, bool) {
	var q probeQuestion
	err := d.ask(ctx, station, &q)
	return q.answer, err == nil
}

// left removes a station.
func (d *Desk) left(s *station) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.present[s.name] == s {
		delete(d.present, s.name)
	}
}

// fails notes that a fault ended a station, for the one that comes after it. The latest few are known.
func (d *Desk) fails(s *station) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.failed) >= remembered {
		clear(d.failed)
	}
	d.failed[s.name] = true
}

// troubled reports, once, whether a fault ended the station of a name.
func (d *Desk) troubled(name string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	defer delete(d.failed, name)
	return d.failed[name]
}

// over remembers what was flown in a session that ended, and passes it on.
func (d *Desk) over(station string, r *debrief.Report) {
	d.mu.Lock()
	d.remember(station, &r.Files[0].Stations[0])
	d.mu.Unlock()
	if d.cfg.Ended != nil {
		d.cfg.Ended(r)
	}
}

// remember keeps the latest report of a station. mu is held.
func (d *Desk) remember(name string, r *debrief.StationReport) {
	if _, again := d.ended[name]; !again {
		d.order = append(d.order, name)
	}
	d.ended[name] = *r
	if len(d.order) > remembered {
		delete(d.ended, d.order[0])
		d.order = d.order[1:]
	}
}
