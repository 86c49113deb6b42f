package node

import (
	"context"
	"errors"
	"sync"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// A keeper keeps the record of a station: one step after another, each until it is done. It runs while there are steps.
type keeper struct {
	st *station

	mu      sync.Mutex
	steps   []*step
	size    int // bytes of the batches that wait
	running bool
	lossy   *tenure // of which batches were dropped: the rest of it would not be read
}

// A step is one thing to be done with the store.
type step struct {
	claim   *tenure       // the lease for a session
	batch   *flow.Batch   // is to be kept
	of      *tenure       // that the batch is of
	kept    tenures.Point // what is kept with the batch: of another tenure where it is carried
	size    int
	over    string // the session that was entered: nothing is under way
	release func() // gives the lease back, and calls this
}

// Times of a keeper.
const (
	storeWait = 5 * time.Second // for one answer
	firstWait = 50 * time.Millisecond
	longWait  = time.Second // between two attempts
)

func newKeeper(st *station) *keeper { return &keeper{st: st} }

// put adds a step. A batch that would be too much is dropped, and the rest of its tenure with it; the lock of the
// station is held where there is one.
func (k *keeper) put(s *step) {
	n := k.st.node
	k.mu.Lock()
	defer k.mu.Unlock()
	if s.batch != nil {
		full := k.size+s.size > n.opt.Limits.Waiting || n.waiting.Load()+int64(s.size) > int64(n.opt.Limits.All)
		if full && k.lossy != s.of {
			n.opt.Log.Error().Str("station", k.st.name).Str("session", s.batch.Session).
				Msg("the store of the cluster does not answer, and too much waits: another node cannot go on with " +
					"this session from here on; it is recorded here")
			k.lossy = s.of
		}
		if k.lossy == s.of {
			s.of.dropped = true
			n.counts.dropped.Inc()
			return
		}
		k.size += s.size
		n.waiting.Add(int64(s.size))
	}
	k.steps = append(k.steps, s)
	if !k.running && n.ctx.Err() == nil {
		k.running = true
		n.work.Go(k.run)
	}
}

// clear drops all steps: another node holds the station.
func (k *keeper) clear() {
	k.st.mu.Lock()
	defer k.st.mu.Unlock()
	k.mu.Lock()
	defer k.mu.Unlock()
	for _, s := range k.steps {
		if s.of != nil {
			s.of.dropped = true
		}
		if s.release != nil {
			s.release()
		}
	}
	k.steps = nil
	k.st.node.waiting.Add(-int64(k.size))
	k.size = 0
}

func (k *keeper) run() {
	n := k.st.node
	wait := firstWait
	for {
		k.mu.Lock()
		if len(k.steps) == 0 || n.ctx.Err() != nil {
			k.running = false
			k.mu.Unlock()
			return
		}
		s := k.steps[0]
		k.mu.Unlock()
		err := error(errFault)
		n.opt.Faults.Run("cluster", k.st.name, func() { err = k.do(s) })
		switch {
		case err == nil:
			wait = firstWait
			k.done(s, true)
		case errors.Is(err, flow.ErrTaken):
			k.refused()
			pause(n.ctx, firstWait)
		case errors.Is(err, flow.ErrTooLong):
			n.opt.Log.Error().Err(err).Str("station", k.st.name).Msg("a batch is not kept")
			k.st.mu.Lock()
			s.of.dropped = true
			k.st.mu.Unlock()
			k.done(s, false)
		default:
			pause(n.ctx, wait)
			wait = min(2*wait, longWait)
		}
	}
}

var errFault = errors.New("a fault in the program")

// pause waits, unless the context ends.
func pause(ctx context.Context, d time.Duration) {
	select {
	case <-ctx.Done():
	case <-time.After(d):
	}
}

// done takes the first step out, unless all were dropped meanwhile; kept says that its batch is kept.
func (k *keeper) done(s *step, kept bool) {
	k.mu.Lock()
	if len(k.steps) > 0 && k.steps[0] == s {
		k.steps[0] = nil
		k.steps = k.steps[1:]
		k.size -= s.size
		k.st.node.waiting.Add(-int64(s.size))
	}
	k.mu.Unlock()
	if s.batch != nil && kept {
		k.st.noteKept(s)
	}
	if s.release != nil {
		s.release()
	}
}

// do does one step.
func (k *keeper) do(s *step) error {
	ctx, cancel := context.WithTimeout(k.st.node.ctx, storeWait)
	defer cancel()
	switch {
	case s.batch != nil:
		k.st.mu.Lock()
		fence := k.st.fence(s.of)
		k.st.mu.Unlock()
		k.mu.Lock() // another node may be told of what waits
		s.batch.Fence = fence
		k.mu.Unlock()
		err := k.st.node.opt.Flow.Keep(ctx, s.batch)
		if err == nil {
			k.st.mu.Lock()
			k.st.doubt = false
			k.st.mu.Unlock()
		}
		return err
	case s.claim != nil:
		return k.claim(ctx, s.claim.session)
	case s.over != "":
		k.st.mu.Lock()
		ours, session := k.st.lease.Node == k.st.node.opt.Name, k.st.lease.Session
		k.st.mu.Unlock()
		if !ours || session != s.over { // the next one is under way
			return nil
		}
		return k.claim(ctx, "")
	case s.release != nil:
		k.st.mu.Lock()
		l := k.st.lease
		k.st.mu.Unlock()
		if l.Node != k.st.node.opt.Name {
			return nil
		}
		return k.st.node.opt.Flow.Release(ctx, l)
	}
	return nil
}

// claim takes the lease for a session, after the one that is known. Where none was read yet, it is read first: it is
// that of the node that this one took over from, or a node that holds the station now has it.
func (k *keeper) claim(ctx context.Context, session string) error {
	n, st := k.st.node, k.st
	if n.deaf(time.Now()) { // who holds the station is to be heard first
		return flow.ErrAway
	}
	st.mu.Lock()
	after, known := st.lease, st.known
	st.mu.Unlock()
	if !known {
		began, away := time.Now(), !n.opt.Flow.Away().IsZero()
		last, err := n.opt.Flow.Holder(ctx, st.name)
		if err != nil {
			return err
		}
		if away || time.Since(began) > n.opt.Times.Dead { // the store is back, and so may be the others
			n.listenFirst(time.Now())
			return flow.ErrAway
		}
		if other := n.peers.Living(last.Node); other != nil && other.Holds[st.name].Station != "" {
			return flow.ErrTaken
		}
		after = last
	}
	after.Station = st.name
	ctx, cancel := context.WithTimeout(ctx, n.opt.Times.Store) // once the store is back, the others are heard first
	defer cancel()
	l, err := n.opt.Flow.Claim(ctx, after, session)
	if errors.Is(err, flow.ErrTaken) {
		last, asked := n.opt.Flow.Holder(ctx, st.name)
		if asked != nil {
			return asked
		}
		last.Station = st.name
		switch ours := last.Node == n.opt.Name && last.Fence > after.Fence; {
		case ours && last.Session == session: // an attempt before was answered by nobody, and is there
			l, err = last, nil
		case ours, last.Node == "" && last.Session == after.Session: // it was given back meanwhile
			l, err = n.opt.Flow.Claim(ctx, last, session)
		}
	}
	if err != nil {
		return err
	}
	st.mu.Lock()
	if was := &st.lease; was.Node == n.opt.Name && was.Session != session { // nobody has taken that over
		st.finishes(was.Session, was.Fence)
	}
	st.lease, st.known, st.doubt = l, true, false
	st.mu.Unlock()
	n.fenced(session, l.Fence)
	n.notes.Fly(st.name, session, l.Fence)
	n.stir()
	return nil
}
