package story

import (
	"context"
	"flag"
	"fmt"
	"math"
	"net"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/coach/logbook/postgres/pgtest"
	"halfturn/engines/natsserver"
	"halfturn/engines/s3"
)

var (
	stations = flag.Int("stations", 0, "how many simulators fly; 0 tells no story")
	rate     = flag.Float64("rate", 10, "datagrams a second of each")
	viewers  = flag.Int("viewers", 60, "how many pages look on")
	dead     = flag.Duration("dead", time.Second, "without a sign of life for this long, a node is taken for dead")
	only     = flag.String("faults", "", "a regular expression of what happens; empty: everything")
	logs     = flag.String("logs", "", "a folder that the logs of the nodes are left in")
	profile  = flag.String("profile", "", "a file that says what a node computes while all fly and nothing happens")
)

const (
	root     = "../../.."
	bucket   = "ours"
	airplane = "radial-trainer"
	idle     = 25 * time.Second // after which a session ends
	streams  = 4
	group    = "239.255.71.82"
)

// database is the PostgreSQL of the nodes.
var database *pgtest.Cluster

func TestMain(m *testing.M) {
	natsserver.Main()
	os.Exit(pgtest.Main(m, func(c *pgtest.Cluster) { database = c }))
}

// A story is one run of the test.
type story struct {
	*testing.T
	program string
	config  string
	nats    *natsserver.Processes
	store   *s3.Server
	dsn     string

	nodes       []*node
	field       field
	ledger      *ledger
	viewers     []*viewer
	instructors []*instructor
}

// TestStory has everything happen to a cluster; see the documentation of the package.
func TestStory(t *testing.T) {
	switch {
	case *stations == 0:
		t.Skip("tells a story only when it is told how many stations; see make test-cluster")
	case runtime.GOOS != "linux":
		t.Skip("each station has an address of its own in 127.0.0.0/8, which other systems have not")
	}
	s := &story{T: t, ledger: newLedger()}
	s.engines()
	s.seats()
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var all, flying sync.WaitGroup
	s.look(ctx, &all)
	flying.Go(func() { s.field.run(ctx) })
	<-time.After(s.long(45)) // until all fly
	if *profile != "" {
		s.write(*profile, s.nodes[0].computes())
	}
	commanding, quiet := context.WithCancel(ctx)
	var people sync.WaitGroup
	for _, i := range s.instructors {
		people.Go(func() { i.act(commanding) })
	}
	var rows []row
	some := regexp.MustCompile(*only)
	for _, f := range s.faults() {
		if !some.MatchString(f.name) {
			continue
		}
		t.Log(time.Now().Format("15:04:05"), f.name)
		rows = append(rows, s.happen(f))
	}
	quiet()
	people.Wait()
	s.field.closing.Store(true)
	flying.Wait()
	s.settle()
	stop()
	all.Wait()
	s.lookBack(rows)
}

// engines starts what the nodes need, and the nodes.
func (s *story) engines() {
	s.nats = natsserver.Start(s.T, 3)
	s.store = s3.Start(s.T)
	s.dsn = database.New(s.T)
	s.program = build(s.T)
	config := fmt.Sprintf("max-stations = %d\nmaneuver = 'wing-over'\naircraft = '%s'\nsession-idle = '%v'\n"+
		"subscribe.nearby = false\nlog.format = 'json'\n", *stations+20, airplane, idle)
	var servers []string
	for _, u := range s.nats.URLs() {
		servers = append(servers, strings.TrimPrefix(u, "nats://"))
	}
	port := freeUDP(s.T).Port
	for _, name := range []string{"a", "b", "c"} {
		l := newLink(s.T, servers)
		file := filepath.Join(s.TempDir(), "cluster.toml")
		n := newNode(s.T, s.program, name, config, "--cluster", file, "--udp", fmt.Sprintf("%s:%d", group, port))
		n.link = l
		s.describe(n, file)
		s.nodes = append(s.nodes, n)
	}
	s.config = filepath.Join(s.nodes[0].dir, "halfturn.toml")
	s.field.rate = *rate
	s.field.flights = flights(s.T, *rate)
	s.group(port)
	for i, n := range s.nodes {
		if n.start(); i == 0 {
			n.serves() // one of them makes the tables
		}
	}
	for _, n := range s.nodes {
		n.serves()
	}
}

// describe writes the file by which a node joins the cluster.
func (s *story) describe(n *node, file string) {
	for name, text := range map[string]string{"dsn": s.dsn, "key": s3.Key, "secret": s3.Secret} {
		s.write(filepath.Join(n.dir, name), text)
	}
	s.write(file, fmt.Sprintf(`cluster = "test"
node = %q

[nats]
urls = ["%s"]
streams = %d
replicas = 3

[postgres]
dsn-file = "%[5]s/dsn"

[s3]
endpoint = "http://%[4]s"
bucket = "%[6]s"
access-key-file = "%[5]s/key"
secret-key-file = "%[5]s/secret"

[times]
dead = "%[7]v"
`, n.name, strings.Join(n.link.urls, `", "`), streams, s.store.Address, n.dir, bucket, *dead))
}

