package gdl90

// Longest is the longest frame that is read.
const Longest = longest

// A Deframer is the one of the decoder.
type Deframer struct{ deframer }

// Next returns the next whole message.
func (d *Deframer) Next(b []byte) (message, rest []byte, err error) { return d.next(b) }
