package nats

import (
	"context"
	"errors"
	"sync"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/coach/ids"
	"halfturn/web/cluster/flow"
)

// aliases are of leases that were written again, with the fence that they had, because the stream had dropped them.
type aliases struct {
	mu sync.Mutex
	of map[string]alias // by station
}

type alias struct{ fence, sequence uint64 }

// sequence is the number of the message that holds the lease of a fence, as far as this node knows.
func (a *aliases) sequence(station string, fence uint64) uint64 {
	a.mu.Lock()
	defer a.mu.Unlock()
	if is, ok := a.of[station]; ok && is.fence == fence {
		return is.sequence
	}
	return fence
}

// set notes the number of that message.
func (a *aliases) set(station string, fence, sequence uint64) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if fence == sequence {
		delete(a.of, station)
		return
	}
	a.of[station] = alias{fence, sequence}
}

// A found lease is the last of a station.
type found struct {
	flow.Lease
	sequence uint64 // of its message; 0: there is none
	id       string // that it was written with
}

// last returns the last lease of a station, by the leader of the stream.
func (e *Engine) last(ctx context.Context, s jetstream.Stream, station string, p place) (found, error) {
	none := found{Lease: flow.Lease{Station: station}}
	m, err := s.GetLastMsgForSubject(ctx, p.lease)
	if errors.Is(err, jetstream.ErrMsgNotFound) {
		return none, nil
	}
	if err != nil {
		return none, err
	}
	l, err := e.readLease(p.stream, m.Sequence, m.Subject, m.Data)
	if err != nil { // as if it were given back: the station goes on
		l = flow.Lease{Station: station, Fence: m.Sequence}
	}
	return found{l, m.Sequence, m.Header.Get(client.MsgIdHdr)}, nil
}

// readLease reads a lease. One that cannot be read is noted.
func (e *Engine) readLease(k int, sequence uint64, subject string, text []byte) (flow.Lease, error) {
	l, err := flow.DecodeLease(text)
	if err == nil && e.set.place(l.Station).lease != subject {
		err = errors.New("it is of another station")
	}
	if err != nil {
		e.poisoned(k, sequence, subject, err)
		return flow.Lease{}, err
	}
	if l.Fence == 0 {
		l.Fence = sequence
	}
	return l, nil
}

// Claim takes the lease of a station.
func (e *Engine) Claim(ctx context.Context, after flow.Lease, session string) (flow.Lease, error) {
	return e.write(ctx, after, flow.Lease{Station: after.Station, Node: e.set.Node, Session: session})
}

// Release gives a lease back.
func (e *Engine) Release(ctx context.Context, l flow.Lease) error {
	if l.Fence == 0 {
		return e.usable(ctx)
	}
	_, err := e.write(ctx, l, flow.Lease{Station: l.Station, Session: l.Session})
	if errors.Is(err, flow.ErrTaken) {
		return nil
	}
	return err
}

// usable fails when the engine was closed or the context has ended.
func (e *Engine) usable(ctx context.Context) error {
	if e.closed.Load() {
		return flow.ErrClosed
	}
	return ctx.Err()
}

// write writes the lease of a station, if none was written since another.
func (e *Engine) write(ctx context.Context, after, l flow.Lease) (flow.Lease, error) {
	p := e.set.place(l.Station)
	id := p.token + ".lease." + ids.New(time.Now())
	text := flow.EncodeLease(l)
	expect := e.aliases.sequence(l.Station, after.Fence)
	err := e.keep(ctx, p.stream, func(ctx context.Context, s jetstream.Stream) error {
		ack, err := e.js.PublishMsg(ctx, &client.Msg{Subject: p.lease, Data: text}, jetstream.WithMsgID(id),
			jetstream.WithExpectLastSequencePerSubject(expect), jetstream.WithRetryAttempts(0))
		if err == nil && !ack.Duplicate {
			l.Fence = ack.Sequence
			return nil
		}
		if err != nil && code(err) != wrongSequence {
			return err
		}
		// It may be this one that is there, sent before by an attempt whose answer was lost.
		now, err := e.last(ctx, s, l.Station, p)
		switch {
		case err != nil:
			return err
		case now.sequence != 0 && now.id == id:
			l.Fence = now.sequence
			return nil
		case now.sequence == 0 && expect != 0:
			if err := dropped(ctx, s, expect); err != nil {
				return err
			}
		case now.sequence == expect || now.Fence != after.Fence || after.Fence == 0:
			return flow.ErrTaken
		}
		expect = now.sequence // dropped with what is too old, or written again
		return errAgain
	})
	if err != nil {
		return flow.Lease{}, err
	}
	e.aliases.set(l.Station, l.Fence, l.Fence)
	return l, nil
}

