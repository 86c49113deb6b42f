package node

import (
	"encoding/json"
	"fmt"
	"net/netip"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
)

// An unpacker takes batches apart, one after another.
type unpacker struct {
	from, to netip.AddrPort
	comments []string
	tenures  int
	ending   []held // the last datagrams
	over     bool
}

// batch calls take with the datagrams of a batch; they are valid during the call.
func (u *unpacker) batch(b *flow.Batch, take func(d *practice.Datagram, head bool)) error {
	for i := range b.Records {
		switch r := &b.Records[i]; r.Type {
		case link.RecordOpening:
			var o opening
			if err := json.Unmarshal(r.Bytes, &o); err != nil {
				return fmt.Errorf("an opening in the record cannot be read: %w", err)
			}
			if o.Tenure != "" {
				u.tenures, u.comments = u.tenures+1, nil
			}
			u.from, _ = netip.ParseAddrPort(o.From) // "": nothing came yet
			u.to, _ = netip.ParseAddrPort(o.To)
		case link.RecordComment:
			u.comments = append(u.comments, string(r.Bytes))
		case link.RecordEnd:
			u.over = true
		case link.RecordHead, link.RecordDatagram:
			u.datagram(r, take)
		}
	}
	return nil
}

// datagram takes one that was recorded. A node that goes on with its own session repeats the head, which the first
// tenure has.
func (u *unpacker) datagram(r *link.Record, take func(d *practice.Datagram, head bool)) {
	comments, head := u.comments, r.Type == link.RecordHead
	u.comments = nil
	if head && u.tenures > 1 {
		return
	}
	received := time.Unix(0, r.Received)
	if len(u.ending) >= 4*matched {
		u.ending = append(u.ending[:0], u.ending[2*matched:]...)
	}
	u.ending = append(u.ending, held{r.Bytes, received})
	take(&practice.Datagram{Bytes: r.Bytes, From: u.from, To: u.to, Received: received, Comments: comments}, head)
}
