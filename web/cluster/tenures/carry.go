package tenures

import (
	"encoding/json"
	"slices"

	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// What a node told last before it died may never have been kept. The node that goes on from there keeps it itself, at
// the beginning of its own tenure: else who reads the record later would find a gap where the two meet.

// A Carried batch is one of another tenure that may not have been kept.
type Carried struct {
	At    Point
	Batch *flow.Batch
	size  int
}

// A Recent list is the batches of a session that may not have been kept, oldest first, up to a number of bytes.
type Recent struct {
	list []Carried
	size int
}

// Add adds a batch that was told; no more bytes than most are held.
func (r *Recent) Add(at Point, b *flow.Batch, most int) {
	c := Carried{at, b, b.Size()}
	r.list = append(r.list, c)
	r.size += c.size
	n := 0
	for r.size > most && n < len(r.list) {
		r.size -= r.list[n].size
		n++
	}
	r.list = r.list[n:]
}

// Drop drops what is known to be kept: all up to a batch, which is kept.
func (r *Recent) Drop(kept *Point) {
	if kept == nil {
		return
	}
	n := slices.IndexFunc(r.list, func(c Carried) bool { return c.At.Tenure == kept.Tenure })
	if n < 0 {
		return
	}
	for n < len(r.list) && r.list[n].At.Tenure == kept.Tenure && r.list[n].At.Number <= kept.Number {
		n++
	}
	for i := range n {
		r.size -= r.list[i].size
	}
	r.list = slices.Clone(r.list[n:])
}

// List is what may not be kept.
func (r *Recent) List() []Carried { return r.list }

// carries is how a carried batch begins, in place of an opening.
type carries struct {
	Of *Point `json:"of"`
}

// Carry is a batch of another tenure as one of this one.
func (c *Carried) Carry(number uint64) *flow.Batch {
	head, _ := json.Marshal(carries{&c.At}) // cannot fail
	b := *c.Batch
	b.Fence, b.Number = 0, number
	b.Events = slices.Clone(b.Events)
	for i := range b.Events { // in the record the ids are enough
		b.Events[i].Body = nil
	}
	b.Records = append([]link.Record{{Type: link.RecordOpening, Bytes: head}}, c.Batch.Records...)
	return &b
}

// CarriedOf is the batch of another tenure that a batch carries; nil when it carries none.
func CarriedOf(b *flow.Batch) *Carried {
	if len(b.Records) == 0 || b.Records[0].Type != link.RecordOpening {
		return nil
	}
	var c carries
	if json.Unmarshal(b.Records[0].Bytes, &c) != nil || c.Of == nil {
		return nil
	}
	of := *b
	of.Fence, of.Number, of.Records = 0, c.Of.Number, b.Records[1:]
	return &Carried{At: *c.Of, Batch: &of}
}

// put puts a carried batch where it belongs in a record: behind those of its tenure, or as the first of them.
func (c *Carried) put(list []*part) []*part {
	for _, p := range list {
		if p.tenure != c.At.Tenure {
			continue
		}
		if c.At.Number == p.last()+1 {
			p.batches = append(p.batches, c.Batch)
		}
		return list
	}
	return append(list, &part{opening: OpeningOf(c.Batch), tenure: c.At.Tenure, batches: []*flow.Batch{c.Batch}})
}
