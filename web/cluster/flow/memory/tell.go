package memory

import (
	"bytes"
	"context"
	"fmt"
	"slices"
	"sync/atomic"

	"halfturn/web/cluster/flow"
)

// How much waits for a listener that is slow. What comes then is lost.
const (
	mostWaiting      = 4096
	mostWaitingBytes = 8 << 20
)

// A listener calls take from its goroutine.
type listener struct {
	topic   flow.Topic
	station string
	queue   chan flow.Told
	bytes   atomic.Int64 // in the queue
	stopped chan struct{}
	done    chan struct{} // closed when take is not called any more
}

// Tell passes bytes to the nodes that listen to a topic.
func (e *Engine) Tell(topic flow.Topic, station string, b []byte) {
	if len(b) > flow.MostBytes {
		return
	}
	s := e.store
	s.mu.Lock()
	defer s.mu.Unlock()
	if e.closed || !e.isReachable() {
		return
	}
	told := flow.Told{Topic: topic, Node: e.node, Station: station, Bytes: bytes.Clone(b)}
	for _, other := range s.nodes {
		if other == e || !other.isReachable() {
			continue
		}
		for _, l := range other.listeners {
			if l.topic == topic && (l.station == "" || l.station == station) {
				l.put(told)
			}
		}
	}
}

func (l *listener) put(t flow.Told) {
	n := int64(len(t.Bytes))
	if l.bytes.Add(n) > mostWaitingBytes {
		l.bytes.Add(-n)
		return
	}
	select {
	case l.queue <- t:
	default:
		l.bytes.Add(-n)
	}
}

// Listen calls take with what other nodes tell of a topic.
func (e *Engine) Listen(topic flow.Topic, station string, take func(flow.Told)) (stop func(), err error) {
	s := e.store
	s.mu.Lock()
	defer s.mu.Unlock()
	if e.closed {
		return nil, flow.ErrClosed
	}
	l := &listener{
		topic:   topic,
		station: station,
		queue:   make(chan flow.Told, mostWaiting),
		stopped: make(chan struct{}),
		done:    make(chan struct{}),
	}
	e.listeners = append(e.listeners, l)
	e.tasks.Go(func() { l.run(take) })
	return func() { e.stop(l) }, nil
}

func (l *listener) run(take func(flow.Told)) {
	defer close(l.done)
	for {
		select {
		case <-l.stopped:
			return
		default:
		}
		select {
		case <-l.stopped:
			return
		case t := <-l.queue:
			l.bytes.Add(-int64(len(t.Bytes)))
			take(t)
		}
	}
}

// stop ends a listener, once, and waits until its take has returned.
func (e *Engine) stop(l *listener) {
	e.store.mu.Lock()
	if i := slices.Index(e.listeners, l); i >= 0 {
		e.listeners = slices.Delete(e.listeners, i, i+1)
		close(l.stopped)
	}
	e.store.mu.Unlock()
	<-l.done
}

// Answer sets what answers questions to this node.
func (e *Engine) Answer(answer func(ctx context.Context, question []byte) []byte) error {
	e.store.mu.Lock()
	defer e.store.mu.Unlock()
	if e.closed {
		return flow.ErrClosed
	}
	e.answer = answer
	return nil
}

// Ask sends a question to a node and returns its answer.
func (e *Engine) Ask(ctx context.Context, node string, question []byte) ([]byte, error) {
	if len(question) > flow.MostBytes {
		return nil, fmt.Errorf("a question to %s: %d bytes is %w", node, len(question), flow.ErrTooLong)
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	answer, asked, err := e.ask(node, question)
	if err != nil {
		return nil, err
	}
	select {
	case b := <-answer:
		if len(b) > flow.MostAnswer {
			return nil, fmt.Errorf("the answer of %s: %d bytes is %w", node, len(b), flow.ErrTooLong)
		}
		return b, nil
	case <-e.ctx.Done():
		return nil, flow.ErrClosed
	case <-asked.ctx.Done():
		return nil, flow.ErrNobody
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// ask has a node answer.
func (e *Engine) ask(node string, question []byte) (answer <-chan []byte, asked *Engine, err error) {
	s := e.store
	s.mu.Lock()
	defer s.mu.Unlock()
	if e.closed {
		return nil, nil, flow.ErrClosed
	}
	for _, other := range s.nodes {
		reachable := other == e || e.isReachable() && other.isReachable()
		if other.node != node || other.answer == nil || !reachable {
			continue
		}
		question, to, how := bytes.Clone(question), make(chan []byte, 1), other.answer
		other.tasks.Go(func() { to <- bytes.Clone(how(other.ctx, question)) })
		return to, other, nil
	}
	return nil, nil, flow.ErrNobody
}

// Close takes the node out.
func (e *Engine) Close() error {
	s := e.store
	s.mu.Lock()
	e.closed = true
	s.nodes = slices.DeleteFunc(s.nodes, func(other *Engine) bool { return other == e })
	for _, l := range e.listeners {
		close(l.stopped)
	}
	e.listeners = nil
	s.wake()
	s.mu.Unlock()
	e.end()
	e.tasks.Wait()
	return nil
}
