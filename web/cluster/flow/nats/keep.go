package nats

import (
	"context"
	"errors"
	"fmt"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/coach/ids"
	"halfturn/web/cluster/flow"
)

// Keep adds a batch to the record of its station.
func (e *Engine) Keep(ctx context.Context, b *flow.Batch) error {
	text, err := flow.EncodeBatch(b)
	if err != nil {
		return err
	}
	if b.Fence == 0 {
		if err := e.usable(ctx); err != nil {
			return err
		}
		return flow.ErrTaken
	}
	p := e.set.place(b.Station)
	id := fmt.Sprintf("%s.%d.%d", p.token, b.Fence, b.Number)
	return e.keep(ctx, p.stream, func(ctx context.Context, s jetstream.Stream) error {
		message := &client.Msg{Subject: p.ofSession(b.Session), Data: text}
		ack, err := e.js.PublishMsg(ctx, message, jetstream.WithMsgID(id), jetstream.WithRetryAttempts(0),
			jetstream.WithExpectLastSequenceForSubject(e.aliases.sequence(b.Station, b.Fence), p.lease))
		if err == nil && !ack.Duplicate || err != nil && code(err) != wrongSequence {
			return err
		}
		there := err == nil // the server looks at ids before it looks at leases
		now, err := e.last(ctx, s, b.Station, p)
		switch {
		case err != nil:
			return err
		case now.sequence == 0:
			return e.restate(ctx, s, p, flow.Lease{
				Station: b.Station,
				Node:    e.set.Node,
				Fence:   b.Fence,
				Session: b.Session,
			})
		case now.Fence != b.Fence:
			return flow.ErrTaken
		case there:
			return nil
		}
		e.aliases.set(b.Station, b.Fence, now.sequence)
		return errAgain
	})
}

// Read calls each with the batches of a station from a session on.
func (e *Engine) Read(ctx context.Context, station, session string, each func(*flow.Batch) error) error {
	p := e.set.place(station)
	var from, to uint64
	err := e.try(ctx, p.stream, attempt, func(ctx context.Context, s jetstream.Stream) (err error) {
		from, to, err = span(ctx, s, p, session)
		return err
	})
	if err != nil || to == 0 {
		return err
	}
	var last flow.Batch // of which the fence and the number were read
	return e.try(ctx, p.stream, 0, func(ctx context.Context, s jetstream.Stream) error {
		config := jetstream.ConsumerConfig{
			FilterSubject: p.all(),
			DeliverPolicy: jetstream.DeliverByStartSequencePolicy,
			OptStartSeq:   from,
		}
		err := scan(ctx, s, config, func(m jetstream.Msg, seq uint64) error {
			if seq > to {
				return errEnd
			}
			if b := e.readBatch(p, seq, m); b != nil && later(b, &last) && b.Station == station {
				last.Fence, last.Number = b.Fence, b.Number
				if err := each(b); err != nil {
					return final{err}
				}
			}
			if from = seq + 1; from > to {
				return errEnd
			}
			return nil
		})
		if !errors.Is(err, errIdle) {
			return err
		}
		return more(ctx, s, p, from, to)
	})
}

// more answers errAgain when there are messages that were not read, by the leader of a stream: the server that sends
// them lags behind it, or the rest was dropped meanwhile.
func more(ctx context.Context, s jetstream.Stream, p place, from, to uint64) error {
	ctx, cancel := context.WithTimeout(ctx, attempt)
	defer cancel()
	m, err := s.GetMsg(ctx, from, jetstream.WithGetMsgSubject(p.all()))
	switch {
	case errors.Is(err, jetstream.ErrMsgNotFound), err == nil && m.Sequence > to:
		return nil
	case err != nil:
		return err
	}
	return errAgain
}

// later says whether a batch follows another: one that the server stored twice does not.
func later(b, than *flow.Batch) bool {
	return b.Fence > than.Fence || b.Fence == than.Fence && b.Number > than.Number
}