func (s *story) write(name, text string) {
	s.Helper()
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		s.Fatal(err)
	}
}

// group notes where the multicast group of the nodes is.
func (s *story) group(port int) {
	s.field.group = &net.UDPAddr{IP: net.ParseIP(group), Port: port}
}

// ways are what simulators do, in turn: two nodes most of them.
var ways = []way{toTwo, toAll, toTwo, toGroup, toTwo, toOne}

// seats makes the simulators.
func (s *story) seats() {
	for i := range *stations {
		seat := newSeat(s.T, i, ways[i%len(ways)])
		first := (i / len(ways)) % len(s.nodes)
		many := map[way]int{toTwo: 2, toAll: len(s.nodes), toOne: 1}[seat.way]
		for k := range many {
			seat.to = append(seat.to, s.nodes[(first+i+k)%len(s.nodes)].udp)
		}
		if seat.way == toGroup {
			if err := throughLoopback(seat.conn); err != nil {
				s.Fatal(err)
			}
			seat.to = []*net.UDPAddr{s.field.group}
		}
		seat.idle = int(math.Round(*rate * 30 * float64(i) / float64(*stations))) // they do not begin at once
		s.field.seats = append(s.field.seats, seat)
	}
}

// look has viewers look on.
func (s *story) look(ctx context.Context, all *sync.WaitGroup) {
	for i := range *viewers { // two and two look at the same station, each at another node
		seat := s.field.seats[i/2%len(s.field.seats)]
		home := (i/2 + i%2) % len(s.nodes)
		v := &viewer{number: i, station: seat.name, nodes: s.nodes, home: home, at: home, patient: i%4 == 3,
			ledger: s.ledger}
		s.viewers = append(s.viewers, v)
		all.Go(func() { v.watch(ctx) })
	}
	for _, name := range []string{"Instructor One", "Instructor Two"} {
		s.instructors = append(s.instructors, &instructor{name: name, nodes: s.nodes, seats: s.field.seats})
	}
}

// leader is the NATS server that leads most streams.
func (s *story) leader() string {
	s.Helper()
	c, err := nats.Connect(strings.Join(s.nats.URLs(), ","))
	if err != nil {
		s.Fatal(err)
	}
	defer c.Close()
	js, err := jetstream.New(c)
	if err != nil {
		s.Fatal(err)
	}
	leads, most := map[string]int{}, ""
	for k := range streams {
		stream, err := js.Stream(s.Context(), fmt.Sprintf("halfturn-st-%02x", k))
		if err != nil {
			s.Fatal(err)
		}
		name := stream.CachedInfo().Cluster.Leader
		if leads[name]++; leads[name] > leads[most] {
			most = name
		}
	}
	return most
}

// settle waits until all that was flown is in the logbook and in the depot.
func (s *story) settle() {
	s.Helper()
	want := 0
	for _, seat := range s.field.seats {
		want += len(seat.history())
	}
	var last string
	defer func() { s.Log(last) }()
	for late := time.Now().Add(settleWait); ; <-time.After(time.Second) {
		done := true
		last = fmt.Sprintf("%d flights;", want)
		for _, n := range s.nodes {
			m := n.metrics()
			waits := m["halfturn_cluster_waiting_bytes"] + m["halfturn_depot_waiting_sessions"]
			holds := m["halfturn_cluster_stations"]
			list, err := listOf(s.Context(), n, "?limit=200")
			total := -1
			if err == nil {
				total = list.Total
				for i := range list.Sessions {
					done = done && list.Sessions[i].Ended != ""
				}
			}
			done = done && total >= want && waits == 0 && holds == 0
			last += fmt.Sprintf(" %s: %d sessions, %v stations, %v waits;", n.name, total, holds, waits)
		}
		if done {
			return
		}
		if time.Now().After(late) {
			s.Errorf("not all is kept after %v", settleWait)
			return
		}
	}
}

// settleWait is how long the nodes have to keep what was flown last.
const settleWait = 90 * time.Second

// lookBack tells what came of it all, and checks it.
func (s *story) lookBack(rows []row) {
	s.Helper()
	s.tell(s.T, rows)
	all := s.collect()
	sessions, legs, missing := s.compare(all)
	s.regrade(all)
	s.once(all)
	s.obeyed(all)
	c := s.ledger.now()
	s.Logf("%d stations at %g a second, %d viewers: %d datagrams sent, at most %v late; %d sessions with %d legs; "+
		"%d datagrams of stations that send to one node were lost with it", len(s.field.seats), *rate, len(s.viewers),
		s.field.sent, s.field.late.Round(time.Millisecond), sessions, legs, missing)
	s.Logf("events: %d, lost %d, doubled %d, differing %d; viewers resumed %d times, greeted again %d times", c.events,
		c.lost, c.doubled, c.differs, c.resumed, c.greeted)
	if c.lost+c.doubled > 0 {
		s.Error("viewers did not get every event once")
	}
	s.Logf("what viewers noticed first:\n%s", strings.Join(s.ledger.trouble, "\n"))
	if sessions == 0 || legs == 0 || c.events == 0 {
		s.Error("nothing was flown")
	}
}
