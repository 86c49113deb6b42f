package node

import (
	"context"
	"encoding/json"
	"slices"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// A heardRecord is what other nodes told of the record of a station, in the order in which it came: all of the session
// under way, or the latest of it.
type heardRecord struct {
	batches []told
	size    int
}

// A told is a batch, and the node that told it.
type told struct {
	node  string
	batch *flow.Batch
	size  int
}

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
	st.deaf, st.heard = stop, &heardRecord{}
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
	before := decoded(st.name, node, a.Batches)
	st.mu.Lock()
	if st.heard != nil {
		st.heard.batches = append(before, st.heard.batches...)
		for i := range before {
			st.heard.size += before[i].size
		}
	}
	st.mu.Unlock()
}

// decoded is batches of a station that a node sent, up to one that cannot be read.
func decoded(station, node string, batches [][]byte) (list []told) {
	for _, data := range batches {
		b, err := flow.DecodeBatch(data)
		if err != nil || b.Station != station {
			break
		}
		list = append(list, told{node, b, len(data)})
	}
	return list
}

// fill puts batches that were missing where they belong: behind those that the node told before them.
func (r *heardRecord) fill(missing []told) {
	for _, t := range missing {
		for i, x := range slices.Backward(r.batches) {
			if x.node != t.node {
				continue
			}
			if x.batch.Number < t.batch.Number {
				r.batches, r.size = slices.Insert(r.batches, i+1, t), r.size+t.size
				break
			}
			if x.batch.Number == t.batch.Number || openingOf(x.batch) != nil { // it is there, or of another tenure
				break
			}
		}
	}
}

// waitingBatches are those that the store has not kept yet, as they were told; behind one of them, unless that is nil.
func (k *keeper) waitingBatches(after *point) (list [][]byte) {
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
		st.heard.add(told{t.Node, b, len(t.Bytes)}, st.node.opt.Limits.Heard)
	}
	st.mu.Unlock()
	if listens {
		st.follow(t.Node, b)
	}
}

// add adds a batch. What is of another session is not needed any more, and nothing is past the limit.
func (r *heardRecord) add(t told, most int) {
	if len(r.batches) > 0 && r.batches[len(r.batches)-1].batch.Session != t.batch.Session {
		r.batches, r.size = nil, 0
	}
	r.batches = append(r.batches, t)
	r.size += t.size
	n := 0
	for r.size > most && n < len(r.batches)-1 {
		r.size -= r.batches[n].size
		r.batches[n] = told{}
		n++
	}
	r.batches = r.batches[n:]
}

// A part is what is known of one tenure: batches without a gap.
type part struct {
	opening *opening // nil where its first batch is not known
	tenure  string   // "" likewise, unless another node carried it
	node    string
	fence   uint64 // 0 where it is not known
	at      int    // where its last batch stands among all
	gap     bool   // batches are missing, and those after them were left out
	batches []*flow.Batch
}

func (p *part) last() uint64 { return p.batches[len(p.batches)-1].Number }

// openingOf is the opening that a batch begins with; nil when it begins otherwise.
func openingOf(b *flow.Batch) *opening {
	if len(b.Records) == 0 || b.Records[0].Type != link.RecordOpening {
		return nil
	}
	o := new(opening)
	if json.Unmarshal(b.Records[0].Bytes, o) != nil || o.Tenure == "" {
		return nil
	}
	return o
}

// parts divides batches in their order into tenures. Batches after a gap are left out, as nothing can go on with them.
func parts(all []told) (list []*part) {
	var p *part // of the last batch
	for i, t := range all {
		if p != nil {
			p.at = i - 1
		}
		if c := carriedOf(t.batch); c != nil {
			list = c.put(list)
			continue
		}
		o := openingOf(t.batch)
		if o != nil {
			if i := slices.IndexFunc(list, func(p *part) bool { return p.tenure == o.Tenure }); i >= 0 {
				p = list[i] // told again, from its beginning
				continue
			}
		}
		if o != nil || p == nil || !p.has(t) {
			if p = nil; o == nil { // of two nodes that coached at once, one goes on
				p = going(list, t)
			}
			if p == nil {
				p = &part{opening: o, node: t.node, fence: t.batch.Fence}
				if o != nil {
					p.node, p.tenure = o.Node, o.Tenure
				}
				p.batches = append(p.batches, t.batch)
				list = append(list, p)
				continue
			}
		}
		if p.fence == 0 {
			p.fence = t.batch.Fence
		}
		if next := p.last() + 1; t.batch.Number == next {
			p.batches = append(p.batches, t.batch)
		} else if t.batch.Number > next {
			p.gap = true
		}
	}
	if p != nil {
		p.at = len(all)
	}
	return list
}

