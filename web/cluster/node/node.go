package node

import (
	"context"
	"net/netip"
	"sync"
	"sync/atomic"
	"time"

	"github.com/rs/zerolog"

	"halfturn/coach/message"
	"halfturn/coach/playback"
	"halfturn/stream/contain"
	"halfturn/stream/ingest"
	"halfturn/web"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/notes"
	"halfturn/web/cluster/presence"
	"halfturn/web/desk/practice"
	"halfturn/web/hub"
)

// Times say how soon things happen. Zero fields take the defaults.
type Times struct {
	Beat   time.Duration // between two signs of life; 250 ms
	Dead   time.Duration // without a sign of life another node takes over; 1 s
	Settle time.Duration // for others to say that they hear a station too, before it is coached; 300 ms
	Batch  time.Duration // between two batches of a station; 100 ms
	Silent time.Duration // a station is not heard any more after this; 2 s
	Idle   time.Duration // a session that nobody hears is ended after this; 1 min
	Ask    time.Duration // for another node to answer; 5 s
	Store  time.Duration // for the store to answer before a station is coached without it; 700 ms
	Keep   time.Duration // for what is done at a station to be kept, before who asked is told that it is not; 3 s
}

func (t *Times) fill() {
	for _, d := range []struct {
		set *time.Duration
		to  time.Duration
	}{
		{&t.Beat, 250 * time.Millisecond},
		{&t.Dead, time.Second},
		{&t.Settle, 300 * time.Millisecond},
		{&t.Batch, 100 * time.Millisecond},
		{&t.Silent, 2 * time.Second},
		{&t.Idle, time.Minute},
		{&t.Ask, 5 * time.Second},
		{&t.Store, 700 * time.Millisecond},
		{&t.Keep, 3 * time.Second},
	} {
		if *d.set <= 0 {
			*d.set = d.to
		}
	}
}

// still is for how long a node may stand still: after more, the others may take it for dead, whose last sign of life is
// as old as a beat already, and it them, whose signs of life wait to be read.
func (t *Times) still() time.Duration { return max(t.Dead-2*t.Beat, t.Dead/2) }

// Limits bound what waits. Zero fields take the defaults.
type Limits struct {
	Waiting int // bytes of a station that wait to be kept; 8 MB
	All     int // the same of all stations; 256 MB
	Heard   int // bytes of what another node told of a station that is heard here too; 4 MB
	Ring    int // bytes of datagrams of a station that another node coaches; 1 MB
}

func (l *Limits) fill() {
	for _, n := range []struct {
		set *int
		to  int
	}{{&l.Waiting, 8e6}, {&l.All, 256e6}, {&l.Heard, 4e6}, {&l.Ring, 1e6}} {
		if *n.set <= 0 {
			*n.set = n.to
		}
	}
}

// A Desk coaches what is heard here; see desk.Desk.
type Desk interface {
	web.Desk
	// Station returns the handler of a new sender. It is a [Coached].
	Station(address netip.AddrPort) ingest.Handler
	// NameOf returns the name that a sender gets; own says that this program itself flies.
	NameOf(address netip.AddrPort) (name string, own bool)
	// Follow begins to follow a session that another node flies.
	Follow(o playback.Opening) (Followed, error)
	// Abandon leaves a session that waits for its station to another node, and returns its id.
	Abandon(station string) (session string)
}

// Followed is a session that another node flies, as it is played here; see practice.Shadow.
type Followed interface {
	// Datagram takes the next datagram of the record; head says that it came before the first sample.
	Datagram(d *practice.Datagram, head bool)
	// Over reports whether the session is over when its station sends again at a time.
	Over(next time.Time) bool
	// GoOn goes on with the session, which waits for its station.
	GoOn(now time.Time) error
	// End ends and enters the session.
	End() error
	// Abandon ends following, and returns the id of the session.
	Abandon() (session string)
}

// Coached is the handler of a sender that is coached here.
type Coached interface {
	ingest.Handler
	ingest.Prover
	ingest.Failer
	Lost(l ingest.Loss)
	Name() string
	Session() string
	Abandon() (session string)
}

