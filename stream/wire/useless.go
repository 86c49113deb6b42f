package wire

import (
	"fmt"
	"math"
	"strconv"

	"halfturn/stream"
)

// hollow refuses a sample that holds nothing.
func hollow(s *stream.Sample) error {
	switch {
	case s.Has != 0:
		return nil
	case s.Bad != 0:
		return ErrValue
	}
	return ErrMalformed
}

// useless refuses a sample that holds nothing, or whose time cannot be: taken without it, it would be timed by another
// clock than those before.
func useless(s *stream.Sample) error {
	if s.Bad.Has(stream.Time) {
		return ErrValue
	}
	return hollow(s)
}

// A complaint is the one channel that makes a sender's samples useless: the first of those coaching needs whose value
// cannot be, of late.
type complaint struct {
	channel stream.Channel
	value   float64 // NaN for what is no number
	run     int     // samples in a row
}

// hear takes what was read of a datagram, also when that was no sample.
func (c *complaint) hear(s *stream.Sample, err error) {
	channel, value, bad := s.TakeRefused()
	switch {
	case err != nil && err != ErrValue: // something else is wrong
	case bad && (err != nil || channel <= stream.Bank): // time, heading, pitch, bank
		if channel != c.channel || c.run == 0 {
			*c = complaint{channel: channel, value: value} // the first value stands: what is said must not change with each
		}
		c.run = min(c.run+1, patience)
	case err == nil:
		c.run = 0
	}
}

// advice names the channel and its value once that has come a few times in a row, "" before.
func (c *complaint) advice() string {
	if c.run < patience {
		return ""
	}
	in := c.channel.Info()
	of := func(v float64) string { return plainNumber(v) + " " + in.Unit }
	switch {
	case c.value != c.value:
		return fmt.Sprintf("The channel %q is no number in this stream, and nothing can be coached without it. Send a number from %q to %q.",
			in.Name, of(in.Min), of(in.Max))
	case c.channel == stream.Time:
		return fmt.Sprintf("The channel %q is %q in this stream, which cannot be: it must be from %q to %q. Send seconds, counted from any moment.",
			in.Name, of(c.value), of(in.Min), of(in.Max))
	}
	return fmt.Sprintf("The channel %q is %q in this stream, which cannot be: it must be from %q to %q. Correct its unit in the sender, or in the map that reads it.",
		in.Name, of(c.value), of(in.Min), of(in.Max))
}

// plainNumber writes a number for people: with three decimals at most, and without an exponent as long as it can be
// read.
func plainNumber(v float64) string {
	if size := math.Abs(v); size >= 1e15 || size < 1e-3 && size != 0 || v-v != 0 {
		return strconv.FormatFloat(v, 'g', 4, 64)
	}
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}
