package ingest

import (
	"context"
	"errors"
	"net/netip"
	"sync/atomic"
)

// A Request is a command to a station or a question about it. It enters the sender's queue, so that its order among the
// datagrams is fixed. Its meaning is known to the caller and the Handler only. It is a pointer to data that belongs to
// the handler until Send returns.
type Request interface {
	// Request marks the types that are requests.
	Request()
}

// mostRequests is how many requests may wait for one sender, beside the datagrams.
const mostRequests = 16

// Why a request is not taken.
var (
	// ErrNotThere says that a sender has no handler: it is not known, or its handler is being made or is ending.
	ErrNotThere = errors.New("the sender is not there")
	// ErrBusy says that too many requests wait for a sender already.
	ErrBusy = errors.New("the sender has too many requests waiting")
)

// A pending is a request in the queue of a sender. It is for the handler that was there when it was sent.
type pending struct {
	request Request
	life    *life
	state   atomic.Int32
	ends    bool          // the handler ends with it; valid once done is closed
	done    chan struct{} // closed when the handler has taken it
}

// The states of a pending request: it waits until the handler takes it or its sender gives it up.
const (
	pendingWaits int32 = iota
	pendingTaken
	pendingGivenUp
)

// take hands the request to the handler of a life, unless it is for another one or was given up. It reports whether the
// handler ends with it.
func (p *pending) take(l *life) (ends bool) {
	if p.life != l || !p.state.CompareAndSwap(pendingWaits, pendingTaken) {
		return false
	}
	defer close(p.done)
	p.ends = l.handler.Take(p.request)
	return p.ends
}

// wait returns when the request was taken. It waits for its turn no longer than ctx lasts; once it is being taken, it
// waits for the end of that.
func (p *pending) wait(ctx context.Context) (why error) {
	select {
	case <-p.done:
		return nil
	case <-p.life.over:
		why = ErrNotThere
	case <-ctx.Done():
		why = context.Cause(ctx)
	}
	if p.state.CompareAndSwap(pendingWaits, pendingGivenUp) {
		return why
	}
	<-p.done
	return nil
}

// queue puts a request into the queue of a sender.
func (h *senders) queue(address netip.AddrPort, r Request) (*pending, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	s := h.all[address]
	if s == nil || s.life == nil || h.closed {
		return nil, ErrNotThere
	}
	if len(s.queue) >= h.config.Queue+mostRequests {
		return nil, ErrBusy
	}
	p := &pending{request: r, life: s.life, done: make(chan struct{})}
	s.requests.Add(1)
	s.queue <- item{request: p} // mu is held, so that the room is still there
	return p, nil
}

// send has a request taken.
func (h *senders) send(ctx context.Context, address netip.AddrPort, r Request) error {
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	p, err := h.queue(address, r)
	if err != nil {
		return err
	}
	return p.wait(ctx)
}

// end has a request taken that may end the handler, and returns when the handler has ended, also of itself.
func (h *senders) end(ctx context.Context, address netip.AddrPort, r Request) error {
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	p, err := h.queue(address, r)
	if err != nil {
		return err
	}
	err = p.wait(ctx)
	if err == nil && !p.ends || err != nil && !errors.Is(err, ErrNotThere) {
		return err
	}
	select {
	case <-p.life.ended:
		return err
	case <-ctx.Done():
		return context.Cause(ctx)
	}
}
