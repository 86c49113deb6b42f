// Package desk seats stations: each sender of datagrams gets a session that coaches it, and
// what was flown is kept when it ends. It is what the live server is made of, beside the
// sockets and the pages.
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
	Maneuver  string // what a new station flies
	Aircraft  string
	Deck      float64 // ft MSL, 0 is none
	Voice     callout.Options
	Station   pipeline.Options
	Named     []Named // senders known beforehand
	Output    session.Output
	Stations  *stations.Register // who is known; nil knows nobody, and keeps nobody
	Version   string             // of the program
	Forget    bool               // begin with Maneuver and Aircraft, whatever was chosen at a station before
	Book      *archive.Archive
	Writer    *queue.Writer // enters what is flown into the Book; nil leaves the database alone
	Recording *Recording    // nil: nothing is recorded
	Idle      time.Duration // a session interrupted for longer is over; 0 is a minute
	Maps      string        // stands for the user's column maps: with others, streams are read otherwise
	Metrics   *ingest.Metrics
	Log       zerolog.Logger
	Ended     func(*debrief.Report) // called with each session when it is over; may be nil
}

// A Desk seats stations. It implements web.Desk.
type Desk struct {
	cfg      Config
	cards    string // stands for all cards and maps
	stopping atomic.Bool
	house    *house
	quiet    quiet.Log // for what every datagram may cause
	opened   time.Time // when the desk was made

	counts counts

	mu      sync.Mutex
	plans   map[[3]string]*plan.Plan // made so far, by maneuver, standard and aircraft: as many as there are cards
	senders Senders
	seats   map[string]*seat                 // by name
	ended   map[string]debrief.StationReport // the last few that left, by name
	order   []string                         // of ended, oldest first
	held    map[string]*sitting              // by the id of the station, which has one session at a time
	paused  map[string]*sitting              // sessions that the server's last run left, by station
	here    netip.AddrPort                   // where datagrams are received
}

// Senders bring requests to the seats of senders, in order with their datagrams: an ingest.Listener.
type Senders interface {
	// Send has a request taken; see ingest.Listener.
	Send(ctx context.Context, address netip.AddrPort, r ingest.Request) error
	// End is Send for a request with which the seat may end.
	End(ctx context.Context, address netip.AddrPort, r ingest.Request) error
	// Addresses lists where datagrams are received.
	Addresses() []netip.AddrPort
}

// remembered is how many stations that left can still be asked for their legs.
const remembered = 64

// New makes a desk. It fails when the cards it is to begin with do not exist.
func New(cfg Config, reg prometheus.Registerer) (*Desk, error) {
	if cfg.Stations == nil {
		cfg.Stations = new(stations.Register)
	}
	d := &Desk{cfg: cfg, house: newHouse(), opened: time.Now(),
		plans: map[[3]string]*plan.Plan{}, seats: map[string]*seat{}, ended: map[string]debrief.StationReport{}, paused: map[string]*sitting{}, held: map[string]*sitting{},
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

// plan returns what a maneuver and an aircraft predict together. Working it out takes
// milliseconds, so each is made once.
func (d *Desk) plan(maneuverName, standard, aircraftName string) (*plan.Plan, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if maneuverName == coach.AutoManeuver {
		maneuverName = d.cfg.Library.Distinct()[0].Name // shown until something was flown
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

// auto lists the plans of all cards, among which the maneuver is found; nil when one is chosen.
func (d *Desk) auto(maneuverName, standard, aircraftName string) []*plan.Plan {
	if maneuverName != coach.AutoManeuver {
		return nil
	}
	var plans []*plan.Plan
	for _, c := range d.cfg.Library.Distinct() {
		p, _ := d.plan(c.Name, standard, aircraftName) // whoever asks made sure of standard and aircraft
		plans = append(plans, p)
	}
	return plans
}

// Attach tells the desk in whose goroutines its seats live.
func (d *Desk) Attach(senders Senders) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.senders = senders
	if here := senders.Addresses(); len(here) > 0 {
		d.here = here[0]
	}
}

// receiver is where a sender's datagrams go to, as far as it is known: the first address listened on.
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

// Seat makes the seat of a sender: an ingest.Factory.
func (d *Desk) Seat(address netip.AddrPort) ingest.Handler {
	known := d.named(address)
	s := &seat{address: address, known: known, ready: make(chan struct{})}
	s.hear(d, time.Now())
	name, goes := d.claim(s, known.Name)
	log := d.cfg.Log.With().Str("station", name).Logger()
	if goes == nil {
		s.sitting = d.sit(name, &known, address, log)
		return s
	}
	s.sitting = goes
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

// Cards lists what can be chosen.
func (d *Desk) Cards() web.Cards {
	c := web.Cards{Auto: web.Card{Name: coach.AutoManeuver, Title: coach.AutoTitle}}
	for _, k := range d.cfg.Library.Cards() {
		c.Maneuvers = append(c.Maneuvers, web.Card{Name: k.Name, Title: k.Title, Summary: k.Summary})
	}
	for _, k := range d.cfg.Library.Standards() {
		c.Standards = append(c.Standards, web.Card{Name: k.Name, Title: k.Title, Summary: k.Summary})
	}
	for _, a := range d.cfg.Library.Aircraft() {
		c.Aircraft = append(c.Aircraft, web.Card{Name: a.Name, Title: a.Title})
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

// left notes that a station has gone, and remembers what it flew.
func (d *Desk) left(s *seat, r *debrief.StationReport) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.seats[s.name] == s {
		delete(d.seats, s.name)
	}
	if r != nil {
		d.remember(s.name, r)
	}
}

// note remembers what a station that stays has flown.
func (d *Desk) note(name string, r *debrief.StationReport) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.remember(name, r)
}

// remember keeps what a station has flown. mu is held.
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

// Seconds is a time as sessions take it.
func Seconds(t time.Time) float64 { return stream.Seconds(t) }
