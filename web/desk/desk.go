// Package desk seats stations: each sender of datagrams gets a session that coaches it, and
// what was flown is kept when it ends. It is what the live server is made of, beside the
// sockets and the pages.
package desk

import (
	"context"
	"errors"
	"fmt"
	"net/netip"
	"sync"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/rs/zerolog"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/callout"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/session"
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
	Version   string // of the program
	Forget    bool   // begin with Maneuver and Aircraft, whatever was chosen at a station before
	Book      *archive.Archive
	Writer    *archive.Writer // enters what is flown into the Book; nil leaves the database alone
	Recording *Recording      // nil: nothing is recorded
	Idle      time.Duration   // a session interrupted for longer is over; 0 is a minute
	Maps      string          // stands for the user's column maps: with others, streams are read otherwise
	Metrics   *ingest.Metrics
	Log       zerolog.Logger
	Ended     func(*debrief.Report) // called with each session when it is over; may be nil
	Tap       func(session.Message) // called with every message, in the station's goroutine; may be nil
}

// A Desk seats stations. It implements web.Desk.
type Desk struct {
	cfg      Config
	cards    string // stands for all cards and maps
	stopping atomic.Bool
	house    *house
	quiet    quiet.Log // for what every datagram may cause
	opened   time.Time // when the desk was made

	legs  *prometheus.CounterVec
	calls *prometheus.CounterVec

	mu     sync.Mutex
	plans  map[[3]string]*plan.Plan // made so far, by maneuver, standard and aircraft: as many as there are cards
	doer   Doer
	seats  map[string]*seat           // by name
	ended  map[string]debrief.Station // the last few that left, by name
	order  []string                   // of ended, oldest first
	paused map[string]*sitting        // sessions that the server's last run left, by station
	here   netip.AddrPort             // where datagrams are received
}

// A Doer runs a function in the goroutine of a station, and may end its seat: an ingest.Listener.
type Doer interface {
	Do(ctx context.Context, address netip.AddrPort, f func(ingest.Seat)) error
	End(ctx context.Context, address netip.AddrPort, f func(ingest.Seat) bool) error
}

// remembered is how many stations that left can still be asked for their legs.
const remembered = 64

// New makes a desk. It fails when the cards it is to begin with do not exist.
func New(cfg Config, reg prometheus.Registerer) (*Desk, error) {
	d := &Desk{cfg: cfg, house: newHouse(), opened: time.Now(),
		plans: map[[3]string]*plan.Plan{}, seats: map[string]*seat{}, ended: map[string]debrief.Station{}, paused: map[string]*sitting{},
		legs:  prometheus.NewCounterVec(prometheus.CounterOpts{Name: "halfturn_legs_total", Help: "Legs flown, by maneuver, outcome and verdict."}, []string{"maneuver", "outcome", "verdict"}),
		calls: prometheus.NewCounterVec(prometheus.CounterOpts{Name: "halfturn_callouts_total", Help: "Callouts given, by kind."}, []string{"kind"}),
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
	for _, c := range []prometheus.Collector{d.legs, d.calls} {
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
func (d *Desk) Attach(doer Doer) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.doer = doer
	if l, ok := doer.(interface{ Addresses() []netip.AddrPort }); ok && len(l.Addresses()) > 0 {
		d.here = l.Addresses()[0]
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
func (d *Desk) Seat(address netip.AddrPort) ingest.Seat {
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

// counted counts what goes to the output.
type counted struct {
	session.Output
	desk *Desk
	past bool // what is told now was flown before this run of the server
	mute bool // what is told now was told already
	// entered tells that a maneuver was begun.
	entered bool
}

// Watched tells whether anybody looks at a station.
func (c *counted) Watched(station string) bool { return !c.mute && c.Output.Watched(station) }

func (c *counted) Event(m session.Message) {
	_, own := m.Body.(*session.Sitting)
	switch {
	case c.mute && !own:
		return
	case c.past:
		c.Output.Event(m)
		return
	}
	switch b := m.Body.(type) {
	case *coach.Phase:
		c.entered = c.entered || b.Direction != ""
	case *coach.Callout:
		c.desk.calls.WithLabelValues(b.Kind).Inc()
	case *coach.Series:
		for i := range b.Legs {
			l := &b.Legs[i]
			c.desk.legs.WithLabelValues(b.Maneuver, l.Outcome, l.Verdict).Inc()
		}
	}
	c.Output.Event(m)
	if c.desk.cfg.Tap != nil {
		c.desk.cfg.Tap(m)
	}
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

// Choose sets what a station flies from now on.
func (d *Desk) Choose(ctx context.Context, station string, c web.Choice) error {
	plan, err := d.plan(c.Maneuver, c.Standard, c.Aircraft)
	if err != nil {
		return err
	}
	auto := d.auto(c.Maneuver, c.Standard, c.Aircraft)
	if err := d.do(ctx, station, func(s *seat) {
		s.touched()
		s.choose(plan, auto)
	}); err != nil {
		return err
	}
	d.chose(station, c)
	d.cfg.Log.Info().Str("station", station).Str("maneuver", c.Maneuver).Str("aircraft", c.Aircraft).Msg("chosen")
	return nil
}

// Legs returns what a station has flown so far.
func (d *Desk) Legs(ctx context.Context, station string) (any, bool) {
	var r debrief.Station
	if d.do(ctx, station, func(s *seat) { r = s.session.Report() }) == nil {
		return r, true
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	r, ok := d.ended[station]
	return r, ok
}

// Probe returns everything known of a station's stream.
func (d *Desk) Probe(ctx context.Context, station string) (any, bool) {
	var p session.Probe
	err := d.do(ctx, station, func(s *seat) { p = s.session.Probe(Seconds(time.Now())) })
	return p, err == nil
}

// answerWait is how long a station may take to answer: it does within milliseconds, unless its disk does not.
const answerWait = 5 * time.Second

// do runs f with the seat of a station, in its goroutine. The error's words are for a user. A seat must not call it.
func (d *Desk) do(ctx context.Context, station string, f func(*seat)) error {
	d.mu.Lock()
	s := d.seats[station]
	doer := d.doer
	d.mu.Unlock()
	if s == nil || doer == nil {
		return gone(station)
	}
	ctx, cancel := context.WithTimeout(ctx, answerWait)
	defer cancel()
	in := func(s ingest.Seat) { f(s.(*seat)) }
	err := doer.Do(ctx, s.address, in)
	if errors.Is(err, ingest.ErrNoSeat) { // it may be listed before it can be called
		select {
		case <-s.ready:
			err = doer.Do(ctx, s.address, in)
		case <-ctx.Done():
			err = ctx.Err()
		}
	}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, ingest.ErrNoSeat):
		return gone(station)
	}
	return fmt.Errorf("station %q does not answer; try again", station)
}

// left notes that a station has gone, and remembers what it flew.
func (d *Desk) left(s *seat, r *debrief.Station) {
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
func (d *Desk) note(name string, r *debrief.Station) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.remember(name, r)
}

// remember keeps what a station has flown. mu is held.
func (d *Desk) remember(name string, r *debrief.Station) {
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