// has reports whether a batch without an opening is of this tenure, as far as can be seen.
func (p *part) has(t told) bool {
	if t.node != "" {
		return t.node == p.node
	}
	return t.batch.Fence == p.fence
}

// going is the tenure that a batch without an opening goes on with; nil where it is none of these.
func going(list []*part, t told) *part {
	for _, p := range slices.Backward(list) {
		if p.has(t) {
			return p
		}
	}
	return nil
}

// joined adds what was told to what is kept: batches that are not kept yet, and whole tenures.
func joined(kept, heard []*part) []*part {
	told := 0
	for _, p := range kept {
		told = max(told, p.at)
	}
	at := len(kept) // where a tenure belongs that is not among those that are kept
	for _, h := range heard {
		p := h.among(kept)
		switch {
		case p != nil:
			at = slices.Index(kept, p) + 1
			p.at = told + h.at
			for _, b := range h.batches {
				if b.Number == p.last()+1 {
					p.batches = append(p.batches, b)
				}
			}
		case h.opening != nil:
			h.at += told
			kept = slices.Insert(kept, at, h)
			at++
		}
	}
	return kept
}

// among finds the same tenure.
func (p *part) among(list []*part) *part {
	for i := len(list) - 1; i >= 0; i-- {
		x := list[i]
		switch {
		case p.tenure != "" && x.tenure != "":
			if p.tenure == x.tenure {
				return x
			}
		case p.fence != 0 && x.fence != 0:
			if p.fence == x.fence {
				return x
			}
		case p.node == x.node:
			return x
		}
	}
	return nil
}

// recordOf collects the record of a session: what was told where that is all of it, and else what is kept, and what was
// told after that.
func (n *Node) recordOf(ctx context.Context, st *station, session string) (*flight, error) {
	st.mu.Lock()
	var heard []told
	if st.heard != nil {
		heard = append(heard, st.heard.batches...)
	}
	st.mu.Unlock()
	var ours []told
	for _, t := range heard {
		if t.batch.Session == session {
			ours = append(ours, t)
		}
	}
	told := parts(ours)
	whole, rest := (*flight)(nil), parts(ours)
	if len(told) > 0 && told[0].opening != nil && told[0].opening.After == nil && told[0].batches[0].Number == 1 {
		whole, _ = flown(told) // else it is read
	}
	if whole != nil && gapless(told) {
		return whole, nil
	}
	kept, err := n.read(ctx, st.name, session)
	switch {
	case err != nil && whole != nil: // what was told before something was lost, rather than nothing
		return whole, nil
	case err != nil:
		return nil, err
	}
	stored := parts(kept)
	var last *point
	if n := len(stored); n > 0 && stored[n-1].opening != nil {
		last = &point{stored[n-1].opening.Tenure, stored[n-1].last()}
	}
	f, err := flown(joined(stored, rest))
	if err == nil {
		f.kept = last
	}
	return f, err
}

// gapless reports whether nothing was lost of what was told.
func gapless(told []*part) bool {
	return !slices.ContainsFunc(told, func(p *part) bool { return p.gap || p.opening == nil })
}

// readWait is how long the record of a session may take to be read.
const readWait = 10 * time.Second

// read reads what is kept of a session.
func (n *Node) read(ctx context.Context, station, session string) (all []told, err error) {
	if !n.opt.Flow.Away().IsZero() {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, n.opt.Times.Store)
		defer cancel()
	}
	err = n.opt.Flow.Read(ctx, station, session, func(b *flow.Batch) error {
		if b.Session == session {
			all = append(all, told{batch: b})
		}
		return nil
	})
	return all, err
}
