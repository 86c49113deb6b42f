package wire

import (
	"bytes"
	"encoding/binary"

	"halfturn/stream"
)

// The formats besides text, JSON lines and DATA rows. What is kept for them is only
// allocated for senders that use them.
const (
	kindReplies  = kindJSON + 1 + iota // RREF
	kindPosition                       // RPOS
	kindDataref                        // DREF
	kindTablet
	kindGDL90
	kindFDM
	kindMAVLink
	kindDIS
	kindBinary
	kindCounted // lines of text, a value each, split by count
)

// otherReader reads them. Of one sender only one is in use at a time.
type otherReader struct {
	kind  kind
	name  string // as Format tells it, "" before anything was read
	parts int    // datagrams that gave no sample since the last that did
	had   bool   // a sample
	last  float64
	merge merger

	datarefs *datarefTable
	tablet   tabletReader
	gdl      gdlReader
	fdm      fdmReader
	mav      mavReader
	dis      disReader
	binary   binaryReader
}

// otherFirst holds the first bytes of these formats, so that all others cost one look.
var otherFirst = func() (first [256]bool) {
	for _, c := range []byte{'R', 'D', 'X', gdlFlag, 0, 5, 6, 7, mavMagic1, mavMagic2} {
		first[c] = true
	}
	return first
}()

// sniffOther tells these formats, kindNone when it is none of them.
func (r *Reader) sniffOther(b []byte) kind {
	if r.forced != nil {
		switch {
		case r.forced.layout != nil:
			return kindBinary
		case r.forced.separator == '\n':
			return r.sniffCounted(b)
		}
	}
	if r.other != nil && r.other.continues(b) {
		return r.other.kind
	}
	if otherFirst[b[0]] {
		if k := r.sniffMark(b); k != kindNone {
			return k
		}
	}
	for _, l := range r.marked {
		if l.marks(b) {
			return kindBinary
		}
	}
	return kindNone
}

// sniffMark goes by the first bytes, and where they say little by lengths and checksums.
func (r *Reader) sniffMark(b []byte) kind {
	switch {
	case b[0] == gdlFlag && r.kind == kindGDL90, (b[0] == mavMagic1 || b[0] == mavMagic2) && r.kind == kindMAVLink:
		return r.kind
	case len(b) < 5:
		return kindNone
	}
	switch string(b[:4]) {
	case "RREF":
		return kindReplies
	case "RPOS":
		return kindPosition
	case "DREF":
		return kindDataref
	case "XGPS", "XATT", "XTRA":
		return kindTablet
	case fdmMark24, fdmMark25:
		if len(b) >= 8 && binary.BigEndian.Uint32(b[4:]) == 0 {
			return kindFDM
		}
	}
	switch {
	case b[0] == gdlFlag && gdlValid(b):
		return kindGDL90
	case (b[0] == mavMagic1 || b[0] == mavMagic2) && mavValid(b):
		return kindMAVLink
	case disValid(b):
		return kindDIS
	}
	return kindNone
}

// continues tells whether a datagram can be the rest of a frame that the one before began.
func (o *otherReader) continues(b []byte) bool {
	switch o.kind {
	case kindGDL90:
		return o.gdl.pending() && bytes.IndexByte(b, gdlFlag) >= 0
	case kindMAVLink:
		return o.mav.n > 0
	}
	return false
}

// readOther reads one datagram.
func (r *Reader) readOther(k kind, b []byte, s *stream.Sample) error {
	o := r.other
	if o == nil {
		o = &otherReader{}
		r.other = o
	}
	if o.kind != k {
		*o = otherReader{kind: k, datarefs: o.datarefs}
		if o.datarefs == nil {
			o.datarefs = datarefsFor(r.datarefs)
		}
		o.binary.maps(r)
	}
	err := o.decode(b, r.now, s)
	switch err {
	case nil:
		o.parts, o.had, o.last = 0, true, r.now
	case ErrPart, ErrOther:
		o.parts = min(o.parts+1, 1<<20)
	}
	return err
}

func (o *otherReader) decode(b []byte, now float64, s *stream.Sample) error {
	switch o.kind {
	case kindReplies:
		return o.merged(o.replies(b, now), now, s)
	case kindPosition:
		return o.position(b, s)
	case kindDataref:
		return o.merged(o.dataref(b, now), now, s)
	case kindTablet:
		o.name = "XGPS/XATT text"
		return o.merged(o.tablet.decode(b, now, &o.merge), now, s)
	case kindGDL90:
		o.name = "GDL 90"
		return o.merged(o.gdl.decode(b, now, &o.merge), now, s)
	case kindFDM:
		return o.fdm.decode(b, &o.name, s)
	case kindMAVLink:
		return o.merged(o.mav.decode(b, now, &o.name, &o.merge), now, s)
	case kindDIS:
		o.name = "DIS entity state"
		return o.dis.decode(b, now, s)
	case kindCounted:
		o.name = "text lines, a value each"
		return o.binary.m.inOrder.decode(b, s)
	}
	o.name = "generic binary"
	return o.binary.decode(b, s)
}

