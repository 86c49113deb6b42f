package tenures

import (
	"encoding/json"

	"halfturn/web/cluster/flow"
	"halfturn/web/share/link"
)

// An opening is the record that a tenure begins with, and the one that says that the addresses have changed.
type Opening struct {
	Comment string `json:"comment,omitempty"` // at the head of the recording; "": the addresses have changed
	Tenure  string `json:"tenure,omitempty"`
	Node    string `json:"node,omitempty"`
	After   *Point `json:"after,omitempty"` // where it goes on; nil: it begins, or its node goes on with its own
	From    string `json:"from"`            // where the datagrams come from that follow
	To      string `json:"to"`
}

// A Point is a batch of a tenure: up to there something is read, kept or followed.
type Point struct {
	Tenure string `json:"tenure"`
	Number uint64 `json:"number"`
}

// OpeningOf is the opening that a batch begins with; nil when it begins otherwise.
func OpeningOf(b *flow.Batch) *Opening {
	if len(b.Records) == 0 || b.Records[0].Type != link.RecordOpening {
		return nil
	}
	o := new(Opening)
	if json.Unmarshal(b.Records[0].Bytes, o) != nil || o.Tenure == "" {
		return nil
	}
	return o
}

// Encode is the opening as it is recorded.
func (o Opening) Encode() []byte {
	b, _ := json.Marshal(o) // strings and numbers: cannot fail
	return b
}

// Covers reports whether another batch is of the same tenure, and not after this one.
func (p *Point) Covers(other *Point) bool {
	return p != nil && p.Tenure == other.Tenure && p.Number >= other.Number
}
