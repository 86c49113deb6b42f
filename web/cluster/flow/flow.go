// Package flow is what moves between the nodes of a cluster while stations fly: the record of each station, the lease
// that says which node coaches it, what viewers are shown at once, and questions from node to node.
//
// Two ways lead from a node to the others:
//
//   - The record of a station is kept: batches in one order, each written under a lease. A batch holds what was
//     recorded (openings, datagrams, commands, the end of a session) and the events that the coach made of it. The
//     store refuses a batch of a node whose lease was taken over.
//   - What is told reaches whoever listens at the moment, and nobody later: batches before they are kept, events,
//     frames, the presence of nodes.
//
// Coaching needs neither. A node coaches what it hears, so that a cluster whose store is away, or elects a leader,
// still coaches: batches wait and are kept later, in their order and once, because a batch has a number.
//
// The memory engine joins nodes of one process; package nats joins machines. [halfturn/web/cluster/flow/flowtest] is
// the contract of both: each sentence below is one of its tests.
package flow

import (
	"context"
	"errors"
	"time"

	"halfturn/web/share/link"
)

// What an engine answers.
var (
	// ErrTaken says that another node holds the lease, or took it meanwhile. It is final for that lease.
	ErrTaken = errors.New("another node holds the station")
	// ErrAway says that the store does not answer: nothing is known of what was asked for. To be tried again.
	ErrAway = errors.New("the store does not answer")
	// ErrNobody says that no node answered.
	ErrNobody = errors.New("no node answers")
	// ErrClosed says that the engine was closed.
	ErrClosed = errors.New("this node has left the cluster")
)

// A Lease says which node coaches a station. The fence grows with each lease of a station; 0 is none yet.
type Lease struct {
	Station string
	Node    string // that holds it; "" when it was released
	Fence   uint64
	Session string // under way when it was taken or renewed; "" at rest
}

// A Batch is a piece of the record of a station.
type Batch struct {
	Station string
	Fence   uint64 // of the lease it is written under
	Number  uint64 // from 1 under each lease, without gaps
	Session string // that the records belong to
	Records []link.Record
	Events  []Event
}

// An Event is a message to viewers.
type Event struct {
	ID   string // the same for the same event, whichever node's coach made it
	Seq  uint64 // number among the events of the run
	Run  string // numbering: differs after each takeover
	Body []byte // message.Message as JSON
}

// A Topic is a kind of what is told.
type Topic string

// The topics.
const (
	Live   Topic = "live"   // an encoded Batch, before it is kept
	Events Topic = "events" // an encoded Event
	Frames Topic = "frames" // a frame as the pages get it
	Nodes  Topic = "nodes"  // that a node is there, and what it holds; about twice a second
)

// Told is what was told.
type Told struct {
	Topic   Topic
	Node    string // that told it
	Station string // that it is about; "" is none
	Bytes   []byte // valid during the call
}

// An Engine connects one node with the others. It is safe for concurrent use.
//
// What needs the store waits while it does not answer, and fails with ErrAway and the context's error when the context
// ends: a deadline says how long.
type Engine interface {
	// Claim takes the lease of a station. After is the lease as this node knows it: the claim fails with ErrTaken where
	// another was written since. The fence of the lease returned is greater than that of all before it. A holder that
	// claims after its own lease renews it: nothing is kept any more under the one before.
	Claim(ctx context.Context, after Lease, session string) (Lease, error)
	// Release gives a lease back, with its session: whoever claims after it needs not wait. A lease that was taken over
	// stays as it is, which is no error.
	Release(ctx context.Context, l Lease) error
	// Holder returns the last lease of a station that was written; its fence is 0 when there was none.
	Holder(ctx context.Context, station string) (Lease, error)
	// Held calls each with the last lease of every station that has one.
	Held(ctx context.Context, each func(Lease) error) error

	// Keep adds a batch to the record of its station, and returns when it is there to stay. The same batch again is
	// kept once. It fails with ErrTaken when the fence is not that of the last lease, whether or not the batch is
	// there, and with ErrTooLong. Batches of one station are kept one at a time, in the order of their numbers.
	Keep(ctx context.Context, b *Batch) error
	// Read calls each with the batches of a station in the order in which they were kept, from the first of a session
	// on ("": from the oldest), to the last that was kept when it was called. It reads none when nothing was kept of
	// the session. The error of each ends it, and is returned.
	Read(ctx context.Context, station, session string, each func(*Batch) error) error
	// Drop removes the batches of a station that were kept before the first of a session ("": all), none when nothing
	// was kept of the session. The engine may also remove those that are older than its limit.
	Drop(ctx context.Context, station, session string) error

	// Tell passes bytes to the nodes that listen to a topic, this one not among them. It does not wait and does not
	// fail: what nobody hears, and what cannot be sent, is gone. The bytes are the caller's again when it returns.
	Tell(topic Topic, station string, b []byte)
	// Listen calls take with what other nodes tell of a topic, about one station ("": all), in the order of each node,
	// until stop is called. Take is called from one goroutine, which is not that of another Listen; one that is too
	// slow loses what comes, and keeps nobody else waiting. Stop waits until take has returned: take does not call it.
	Listen(topic Topic, station string, take func(Told)) (stop func(), err error)
	// Ask sends a question to a node and returns its answer; ErrNobody when that node is not there. A question of more
	// than MostBytes fails with ErrTooLong; an answer may have MostAnswer.
	Ask(ctx context.Context, node string, question []byte) ([]byte, error)
	// Answer sets what answers questions to this node. It is called once; answer runs in goroutines of the engine,
	// several at a time, with a context that ends with the engine.
	Answer(answer func(ctx context.Context, question []byte) []byte) error

	// Away says since when the store does not answer; zero while it does.
	Away() time.Time
	// Alone says since when this node can tell the others nothing, nor hear them; zero while it can. The store may
	// answer all the same.
	Alone() time.Time
	// Close lets go of everything, and waits until no take and no answer runs; leases stay as they are. What was told
	// before is passed on first, unless that takes long. What is called afterwards fails with ErrClosed.
	Close() error
}

// Clocks is what an engine also is whose nodes have clocks of their own.
type Clocks interface {
	// Apart returns the node whose clock differs most from this one's, and by how much it is ahead; "" and 0 while none
	// is known. Nodes are known by what they tell on the topic Nodes.
	Apart() (node string, ahead time.Duration)
}
