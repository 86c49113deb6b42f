package node

import (
	"encoding/json"
	"slices"

	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// What a node told last before it died may never have been kept. The node that goes on from there keeps it itself, at
// the beginning of its own tenure: else who reads the record later would find a gap where the two meet.

// A carried batch is one of another tenure that may not have been kept.
type carried struct {
	at    point
	batch *flow.Batch
	size  int
}

// A recent list is the batches of a session that may not have been kept, oldest first, up to a number of bytes.
type recent struct {
	list []carried
	size int
}

// add adds a batch that was told.
func (r *recent) add(at point, b *flow.Batch, most int) {
	c := carried{at, b, b.Size()}
	r.list = append(r.list, c)
	r.size += c.size
	n := 0
	for r.size > most && n < len(r.list) {
		r.size -= r.list[n].size
		n++
	}
	r.list = r.list[n:]
}

// drop drops what is known to be kept: all up to a batch, which is kept.
func (r *recent) drop(kept *point) {
	if kept == nil {
		return
	}
	n := slices.IndexFunc(r.list, func(c carried) bool { return c.at.Tenure == kept.Tenure })
	if n < 0 {
		return
	}
	for n < len(r.list) && r.list[n].at.Tenure == kept.Tenure && r.list[n].at.Number <= kept.Number {
		n++
	}
	for i := range n {
		r.size -= r.list[i].size
	}
	r.list = slices.Clone(r.list[n:])
}

// carries is how a carried batch begins, in place of an opening.
type carries struct {
	Of *point `json:"of"`
}

// carry is a batch of another tenure as one of this one.
func (c *carried) carry(number uint64) *flow.Batch {
	head, _ := json.Marshal(carries{&c.at}) // cannot fail
	b := *c.batch
	b.Fence, b.Number = 0, number
	b.Events = slices.Clone(b.Events)
	for i := range b.Events { // in the record the ids are enough
		b.Events[i].Body = nil
	}
	b.Records = append([]link.Record{{Type: link.RecordOpening, Bytes: head}}, c.batch.Records...)
	return &b
}

// carriedOf is the batch of another tenure that a batch carries; nil when it carries none.
func carriedOf(b *flow.Batch) *carried {
	if len(b.Records) == 0 || b.Records[0].Type != link.RecordOpening {
		return nil
	}
	var c carries
	if json.Unmarshal(b.Records[0].Bytes, &c) != nil || c.Of == nil {
		return nil
	}
	of := *b
	of.Fence, of.Number, of.Records = 0, c.Of.Number, b.Records[1:]
	return &carried{at: *c.Of, batch: &of}
}

// put puts a carried batch where it belongs in a record: behind those of its tenure, or as the first of them.
func (c *carried) put(list []*part) []*part {
	for _, p := range list {
		if p.tenure != c.at.Tenure {
			continue
		}
		if c.at.Number == p.last()+1 {
			p.batches = append(p.batches, c.batch)
		}
		return list
	}
	return append(list, &part{opening: openingOf(c.batch), tenure: c.at.Tenure, batches: []*flow.Batch{c.batch}})
}