// merged makes the sample of a format that merges messages, once the attitude came.
func (o *otherReader) merged(err error, now float64, s *stream.Sample) error {
	l := &o.merge.latest
	if l.Bad&attitudeSet != 0 && !o.merge.updated() && (err == nil || err == ErrPart) {
		s.Bad = l.Bad
		if channel, v, ok := l.TakeRefused(); ok {
			s.Refuse(channel, v)
		}
		l.Bad = 0
		return ErrValue
	}
	if err != nil {
		return err
	}
	if !o.merge.updated() {
		return ErrPart
	}
	o.merge.fill(s, now)
	return hollow(s)
}

// So many datagrams without a sample, and for so long, s, are worth a word.
const (
	partsMany = 10
	partsLong = 3.0
)

// advice says what is missing from a stream that is read but gives no sample.
func (o *otherReader) advice(now float64) string {
	if o.parts < partsMany || o.had && now-o.last < partsLong {
		return ""
	}
	const without = ", without which nothing can be coached. "
	switch o.kind {
	case kindReplies, kindDataref:
		return "The datarefs sent hold no attitude (true_psi, true_theta, true_phi)" + without + "Send them, or switch on the data output rows (DATA) 1, 3, 4, 8, 16, 17, 18, 20 and 25."
	case kindTablet:
		return "Position or traffic comes, but no attitude (XATT)" + without + "Switch on attitude in the program that sends to tablets."
	case kindGDL90:
		return "This GDL 90 stream has no attitude with a heading (message 0x65 or 0x4C)" + without + "Switch on AHRS in the program that sends it."
	case kindMAVLink:
		return "This MAVLink stream has no ATTITUDE message" + without + "Ask for a higher rate of it (parameter SR0_EXTRA1 or the like)."
	case kindDIS:
		return "Nothing of what is sent here is about an entity that can be followed. Send Entity State PDUs of the simulator's own aircraft."
	}
	return ""
}

// detail says what was decided or must be known about a stream.
func (o *otherReader) detail() string {
	switch o.kind {
	case kindTablet:
		return "attitude and position merged by time of receipt; no airspeed; track may be the heading, as the sender likes"
	case kindGDL90:
		return o.gdl.detail(&o.merge)
	case kindFDM:
		return "body rates from Euler rates; no true airspeed, no throttle, no clock; sideslip and rpm only when ever other than 0"
	case kindMAVLink:
		return "airspeed is indicated or equivalent, as the autopilot likes; no height above ground"
	case kindDIS:
		return "altitude is the height above the ellipsoid, other than mean sea level by up to 350 ft; no airspeed"
	case kindReplies, kindDataref:
		return "values of single datarefs, with 32 bits"
	}
	return ""
}

// Age returns how old, in seconds of receive time, the value of a channel was when it was put
// into the last sample: more than 0 for what a slower message of the same sender brought.
func (r *Reader) Age(c stream.Channel) float64 {
	if r.other == nil || r.other.kind != r.kind || !r.other.merge.latest.Has.Has(c) {
		return 0
	}
	return r.other.merge.filled - r.other.merge.at[c]
}

// Detail says in a few words what was decided or must be known about the stream besides its
// format, "" when there is nothing: which layout row 16 has, which altitude is meant.
func (r *Reader) Detail() string {
	switch {
	case r.kind == kindRows:
		return r.rows.detail()
	case r.other != nil && r.other.kind == r.kind:
		return r.other.detail()
	}
	return ""
}

// detail says which layout of row 16 is used, and why.
func (r *rowReader) detail() string {
	layout, why := r.layout, "as told"
	if layout == RowsAuto {
		layout, why = r.found.layout, "found from the change of attitude"
	}
	switch {
	case layout == RowsOld:
		return "row 16 is pitch, roll, yaw in rad/s (versions 10 and 11), " + why
	case layout == RowsNew:
		return "row 16 is roll, pitch, yaw in °/s (version 12), " + why
	case r.seen[rowRates] != 0:
		return "row 16: layout not found yet, its rates are not used"
	}
	return ""
}
