package story

import (
	"fmt"
	"testing"
	"time"
)

// A fault is something that happens to the cluster.
type fault struct {
	name  string
	begin func()
	lasts time.Duration
	end   func()
	after time.Duration // until the next one
	// gap is the longest time for which a station that several nodes hear may not be coached.
	gap time.Duration
	// apart says that two nodes may coach a station at once, each with viewers: then they number events apart, and
	// those who saw other ones are greeted again.
	apart bool
}

// A row is what came of a fault.
type row struct {
	fault
	at     time.Time
	until  time.Time
	counts counts
	moved  int // stations that another node took over
}

// quietGap is how long a coach may be silent when something else than its node dies: some samples.
const quietGap = time.Second

// deathGap is how long it may be when its node dies: a second more than the node is missed.
func deathGap() time.Duration { return *dead + time.Second }

// faults are what happens, in this order.
func (s *story) faults() (all []fault) {
	all = append(all, fault{name: "nothing", lasts: s.long(15), gap: quietGap})
	all = append(all, s.deaths()...)
	frozen, alone := s.nodes[0], s.nodes[1]
	return append(all, fault{
		name:  "node " + frozen.name + " stands still for 20 s",
		begin: frozen.freeze,
		lasts: 20 * time.Second,
		end:   frozen.thaw,
		after: s.long(20),
		gap:   deathGap(),
		apart: true,
	}, fault{
		name:  "the network between node " + alone.name + " and NATS cut",
		begin: alone.link.cut,
		lasts: s.long(12),
		end:   alone.link.mend,
		after: s.long(20),
		gap:   deathGap(),
		apart: true,
	}, fault{
		name:  "all nodes stand still for 1.3 s, five times",
		begin: s.stall,
		after: s.long(15),
		gap:   deathGap() + stallLasts,
		apart: true,
	}, fault{
		name:  "kill -9 of the S3 server",
		begin: s.store.Kill,
		lasts: s.long(10),
		end:   func() { s.store.Run(s.T) },
		after: s.long(8),
		gap:   quietGap,
	}, fault{
		name:  "PostgreSQL ended at once",
		begin: database.Stop,
		lasts: s.long(10),
		end: func() {
			if err := database.Start(); err != nil {
				s.Error(err)
			}
		},
		after: s.long(8),
		gap:   quietGap,
	})
}

// stallLasts is how long all nodes stand still: longer than a node may be silent.
const stallLasts = 1300 * time.Millisecond

// stall has all nodes stand still again and again, as on a machine that has too much to do.
func (s *story) stall() {
	for range 5 {
		for _, n := range s.nodes {
			n.freeze()
		}
		<-time.After(stallLasts)
		for _, n := range s.nodes {
			n.thaw()
		}
		<-time.After(s.long(2))
	}
}

// deaths are those of the nodes and of the NATS server that leads.
func (s *story) deaths() (all []fault) {
	for _, n := range s.nodes {
		all = append(all, fault{
			name:  "kill -9 of node " + n.name,
			begin: n.kill,
			lasts: s.long(6),
			end:   n.start,
			after: s.long(20),
			gap:   deathGap(),
		})
	}
	var leader int
	return append(all, fault{
		name:  "kill -9 of the NATS leader",
		begin: func() { leader = s.nats.Named(s.leader()); s.nats.Kill(leader) },
		lasts: s.long(12),
		end:   func() { s.nats.Restart(leader) },
		after: s.long(12),
		gap:   quietGap,
	})
}

// long is a time in seconds.
func (s *story) long(seconds int) time.Duration { return time.Duration(seconds) * time.Second }

// happen has a fault happen.
func (s *story) happen(f fault) row {
	for _, v := range s.viewers {
		v.goHome()
	}
	<-time.After(time.Second)
	before, moved := s.ledger.now(), s.takeovers()
	r := row{fault: f, at: time.Now()}
	if f.begin != nil {
		f.begin()
	}
	<-time.After(f.lasts)
	if f.end != nil {
		f.end()
	}
	<-time.After(f.after)
	r.until, r.counts, r.moved = time.Now(), s.ledger.now().minus(before), s.takeovers()-moved
	return r
}

// takeovers counts the sessions that nodes went on with, over all their lives.
func (s *story) takeovers() (n int) {
	for _, node := range s.nodes {
		n += node.said("the station is taken over from another node")
	}
	return n
}

// judge holds a row to what is promised.
func (s *story) judge(r *row) gap {
	several := func(seat *seat) bool { return seat.way != toOne }
	worst := s.ledger.worst(s.field.seats, r.at, r.until, several)
	if r.counts.differs > 0 && !r.apart {
		s.Errorf("%s: %d events differ from viewer to viewer", r.name, r.counts.differs)
	}
	if most := r.gap + s.unseen(); worst.lasts > most {
		s.Errorf("%s: station %s is not coached for %v, from %s on; must be below %v", r.name, worst.station,
			worst.lasts.Round(time.Millisecond), worst.from.Format("15:04:05.000"), most)
	}
	return worst
}

// unseen is how much longer a gap looks than it is where simulators send slowly: a coach that is there shows nothing
// until the next datagram.
func (s *story) unseen() time.Duration {
	return max(0, time.Duration(float64(time.Second)/s.field.rate)-100*time.Millisecond)
}

// tell prints what happened.
func (s *story) tell(t *testing.T, rows []row) {
	t.Helper()
	text := fmt.Sprintf("\n%-8s  %-44s %9s %9s %6s %6s %7s %6s %7s %7s", "at", "what", "gap, s", "alone, s", "moved",
		"lost", "doubled", "apart", "greeted", "events")
	for i := range rows {
		r := &rows[i]
		worst := s.judge(r)
		alone := s.ledger.worst(s.field.seats, r.at, r.until, func(seat *seat) bool { return seat.way == toOne })
		text += fmt.Sprintf("\n%-8s  %-44s %9.2f %9.2f %6d %6d %7d %6d %7d %7d", r.at.Format("15:04:05"), r.name,
			worst.lasts.Seconds(), alone.lasts.Seconds(), r.moved, r.counts.lost, r.counts.doubled, r.counts.differs,
			r.counts.greeted, r.counts.events)
	}
	t.Log(text)
}