// Options say what a Node works with.
type Options struct {
	Name    string // of the node, unique in the cluster
	Flow    flow.Engine
	Hub     *hub.Hub
	Folders notes.Folders
	Data    string          // the data directory
	Linked  func() []string // stations at home that have a link here; nil: none
	Refuse  func(r ingest.Request)
	Times   Times
	Limits  Limits
	Log     zerolog.Logger
	Faults  *contain.Faults // contains those of parts; nil: they end the program
}

// A Node is one of a cluster. It is safe for concurrent use.
type Node struct {
	opt     Options
	desk    Desk
	counts  counts
	peers   *presence.Peers
	notes   *notes.Notes
	waiting atomic.Int64 // bytes of all stations that wait to be kept
	stays   sync.Map     // sessions whose folders are not swept
	life
	running
	table
}

// A life is how a node stands in time.
type life struct {
	started time.Time
	grace   atomic.Int64  // until when no station is taken over: others are to be heard first; since the node started
	alone   atomic.Bool   // no other node can be heard
	ticked  atomic.Int64  // when it was last looked what is due, since the node started
	beatNow chan struct{} // has a sign of life told soon
}

// A running is what is to be ended with a node.
type running struct {
	work  sync.WaitGroup // what is taken over, asked for and kept
	ctx   context.Context
	end   context.CancelFunc
	stops []func() // listeners
}

// A table is the stations that a node knows, and their sessions.
type table struct {
	mu       sync.Mutex
	stations map[string]*station
	sessions map[string]*station // by session, those flown here
	fences   map[string]uint64   // of these, once they have a lease
	follows  map[string]bool     // sessions of other nodes that are followed
	heard    map[*hearing]struct{}
	given    map[string]given // by station, the leases that were given back and not taken since
}

// New makes a node, which hears the others from now on. Attach must be called before stations are heard, and Run for
// the node to take part.
func New(o Options) (*Node, error) {
	o.Times.fill()
	o.Limits.fill()
	n := &Node{
		opt:   o,
		peers: presence.New(o.Times.Dead),
		notes: notes.In(o.Data, o.Folders, o.Log),
		life:  life{started: time.Now(), beatNow: make(chan struct{}, 1)},
		table: table{
			stations: map[string]*station{},
			sessions: map[string]*station{},
			fences:   map[string]uint64{},
			follows:  map[string]bool{},
			heard:    map[*hearing]struct{}{},
		},
	}
	n.listenFirst(n.started)
	n.ctx, n.end = context.WithCancel(context.Background())
	n.counts = newCounts(n)
	for topic, take := range map[flow.Topic]func(flow.Told){
		flow.Nodes:  n.takeBeat,
		flow.Events: n.takeEvent,
		flow.Frames: n.takeFrame,
	} {
		stop, err := o.Flow.Listen(topic, "", func(t flow.Told) {
			n.opt.Faults.Run("cluster", t.Node, func() { take(t) })
		})
		if err != nil {
			n.Close()
			return nil, err
		}
		n.stops = append(n.stops, stop)
	}
	return n, o.Flow.Answer(n.answer)
}

// Attach connects the node with the desk that coaches here.
func (n *Node) Attach(d Desk) { n.desk = d }

// Close ends what the node does, without a word to the others, and waits for it. The engine stays open.
func (n *Node) Close() {
	n.end()
	for _, stop := range n.stops {
		stop()
	}
	n.mu.Lock()
	all := n.stations
	n.stations = map[string]*station{}
	n.mu.Unlock()
	for _, st := range all {
		st.deafen()
	}
	n.work.Wait()
}

