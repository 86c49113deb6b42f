package tenures

import (
	"slices"

	"halfturn/web/cluster/flow"
)

// A Heard is what other nodes told of the record of a station, in the order in which it came: all of the session
// under way, or the latest of it.
type Heard struct {
	Batches []Told
	size    int
}

// A Told is a batch, and the node that told it.
type Told struct {
	Node  string // "" where the store has it, which does not say
	Batch *flow.Batch
	Size  int
}

// Decode reads batches of a station that a node sent, up to one that cannot be read.
func Decode(station, node string, batches [][]byte) (list []Told) {
	for _, data := range batches {
		b, err := flow.DecodeBatch(data)
		if err != nil || b.Station != station {
			break
		}
		list = append(list, Told{node, b, len(data)})
	}
	return list
}

// Fill puts batches that were missing where they belong: behind those that the node told before them.
func (r *Heard) Fill(missing []Told) {
	for _, t := range missing {
		for i, x := range slices.Backward(r.Batches) {
			if x.Node != t.Node {
				continue
			}
			if x.Batch.Number < t.Batch.Number {
				r.Batches, r.size = slices.Insert(r.Batches, i+1, t), r.size+t.Size
				break
			}
			if x.Batch.Number == t.Batch.Number || OpeningOf(x.Batch) != nil { // it is there, or of another tenure
				break
			}
		}
	}
}

// Add adds a batch. What is of another session is not needed any more, and no more bytes than most are held.
func (r *Heard) Add(t Told, most int) {
	if len(r.Batches) > 0 && r.Batches[len(r.Batches)-1].Batch.Session != t.Batch.Session {
		r.Batches, r.size = nil, 0
	}
	r.Batches = append(r.Batches, t)
	r.size += t.Size
	n := 0
	for r.size > most && n < len(r.Batches)-1 {
		r.size -= r.Batches[n].Size
		r.Batches[n] = Told{}
		n++
	}
	r.Batches = r.Batches[n:]
}

// Before adds what was told before all that was heard.
func (r *Heard) Before(before []Told) {
	r.Batches = append(before, r.Batches...)
	for i := range before {
		r.size += before[i].Size
	}
}

// Of is what was heard of a session.
func (r *Heard) Of(session string) (list []Told) {
	for _, t := range r.Batches {
		if t.Batch.Session == session {
			list = append(list, t)
		}
	}
	return list
}