// readBatch reads a batch; nil is one that cannot be read.
func (e *Engine) readBatch(p place, seq uint64, m jetstream.Msg) *flow.Batch {
	b, err := flow.DecodeBatch(m.Data())
	if err == nil && e.set.place(b.Station) != p {
		err = errors.New("it is of another station")
	}
	if err != nil {
		e.poisoned(p.stream, seq, m.Subject(), err)
		return nil
	}
	return b
}

// span returns the numbers of the first message of a session and of the last of the station; 0, 0 is none.
func span(ctx context.Context, s jetstream.Stream, p place, session string) (from, to uint64, err error) {
	end, err := s.GetLastMsgForSubject(ctx, p.all())
	if errors.Is(err, jetstream.ErrMsgNotFound) {
		return 0, 0, nil
	}
	if err != nil {
		return 0, 0, err
	}
	subject := p.all()
	if session != "" {
		subject = p.ofSession(session)
	}
	begin, err := s.GetMsg(ctx, 1, jetstream.WithGetMsgSubject(subject))
	if errors.Is(err, jetstream.ErrMsgNotFound) {
		return 0, 0, nil
	}
	if err != nil {
		return 0, 0, err
	}
	return begin.Sequence, end.Sequence, nil
}

// Drop removes the batches of a station that were kept before a session began.
func (e *Engine) Drop(ctx context.Context, station, session string) error {
	p := e.set.place(station)
	return e.try(ctx, p.stream, attempt, func(ctx context.Context, s jetstream.Stream) error {
		purge := []jetstream.StreamPurgeOpt{jetstream.WithPurgeSubject(p.all())}
		if session != "" {
			from, _, err := span(ctx, s, p, session)
			if err != nil || from == 0 {
				return err
			}
			purge = append(purge, jetstream.WithPurgeSequence(from))
		}
		return s.Purge(ctx, purge...)
	})
}

// How messages are read: many at a time, and soon known when the server that sends them is gone.
const (
	mostPulled = 4000
	pullExpiry = 2 * time.Second
	heartbeat  = 500 * time.Millisecond
	idle       = time.Second      // without a message; then the leader is asked whether there are more
	forgotten  = 10 * time.Second // a consumer that is not read
)

// What ends a scan.
var (
	errEnd  = errors.New("the end")
	errIdle = errors.New("no message comes")
)

// scan calls each with messages of a stream, and their numbers, until it answers errEnd. When it fails otherwise, what
// was not read is to be read by another. A consumer is at one server, which may lag behind the leader of the stream:
// that nothing is pending there does not mean that nothing comes.
func scan(ctx context.Context, s jetstream.Stream, c jetstream.ConsumerConfig,
	each func(m jetstream.Msg, sequence uint64) error,
) error {
	c.Name = ids.New(time.Now())
	c.AckPolicy, c.MemoryStorage, c.Replicas, c.InactiveThreshold = jetstream.AckNonePolicy, true, 1, forgotten
	creating, cancel := context.WithTimeout(ctx, attempt)
	defer cancel()
	consumer, err := s.CreateConsumer(creating, c)
	if err != nil {
		return err
	}
	defer func() {
		ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), heartbeat)
		defer cancel()
		s.DeleteConsumer(ctx, c.Name) // or it is forgotten
	}()
	messages, err := consumer.Messages(jetstream.PullMaxMessages(mostPulled), jetstream.PullExpiry(pullExpiry),
		jetstream.PullHeartbeat(heartbeat), jetstream.WithMessagesErrOnMissingHeartbeat(true))
	if err != nil {
		return err
	}
	defer messages.Stop()
	for n := uint64(1); ; n++ {
		waiting, cancel := context.WithTimeout(ctx, idle)
		m, err := messages.Next(jetstream.NextContext(waiting))
		cancel()
		if errors.Is(err, context.DeadlineExceeded) && ctx.Err() == nil {
			return errIdle
		}
		if err != nil {
			return err
		}
		meta, err := m.Metadata()
		if err != nil {
			return err
		}
		if meta.Sequence.Consumer != n {
			return errors.New("messages were lost")
		}
		if err := each(m, meta.Sequence.Stream); errors.Is(err, errEnd) {
			return nil
		} else if err != nil {
			return err
		}
	}
}
