package tenures

import (
	"encoding/json"
	"fmt"
	"net/netip"
	"time"

	"halfturn/web/cluster/flow"
	"halfturn/web/desk/practice"
	"halfturn/web/share/link"
)

// An Unpacker takes batches apart, one after another.
type Unpacker struct {
	from, to netip.AddrPort
	comments []string
	tenures  int
	Ending   []Held // the last datagrams
	Over     bool   // the session is
}

// Batch calls take with the datagrams of a batch; they are valid during the call.
func (u *Unpacker) Batch(b *flow.Batch, take func(d *practice.Datagram, head bool)) error {
	for i := range b.Records {
		switch r := &b.Records[i]; r.Type {
		case link.RecordOpening:
			var o Opening
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
			u.Over = true
		case link.RecordHead, link.RecordDatagram:
			u.datagram(r, take)
		}
	}
	return nil
}

// datagram takes one that was recorded. A node that goes on with its own session repeats the head, which the first
// tenure has.
func (u *Unpacker) datagram(r *link.Record, take func(d *practice.Datagram, head bool)) {
	comments, head := u.comments, r.Type == link.RecordHead
	u.comments = nil
	if head && u.tenures > 1 {
		return
	}
	received := time.Unix(0, r.Received)
	if len(u.Ending) >= 4*matched {
		u.Ending = append(u.Ending[:0], u.Ending[2*matched:]...)
	}
	u.Ending = append(u.Ending, Held{r.Bytes, received})
	take(&practice.Datagram{Bytes: r.Bytes, From: u.from, To: u.to, Received: received, Comments: comments}, head)
}
