package nats

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"time"

	client "github.com/nats-io/nats.go"

	"halfturn/web/cluster/flow"
)

// Answers come in pieces: a byte that says what follows, the number of the piece, and its bytes. One can be lost when
// a connection is.
const (
	pieceBytes = 512 << 10
	pieceHead  = 2
	lastPiece  = 0
	morePieces = 1
	tooLong    = 2
)

// Questions have a first byte too.
const (
	isThere  = 0 // whether a node of that name is there
	question = 1
)

// mostAnswers are prepared at a time.
const mostAnswers = 64

// How long a node may take to say that it is there, and how often one that prepares an answer is asked.
const (
	thereFor   = 300 * time.Millisecond
	thereEvery = time.Second
)

// Answer sets what answers questions to this node. It fails when another node of the same name answers.
func (e *Engine) Answer(answer func(ctx context.Context, question []byte) []byte) error {
	if e.closed.Load() {
		return flow.ErrClosed
	}
	ctx, cancel := context.WithTimeout(e.ctx, thereFor)
	defer cancel()
	if _, err := e.request(ctx, e.set.Node, []byte{isThere}); err == nil {
		return e.sameName()
	}
	free := make(chan struct{}, mostAnswers)
	sub, err := e.core.Subscribe(e.set.ask(e.set.Node), func(m *client.Msg) {
		select {
		case free <- struct{}{}:
		case <-e.ctx.Done():
			return
		}
		e.ears.mu.Lock()
		defer e.ears.mu.Unlock()
		if e.closed.Load() {
			return
		}
		e.tasks.Go(func() {
			defer func() { <-free }()
			e.respond(m, answer)
		})
	})
	if err != nil {
		return fmt.Errorf("questions cannot be answered at NATS (%s): %w", e.at(), err)
	}
	if !e.ears.add(&ear{sub: sub}) {
		return flow.ErrClosed
	}
	e.ears.mu.Lock()
	e.ears.answer = answer
	e.ears.mu.Unlock()
	if e.core.IsConnected() {
		e.core.FlushTimeout(attempt)
	}
	return nil
}

// respond answers a question.
func (e *Engine) respond(m *client.Msg, answer func(ctx context.Context, question []byte) []byte) {
	if len(m.Data) == 0 || m.Data[0] != question {
		m.Respond([]byte{lastPiece, 0})
		return
	}
	b := answer(e.ctx, m.Data[1:])
	if len(b) > flow.MostAnswer {
		m.Respond([]byte{tooLong, 0})
		return
	}
	for n := byte(0); ; n++ {
		piece, what := b, byte(lastPiece)
		if len(b) > pieceBytes {
			piece, what = b[:pieceBytes], morePieces
		}
		if err := m.Respond(append([]byte{what, n}, piece...)); err != nil || what == lastPiece {
			return // after an error the asker's time ends, or a later piece shows that this one is missing
		}
		b = b[pieceBytes:]
	}
}

// Ask sends a question to a node and returns its answer.
func (e *Engine) Ask(ctx context.Context, node string, words []byte) ([]byte, error) {
	if err := e.usable(ctx); err != nil {
		return nil, err
	}
	if len(words) > flow.MostBytes {
		return nil, fmt.Errorf("a question to %s: %d bytes is %w", node, len(words), flow.ErrTooLong)
	}
	if node == e.set.Node {
		return e.askSelf(ctx, bytes.Clone(words))
	}
	return e.request(ctx, node, append([]byte{question}, words...))
}

// askSelf has this node answer: the connection does not return what it sends.
func (e *Engine) askSelf(ctx context.Context, words []byte) ([]byte, error) {
	to := make(chan []byte, 1)
	e.ears.mu.Lock()
	answer := e.ears.answer
	if answer != nil && !e.closed.Load() {
		e.tasks.Go(func() { to <- answer(e.ctx, words) })
	}
	e.ears.mu.Unlock()
	if answer == nil {
		return nil, flow.ErrNobody
	}
	select {
	case b := <-to:
		if len(b) > flow.MostAnswer {
			return nil, fmt.Errorf("the answer of %s: %w", e.set.Node, flow.ErrTooLong)
		}
		return b, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-e.ctx.Done():
		return nil, flow.ErrClosed
	}
}

// request sends a question and puts the pieces of its answer together.
func (e *Engine) request(ctx context.Context, node string, text []byte) ([]byte, error) {
	inbox := e.core.NewRespInbox()
	sub, err := e.core.SubscribeSync(inbox)
	if err != nil {
		return nil, e.unanswered(ctx, err)
	}
	defer sub.Unsubscribe()
	if err := e.core.PublishRequest(e.set.ask(node), inbox, text); err != nil {
		return nil, e.unanswered(ctx, err)
	}
	var all []byte
	for n := byte(0); ; {
		waiting, cancel := context.WithTimeout(ctx, thereEvery)
		m, err := sub.NextMsgWithContext(waiting)
		cancel()
		if errors.Is(err, context.DeadlineExceeded) && ctx.Err() == nil {
			if err = e.there(ctx, node, text); err == nil {
				continue
			}
		}
		if err != nil {
			return nil, e.unanswered(ctx, err)
		}
		switch {
		case len(m.Data) < pieceHead || m.Data[1] != n:
			return nil, fmt.Errorf("%w: a piece of the answer of %s was lost", flow.ErrNobody, node)
		case m.Data[0] == tooLong || len(all)+len(m.Data) > flow.MostAnswer+pieceHead:
			return nil, fmt.Errorf("the answer of %s: %w", node, flow.ErrTooLong)
		}
		n++
		if all = append(all, m.Data[pieceHead:]...); m.Data[0] == lastPiece {
			return all, nil
		}
	}
}

// there asks a node that takes long to answer whether it is there at all: it may have been killed meanwhile. It fails
// when it is not; one that does not answer may be frozen, and go on.
func (e *Engine) there(ctx context.Context, node string, asked []byte) error {
	if asked[0] == isThere {
		return nil
	}
	ctx, cancel := context.WithTimeout(ctx, thereEvery)
	defer cancel()
	if _, err := e.request(ctx, node, []byte{isThere}); errors.Is(err, flow.ErrNobody) {
		return client.ErrNoResponders
	}
	return nil
}

// unanswered says why no answer came.
func (e *Engine) unanswered(ctx context.Context, err error) error {
	switch {
	case e.closed.Load(), errors.Is(err, client.ErrConnectionClosed):
		return flow.ErrClosed
	case ctx.Err() != nil:
		return ctx.Err()
	}
	return fmt.Errorf("%w (%w)", flow.ErrNobody, err)
}