// dropped fails with ErrTaken when a message cannot have been dropped by the limits of its stream, which drop the
// oldest: then there never was such a lease. What comes before a stream that was lost and made again can have been.
func dropped(ctx context.Context, s jetstream.Stream, sequence uint64) error {
	info, err := s.Info(ctx)
	if err == nil && sequence >= info.State.FirstSeq {
		err = flow.ErrTaken
	}
	return err
}

// restate writes a lease again that the stream has dropped, with the fence that it had, unless something was kept under
// a greater one since.
func (e *Engine) restate(ctx context.Context, s jetstream.Stream, p place, l flow.Lease) error {
	if err := dropped(ctx, s, e.aliases.sequence(l.Station, l.Fence)); err != nil {
		return err
	}
	switch m, err := s.GetLastMsgForSubject(ctx, p.all()); {
	case errors.Is(err, jetstream.ErrMsgNotFound):
	case err != nil:
		return err
	default:
		if b, err := flow.DecodeBatch(m.Data); err == nil && b.Fence > l.Fence {
			return flow.ErrTaken
		}
	}
	ack, err := e.js.PublishMsg(ctx, &client.Msg{Subject: p.lease, Data: flow.EncodeLease(l)},
		jetstream.WithExpectLastSequencePerSubject(0), jetstream.WithRetryAttempts(0))
	if err != nil && code(err) != wrongSequence {
		return err
	}
	if err == nil {
		e.aliases.set(l.Station, l.Fence, ack.Sequence)
	}
	return errAgain
}

// Holder returns the last lease of a station.
func (e *Engine) Holder(ctx context.Context, station string) (l flow.Lease, err error) {
	p := e.set.place(station)
	err = e.try(ctx, p.stream, attempt, func(ctx context.Context, s jetstream.Stream) error {
		now, err := e.last(ctx, s, station, p)
		l = now.Lease
		return err
	})
	return l, err
}

// Held calls each with the last lease of every station that has one.
func (e *Engine) Held(ctx context.Context, each func(flow.Lease) error) error {
	if err := e.usable(ctx); err != nil {
		return err
	}
	n := e.set.Keeping.Streams
	all, errs := make([][]flow.Lease, n), make([]error, n)
	var tasks sync.WaitGroup
	for k := range n {
		tasks.Go(func() { all[k], errs[k] = e.heldIn(ctx, k) })
	}
	tasks.Wait()
	for k, some := range all {
		for _, l := range some {
			if err := each(l); err != nil {
				return err
			}
		}
		if errs[k] != nil {
			return errs[k]
		}
	}
	return nil
}

// heldIn lists the last leases of the stations in a stream. The leader is asked for each: what another server has may
// be old.
func (e *Engine) heldIn(ctx context.Context, k int) (all []flow.Lease, err error) {
	err = e.try(ctx, k, 0, func(ctx context.Context, s jetstream.Stream) error {
		listing, cancel := context.WithTimeout(ctx, attempt)
		defer cancel()
		info, err := s.Info(listing, jetstream.WithSubjectFilter(e.set.leases(k)))
		if err != nil {
			return err
		}
		all = all[:0]
		for subject := range info.State.Subjects {
			getting, cancel := context.WithTimeout(ctx, attempt)
			m, err := s.GetLastMsgForSubject(getting, subject)
			cancel()
			if errors.Is(err, jetstream.ErrMsgNotFound) {
				continue // dropped meanwhile
			}
			if err != nil {
				return err
			}
			if l, err := e.readLease(k, m.Sequence, m.Subject, m.Data); err == nil {
				all = append(all, l)
			}
		}
		return nil
	})
	return all, err
}
