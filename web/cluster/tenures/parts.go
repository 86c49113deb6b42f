package tenures

import (
	"slices"

	"halfturn/web/cluster/flow"
)

// A part is what is known of one tenure: batches without a gap.
type part struct {
	opening *Opening // nil where its first batch is not known
	tenure  string   // "" likewise, unless another node carried it
	node    string
	fence   uint64 // 0 where it is not known
	at      int    // where its last batch stands among all
	gap     bool   // batches are missing, and those after them were left out
	batches []*flow.Batch
}

func (p *part) last() uint64 { return p.batches[len(p.batches)-1].Number }

// parts divides batches in their order into tenures. Batches after a gap are left out, as nothing can go on with them.
func parts(all []Told) (list []*part) {
	var p *part // of the last batch
	for i, t := range all {
		if p != nil {
			p.at = i - 1
		}
		if c := CarriedOf(t.Batch); c != nil {
			list = c.put(list)
			continue
		}
		o := OpeningOf(t.Batch)
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
				p = &part{opening: o, node: t.Node, fence: t.Batch.Fence}
				if o != nil {
					p.node, p.tenure = o.Node, o.Tenure
				}
				p.batches = append(p.batches, t.Batch)
				list = append(list, p)
				continue
			}
		}
		if p.fence == 0 {
			p.fence = t.Batch.Fence
		}
		if next := p.last() + 1; t.Batch.Number == next {
			p.batches = append(p.batches, t.Batch)
		} else if t.Batch.Number > next {
			p.gap = true
		}
	}
	if p != nil {
		p.at = len(all)
	}
	return list
}

// has reports whether a batch without an opening is of this tenure, as far as can be seen.
func (p *part) has(t Told) bool {
	if t.Node != "" {
		return t.Node == p.node
	}
	return t.Batch.Fence == p.fence
}

// going is the tenure that a batch without an opening goes on with; nil where it is none of these.
func going(list []*part, t Told) *part {
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

// gapless reports whether nothing was lost of what was told.
func gapless(told []*part) bool {
	return !slices.ContainsFunc(told, func(p *part) bool { return p.gap || p.opening == nil })
}
