package live

import (
	"context"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/archive"
	"halfturn/coach/archive/depot"
	"halfturn/web/cluster/spool"
	"halfturn/web/desk"
	"halfturn/web/desk/practice"
)

// A Depot says where the session folders of a cluster are kept.
type Depot struct {
	In   depot.Depot
	Node string // the name of this server there
	// Fence says under which fence this server holds a session, or held it when it flew it; false: it does not, or not
	// yet. Nil: as the node of a cluster says, and 0 for all on a single server.
	Fence func(session string) (fence uint64, ok bool)
	Evict archive.Eviction // how much of what is in the depot stays here
}

// leaveWait is how long a server that stops goes on storing what waits. The rest is stored by its next run.
const leaveWait = 5 * time.Second

// openDepot makes what stores recordings in the depot, where there is one, and returns what the archive needs to know.
func (s *Server) openDepot() archive.Depot {
	d := s.options.Depot
	if d == nil {
		return archive.Depot{}
	}
	fence := d.Fence
	if fence == nil && s.options.Cluster != nil {
		fence = s.fence
	}
	s.spool = spool.New(spool.Options{
		Fence:    fence,
		Compress: func() bool { return s.config().Recording.Compress },
		Evict:    d.Evict,
		Log:      s.log,
		Faults:   s.faults,
	})
	return s.spool.Depot(d.In, d.Node)
}

// tapDepot has the spool hear what is recorded.
func (s *Server) tapDepot(o *desk.Config, reg prometheus.Registerer) error {
	if s.spool == nil {
		return nil
	}
	o.Tap = practice.Taps(o.Tap, s.spool)
	for _, c := range s.spool.Collectors() {
		if err := reg.Register(c); err != nil {
			return err
		}
	}
	return nil
}

// startDepot begins to store, first what an earlier run left, once that is repaired: what is cut off of a recording
// must not be stored.
func (s *Server) startDepot() {
	s.stopDepot = func() {}
	if s.spool == nil {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	done := make(chan struct{})
	go func() {
		defer close(done)
		s.desk.Resumed()
		s.spool.Run(ctx, s.book)
	}()
	s.stopDepot = func() {
		s.spool.Quiet(leaveWait)
		stop()
		<-done
	}
}