// Run takes part in the cluster until the context ends.
func (n *Node) Run(ctx context.Context) {
	tick := time.NewTicker(min(n.opt.Times.Beat, n.opt.Times.Batch) / 2)
	defer tick.Stop()
	orphans := time.NewTicker(max(n.opt.Times.Idle/4, n.opt.Times.Beat))
	defer orphans.Stop()
	var told time.Time
	var pace pacing
	soon := false // what is to be told soon waits for a tick
	last, away := time.Now(), false
	for {
		select {
		case <-ctx.Done():
			return
		case <-n.beatNow:
			if soon = !pace.may(time.Now(), n.opt.Times.soonest()); soon {
				continue // with a tick: a node that takes hundreds of stations over says so of many at once
			}
			told = time.Time{}
		case <-orphans.C:
			n.opt.Faults.Run("cluster", "each while", n.forget)
			n.work.Go(func() { n.opt.Faults.Run("cluster", "orphans", n.adoptOrphans) })
		case <-tick.C:
			if soon && pace.may(time.Now(), n.opt.Times.soonest()) {
				told, soon = time.Time{}, false
			}
		}
		now := time.Now()
		stood := now.Sub(last) > n.opt.Times.still()
		if stood {
			n.opt.Log.Warn().Dur("for", now.Sub(last)).Msg("this node stood still; others may have taken over from it")
			for _, st := range n.all() {
				st.doubts()
			}
		}
		n.deaf(now) // which notices when others are heard again
		if is := !n.opt.Flow.Away().IsZero(); stood || away && !is {
			n.listenFirst(now)
			away = is
		} else {
			away = is
		}
		last = now
		n.ticked.Store(int64(now.Sub(n.started))) // after standing still is noted
		n.opt.Faults.Run("cluster", "each tick", func() { n.tick(now, &told) })
	}
}

// listenFirst has the node take nothing over before the others had time to say what they hold.
func (n *Node) listenFirst(now time.Time) {
	n.grace.Store(int64(now.Sub(n.started) + n.opt.Times.Dead))
}

// gracious reports whether others are to be heard first.
func (n *Node) gracious(now time.Time) bool {
	return now.Sub(n.started) < time.Duration(n.grace.Load())
}

// deaf reports whether this node does not hear the others, or has begun to again just now: what it has not heard of
// them says nothing then, even where the store answers. It goes on with what it coaches.
func (n *Node) deaf(now time.Time) bool {
	if !n.opt.Flow.Alone().IsZero() {
		n.alone.Store(true)
		return true
	}
	if n.alone.Load() {
		n.listenFirst(now) // before anybody reads that it hears them
		n.alone.Store(false)
	}
	return n.gracious(now)
}

// tick does what is due.
func (n *Node) tick(now time.Time, told *time.Time) {
	if now.Sub(*told) >= n.opt.Times.Beat {
		*told = now
		n.beat(now)
		n.tellNodes(now)
		n.gather()
	}
	for _, h := range n.hearings() {
		n.decide(h, now)
	}
	for _, st := range n.all() {
		st.flush(now, false)
		n.handOver(st, now)
	}
}

// stir has the node say soon what it holds and hears.
func (n *Node) stir() {
	select {
	case n.beatNow <- struct{}{}:
	default:
	}
}

// station returns what is known of a station.
func (n *Node) station(name string) *station {
	n.mu.Lock()
	defer n.mu.Unlock()
	st := n.stations[name]
	if st == nil {
		st = newStation(n, name)
		n.stations[name] = st
	}
	return st
}

// known returns what is known of a station; nil is nothing.
func (n *Node) known(name string) *station {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.stations[name]
}

func (n *Node) all() []*station {
	n.mu.Lock()
	defer n.mu.Unlock()
	list := make([]*station, 0, len(n.stations))
	for _, st := range n.stations {
		list = append(list, st)
	}
	return list
}

func (n *Node) hearings() []*hearing {
	n.mu.Lock()
	defer n.mu.Unlock()
	list := make([]*hearing, 0, len(n.heard))
	for h := range n.heard {
		list = append(list, h)
	}
	return list
}

// forget drops what is known of stations that nobody shows, hears or holds any more.
func (n *Node) forget() {
	for _, st := range n.all() {
		if holder, _ := n.holder(st.name); holder != "" || n.opt.Hub.Has(st.name) || n.hearsNow(st.name) {
			continue
		}
		st.mu.Lock()
		idle := !st.coached && !st.leaving && st.deaf == nil && st.goesOn == nil && !st.asking
		st.mu.Unlock()
		if !idle || st.keeper.waits() {
			continue
		}
		n.mu.Lock()
		if st.before == "" { // else a session of it may still be entered
			delete(n.stations, st.name)
		}
		n.mu.Unlock()
	}
}

// gather shows who watches on other nodes.
func (n *Node) gather() {
	for name, w := range n.audience() {
		n.opt.Hub.Elsewhere(name, w)
	}
}

// nobody is that nobody watches.
var nobody = &message.Watching{}
