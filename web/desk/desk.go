// Package desk runs the stations of the live server. Each sender of datagrams is at a station, and each station has one
// practice session at a time, which is coached, recorded and entered in the logbook.
//
// Commands change what is flown: they reach a station in order with its datagrams, carry who asks and when, and are
// recorded. What the desk does by itself needs nobody who asks: it begins a session with the first sample, keeps legs
// in
// the logbook as they end, and ends a session after a silence or when the server stops.
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

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/brief"
	"halfturn/coach/callout"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/coach/stations"
	"halfturn/stream"
	"halfturn/stream/ingest"
	"halfturn/stream/pipeline"
	"halfturn/stream/quiet"
	"halfturn/web"
)

// Config is what a Desk works with.
type Config struct {
	Library   *maneuver.Library
	Maneuver  string // that a new station flies
	Aircraft  string
	Deck      float64 // ft MSL, 0 is none
	Voice     callout.Options
	Station   pipeline.Options
	Named     []Named // senders that the configuration names
	Output    session.Output
	Stations  *stations.Register // known stations; nil: none are known or kept
	Version   string             // of the program
	Forget    bool               // begin with Maneuver and Aircraft, ignoring what was last chosen at a station
	Book      *archive.Archive
	Writer    *queue.Writer // enters sessions into the Book; nil: they are not entered
	Recording *Recording    // nil: nothing is recorded
	Idle      time.Duration // a session interrupted for longer ends; 0 is a minute
	Maps      string        // hash of the user's column maps, which decide how streams are read
	Metrics   *ingest.Metrics
	Log       zerolog.Logger
	Ended     func(*debrief.Report) // called when a session ends; may be nil
}

// A Desk runs stations. It implements web.Desk.
type Desk struct {
	cfg      Config
	cards    string // hash of all cards and maps
	stopping atomic.Bool
	house    *house
	quiet    quiet.Log // for messages that any datagram may cause
	opened   time.Time // when the desk was made

	counts counts

	mu      sync.Mutex
	plans   map[[3]string]*plan.Plan // made so far, by maneuver, standard and aircraft; bounded by the number of cards
	senders Senders
	present map[string]*station              // by name
	ended   map[string]debrief.StationReport // the latest stations that left, by name
	order   []string                         // of ended, oldest first
	held    map[string]*practice             // by station id: a station has one session at a time
	paused  map[string]*practice             // unfinished sessions of the server's last run, by station name
	here    netip.AddrPort                   // the first address that datagrams are received at
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
	if cfg.Stations == nil {
		cfg.Stations = new(stations.Register)
	}
	d := &Desk{cfg: cfg, house: newHouse(), opened: time.Now(),
		plans: map[[3]string]*plan.Plan{}, present: map[string]*station{}, ended: map[string]debrief.StationReport{},
		paused: map[string]*practice{}, held: map[string]*practice{},
		counts: newCounts(),
	}
	d.cards = d.fingerprint()
	if _, err := d.plan(cfg.Maneuver, "", cfg.Aircraft); err != nil {
		return nil, err
	}
	for i := range cfg.Named {
		if _, err := d.plan(cfg.Named[i].Maneuver, "", cfg.Named[i].Aircraft); err != nil {
			return nil, fmt.Errorf("station %q: %w", cfg.Named[i].Name, err)
		}
		cfg.Named[i].Student = d.spelling(context.Background(), cfg.Named[i].Student)
	}
	for _, c := range d.counts.collectors() {
		if err := reg.Register(c); err != nil {
			return nil, fmt.Errorf("cannot register the desk's metrics: %w", err)
		}
	}
	return d, nil
}

