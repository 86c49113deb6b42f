package node

import (
	"context"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/tenures"
)

// listen hears the record of a station that another node coaches, from now on. What that node has told before and the
// store has not kept yet is asked for.
func (st *station) listen(node string) {
	st.mu.Lock()
	listens := st.deaf != nil
	st.mu.Unlock()
	if listens {
		return
	}
	stop, err := st.node.opt.Flow.Listen(flow.Live, st.name, st.hear)
	if err != nil {
		return // the engine was closed
	}
	st.mu.Lock()
	defer st.mu.Unlock()
	st.deaf, st.heard = stop, &tenures.Heard{}
	st.node.work.Go(func() {
		st.node.opt.Faults.Run("cluster", st.name, func() { st.hearBefore(node) })
	})
}

// hearBefore asks a node for the batches that wait to be kept.
func (st *station) hearBefore(node string) {
	a, err := st.node.question(st.node.ctx, node, &question{Kind: askRecord, Station: st.name})
	if err != nil {
		return // the store has them, once it answers
	}
	before := tenures.Decode(st.name, node, a.Batches)
	st.mu.Lock()
	if st.heard != nil {
		st.heard.Before(before)
	}
	st.mu.Unlock()
}

// waitingBatches are those that the store has not kept yet, as they were told; behind one of them, unless that is nil.
func (k *keeper) waitingBatches(after *tenures.Point) (list [][]byte) {
	k.mu.Lock()
	defer k.mu.Unlock()
	size := 0
	for _, s := range k.steps {
		known := after != nil && s.of != nil && s.of.id == after.Tenure && s.batch.Number <= after.Number
		if s.batch == nil || known || size+s.size > flow.MostAnswer/2 {
			continue
		}
		if data, err := flow.EncodeBatch(s.batch); err == nil {
			list = append(list, data)
			size += s.size
		}
	}
	return list
}

// hear takes a batch that another node told.
func (st *station) hear(t flow.Told) {
	b, err := flow.DecodeBatch(t.Bytes)
	if err != nil || b.Station != st.name {
		return
	}
	st.mu.Lock()
	listens := st.heard != nil
	if listens {
		st.heard.Add(tenures.Told{Node: t.Node, Batch: b, Size: len(t.Bytes)}, st.node.opt.Limits.Heard)
	}
	st.mu.Unlock()
	if listens {
		st.follow(t.Node, b)
	}
}

// recordOf collects the record of a session: what was told where that is all of it, and else what is kept, and what was
// told after that.
func (n *Node) recordOf(ctx context.Context, st *station, session string) (*tenures.Flight, error) {
	st.mu.Lock()
	var heard []tenures.Told
	if st.heard != nil {
		heard = st.heard.Of(session)
	}
	st.mu.Unlock()
	told, all := tenures.Whole(heard)
	if all {
		return told, nil
	}
	kept, err := n.read(ctx, st.name, session)
	switch {
	case err != nil && told != nil: // what was told before something was lost, rather than nothing
		return told, nil
	case err != nil:
		return nil, err
	}
	return tenures.Join(kept, heard)
}

// readWait is how long the record of a session may take to be read.
const readWait = 10 * time.Second

// read reads what is kept of a session.
func (n *Node) read(ctx context.Context, station, session string) (all []tenures.Told, err error) {
	if !n.opt.Flow.Away().IsZero() {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, n.opt.Times.Store)
		defer cancel()
	}
	err = n.opt.Flow.Read(ctx, station, session, func(b *flow.Batch) error {
		if b.Session == session {
			all = append(all, tenures.Told{Batch: b})
		}
		return nil
	})
	return all, err
}
