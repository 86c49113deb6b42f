package live

import (
	"context"
	"errors"
	"net/netip"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/archive/queue"
	"halfturn/coach/playback"
	"halfturn/stream/ingest"
	"halfturn/stream/phrase"
	"halfturn/web"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/node"
	"halfturn/web/desk"
	"halfturn/web/desk/practice"
	"halfturn/web/hub"
	"halfturn/web/share/school"
)

// Cluster says how a server is one node of several.
type Cluster struct {
	Name   string // of the node
	Flow   flow.Engine
	Times  node.Times
	Limits node.Limits
}

// settleWait is how long the store may take to say which sessions of the last run other nodes have taken over.
const settleWait = 3 * time.Second

// joinCluster makes the node, where there is a cluster.
func (s *Server) joinCluster(hub *hub.Hub, o *desk.Config, reg *prometheus.Registry) (err error) {
	c := s.options.Cluster
	if c == nil {
		return nil
	}
	s.node, err = node.New(node.Options{
		Name:    c.Name,
		Flow:    c.Flow,
		Hub:     hub,
		Folders: s.book.Folders(),
		Data:    s.options.Config.Data,
		Linked:  func() []string { return s.school.Linked() },
		Refuse:  desk.Refuse,
		Times:   c.Times,
		Limits:  c.Limits,
		Log:     s.log,
		Faults:  s.faults,
	})
	if err != nil {
		return err
	}
	o.Output = s.node.Output(o.Output)
	o.Tap = practice.Taps(o.Tap, s.node.Tap())
	o.Resumes = s.node.Resumes
	reg.MustRegister(s.node.Collectors()...)
	s.writer.Gate(s.mayEnter)
	return nil
}

// mayEnter lets nothing into the logbook of a session that another node has taken over.
func (s *Server) mayEnter(session string) (fence uint64, err error) {
	fence, err = s.node.MayEnter(session)
	if errors.Is(err, flow.ErrTaken) {
		return 0, queue.ErrNotOurs
	}
	return fence, err
}

// fence says under which fence the folder of a session may be stored.
func (s *Server) fence(session string) (fence uint64, ok bool) {
	if s.node == nil { // not yet
		return 0, false
	}
	return s.node.Fence(session)
}

// startDesk has resumed what the last run left: in a cluster what no other node has taken over.
func (s *Server) startDesk(ctx context.Context) {
	if s.node != nil {
		s.node.Attach(clusterDesk{school.Desk{Desk: s.desk, Server: s.school}, s.desk})
		wait, cancel := context.WithTimeout(ctx, settleWait)
		s.node.Settle(wait)
		cancel()
	}
	s.desk.Start(ctx, time.Now())
	if s.home != nil { // it says what it has of each session, which must be repaired by then
		s.desk.Resumed()
	}
}

// heard is what takes new senders.
func (s *Server) heard() ingest.Factory {
	if s.node != nil {
		return s.node.Station
	}
	return s.desk.Station
}

// shown is the desk that the pages ask.
func (s *Server) shown() web.Desk {
	here := school.Desk{Desk: s.desk, Server: s.school}
	if s.node != nil {
		return s.node.Wrap(here)
	}
	return here
}

// lacking says what is given up now, and what waits.
func (s *Server) lacking() []phrase.Phrase {
	list := append(s.overload.Lacking(), s.writer.Lacking(time.Now())...)
	if s.node != nil {
		list = append(list, s.node.Lacking(time.Now())...)
	}
	if s.spool != nil {
		list = append(list, s.spool.Lacking()...)
	}
	return list
}

// leaveCluster lets go of the cluster once the stations have ended.
func (s *Server) leaveCluster() {
	if s.node == nil {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), settleWait)
	defer cancel()
	s.node.Leave(ctx)
}

// A clusterDesk is what coaches on this node: the desk, and the stations at home that have a link here.
type clusterDesk struct {
	school.Desk
	desk *desk.Desk
}

// Station implements node.Desk.
func (c clusterDesk) Station(address netip.AddrPort) ingest.Handler { return c.desk.Station(address) }

// NameOf implements node.Desk.
func (c clusterDesk) NameOf(address netip.AddrPort) (name string, own bool) {
	return c.desk.NameOf(address)
}

// Follow implements node.Desk.
func (c clusterDesk) Follow(o playback.Opening) (node.Followed, error) {
	s, err := c.desk.Follow(o)
	if err != nil {
		return nil, err
	}
	return followed{s, c.desk}, nil
}

// A followed session waits for its station at the desk once it goes on here.
type followed struct {
	*practice.Shadow
	desk *desk.Desk
}

// GoOn implements node.Followed.
func (f followed) GoOn(now time.Time) error { return f.desk.GoOn(f.Shadow, now) }

// Abandon implements node.Desk.
func (c clusterDesk) Abandon(station string) (session string) { return c.desk.Abandon(station) }