// plan returns the plan of a choice. Making one takes milliseconds, so each is made once.
func (d *Desk) plan(maneuverName, standard, aircraftName string) (*plan.Plan, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if maneuverName == coach.AutoManeuver {
		maneuverName = d.cfg.Library.Distinct()[0].Name // shown until the maneuver is recognized
	}
	key := [3]string{maneuverName, standard, aircraftName}
	if p := d.plans[key]; p != nil {
		return p, nil
	}
	card, err := d.cfg.Library.Judged(maneuverName, standard)
	if err != nil {
		return nil, err
	}
	aircraft, err := d.cfg.Library.AircraftNamed(aircraftName)
	if err != nil {
		return nil, err
	}
	d.plans[key] = plan.New(card, aircraft)
	return d.plans[key], nil
}

// auto lists the plans of all cards when the maneuver is recognized automatically; nil when one is chosen.
func (d *Desk) auto(maneuverName, standard, aircraftName string) []*plan.Plan {
	if maneuverName != coach.AutoManeuver {
		return nil
	}
	var plans []*plan.Plan
	for _, c := range d.cfg.Library.Distinct() {
		p, _ := d.plan(c.Name, standard, aircraftName) // the caller has checked standard and aircraft
		plans = append(plans, p)
	}
	return plans
}

// Attach connects the desk to the listener whose goroutines run its stations.
func (d *Desk) Attach(senders Senders) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.senders = senders
	if here := senders.Addresses(); len(here) > 0 {
		d.here = here[0]
	}
}

// receiver is the address that a sender's datagrams were sent to, as far as it is known, for the recording.
func (d *Desk) receiver(from netip.AddrPort) netip.AddrPort {
	d.mu.Lock()
	here := d.here
	d.mu.Unlock()
	switch {
	case here.Addr().Unmap().Is4() == from.Addr().Unmap().Is4() && here.IsValid():
		return here
	case from.Addr().Unmap().Is4():
		return netip.AddrPortFrom(netip.IPv4Unspecified(), here.Port())
	}
	return netip.AddrPortFrom(netip.IPv6Unspecified(), here.Port())
}

// Station returns the handler of a new sender. It is an ingest.Factory.
func (d *Desk) Station(address netip.AddrPort) ingest.Handler {
	known := d.named(address)
	s := &station{address: address, known: known, ready: make(chan struct{})}
	s.hear(d, time.Now())
	name, goes := d.claim(s, known.Name)
	log := d.cfg.Log.With().Str("station", name).Logger()
	if goes == nil {
		s.practice = d.practice(name, &known, address, log)
		return s
	}
	s.practice = goes
	s.session.SetAddress(address.String())
	if s.recorder == nil && s.id != "" {
		s.record()
	}
	s.tellRecording()
	if s.id != "" {
		log.Info().Str("session", s.id).Msg("the session goes on")
	}
	return s
}

// Cards lists the cards that can be chosen.
func (d *Desk) Cards() web.Cards {
	c := web.Cards{Auto: brief.Title{Name: coach.AutoManeuver, Title: coach.AutoTitle}}
	for _, k := range d.cfg.Library.Cards() {
		c.Maneuvers = append(c.Maneuvers, brief.Title{Name: k.Name, Title: k.Title, Summary: k.Summary})
	}
	for _, k := range d.cfg.Library.Standards() {
		c.Standards = append(c.Standards, brief.Title{Name: k.Name, Title: k.Title, Summary: k.Summary})
	}
	for _, a := range d.cfg.Library.Aircraft() {
		c.Aircraft = append(c.Aircraft, brief.Title{Name: a.Name, Title: a.Title})
	}
	return c
}

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

// left removes a station, and remembers what it flew.
func (d *Desk) left(s *station, r *debrief.StationReport) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.present[s.name] == s {
		delete(d.present, s.name)
	}
	if r != nil {
		d.remember(s.name, r)
	}
}

// note remembers the report of a station that stays.
func (d *Desk) note(name string, r *debrief.StationReport) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.remember(name, r)
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

// Seconds converts a time for sessions, s.
func Seconds(t time.Time) float64 { return stream.Seconds(t) }
