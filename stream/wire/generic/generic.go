// Package generic reads binary records whose layout a map describes: FlightGear's generic protocol. A stream with a
// magic number and no strings is recognized by itself, others only with the map given by the user.
package generic

import (
	"halfturn/stream"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
	"halfturn/stream/wire/mapping"
)

// Format is the generic binary protocol.
var Format = &format.Format{
	Names:     []string{name},
	Possible:  func(o *format.Options) bool { return isUsers(o) || len(o.Marked()) > 0 },
	Recognize: recognize,
	New:       func(o *format.Options) format.Decoder { return &decoder{user: o.Map, marked: o.Marked()} },
	Setting:   format.ProtocolSetting,
	Rate:      format.SocketRate,
}

const name = "generic binary"

// isUsers reports whether the map given by the user describes binary records: then every datagram is one.
func isUsers(o *format.Options) bool { return o.Map != nil && o.Map.Layout != nil }

func recognize(d *format.Datagram) format.Claim {
	if isUsers(d.Options) {
		return format.Yes
	}
	for _, l := range d.Options.Marked() {
		if l.Marks(d.Bytes) {
			return format.Yes
		}
	}
	return format.No
}

// A decoder reads records of the layout that was given or that marks them.
type decoder struct {
	format.Plain
	user   *mapping.Map
	marked []*mapping.Layout
}

func (r *decoder) Name() string { return name }

func (r *decoder) Decode(b []byte, _ float64, s *stream.Sample) error {
	if r.user != nil && r.user.Layout != nil {
		return r.user.Layout.Decode(b, s)
	}
	for _, l := range r.marked {
		if l.Marks(b) {
			return l.Decode(b, s)
		}
	}
	return fault.ErrMalformed
}
