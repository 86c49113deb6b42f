package wire

import (
	"math"
	"strconv"

	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/wire/fault"
	"halfturn/stream/wire/format"
)

// A complaint is the one channel that makes a sender's samples useless: the first of those coaching needs whose recent
// values are impossible.
type complaint struct {
	channel stream.Channel
	value   float64 // NaN for what is not a number
	run     int     // samples in a row
}

// hear takes what was read from a datagram, even when it gave no sample.
func (c *complaint) hear(s *stream.Sample, err error) {
	channel, value, bad := s.TakeRefused()
	switch {
	case err != nil && err != fault.ErrValue: // another fault
	case bad && (err != nil || channel.Info().Vital):
		if channel != c.channel || c.run == 0 { // the first value is kept: the message must not change with each
			*c = complaint{channel: channel, value: value}
		}
		c.run = min(c.run+1, format.Patience)
	case err == nil:
		c.run = 0
	}
}

// advice names the channel and its value once that has come a few times in a row, nothing before.
func (c *complaint) advice() phrase.Phrase {
	if c.run < format.Patience {
		return phrase.Phrase{}
	}
	in := c.channel.Info()
	of := func(v float64) string { return plainNumber(v) + " " + in.Unit }
	value, least, most := of(c.value), of(in.Min), of(in.Max)
	switch {
	case c.value != c.value:
		return phrase.ChannelNoNumber.Of(
			phrase.Name("channel", in.Name), phrase.Name("least", least), phrase.Name("most", most))
	case c.channel == stream.Time:
		return phrase.ChannelTime.Of(
			phrase.Name("channel", in.Name), phrase.Name("value", value),
			phrase.Name("least", least), phrase.Name("most", most))
	}
	return phrase.ChannelImpossible.Of(
		phrase.Name("channel", in.Name), phrase.Name("value", value),
		phrase.Name("least", least), phrase.Name("most", most))
}

// plainNumber writes a number for people: with three decimals at most, and without an exponent while it stays readable.
func plainNumber(v float64) string {
	if size := math.Abs(v); size >= 1e15 || size < 1e-3 && size != 0 || v-v != 0 {
		return strconv.FormatFloat(v, 'g', 4, 64)
	}
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}
