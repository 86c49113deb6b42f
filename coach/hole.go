package coach

import "halfturn/stream/phrase"

// A Hole is where datagrams of a stream are missing because this machine received them and could not keep them.
type Hole struct {
	Time   float64       `json:"time"`   // of the stream, s
	Own    uint64        `json:"own"`    // datagrams of this station
	Shared uint64        `json:"shared"` // datagrams of all stations at the same socket, perhaps of this one among them
	Words  phrase.Phrase `json:"words"`  // the same for people
}

// Tell sets the words of a hole; into says how far into the session it is, s of stream time without jumps.
func (h *Hole) Tell(into float64) {
	own, shared := float64(h.Own), float64(h.Shared)
	switch {
	case h.Shared == 0:
		h.Words = phrase.HoleOwn.Of(phrase.Number("time", into, 0, "s"), phrase.Number("own", own, 0, ""))
	case h.Own == 0:
		h.Words = phrase.HoleShared.Of(phrase.Number("time", into, 0, "s"), phrase.Number("shared", shared, 0, ""))
	default:
		h.Words = phrase.HoleBoth.Of(phrase.Number("time", into, 0, "s"), phrase.Number("own", own, 0, ""),
			phrase.Number("shared", shared, 0, ""))
	}
}
