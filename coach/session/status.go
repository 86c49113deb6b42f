package session

import (
	"math"
	"slices"

	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/coach/probe"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// A status is what the station message states, and when it was sent.
type status struct {
	sent    message.Station // the last one
	renewed float64         // when it was last compared with the present state
	known   known
	names   channelNames
}

// channelNames are the names of the channels of a stream, which hardly ever change.
type channelNames struct {
	sent, derived        stream.Set
	card                 *maneuver.Card
	sends, made, missing []string
}

// of returns the names for some channels and a card; nobody changes them.
func (n *channelNames) of(sent, derived stream.Set, card *maneuver.Card) *channelNames {
	if n.sends == nil || n.sent != sent || n.derived != derived || n.card != card {
		*n = channelNames{sent, derived, card, sent.Names(), derived.Names(), probe.Missing(card, sent|derived)}
	}
	return n
}

// outdate has the station message renewed at the next datagram or tick.
func (s *status) outdate() { s.renewed = math.Inf(-1) }

// Tick lets the session notice that no datagrams come any more. now is in seconds of the epoch of Feed.
func (s *Session) Tick(now float64) {
	if now-s.status.renewed >= idle/4 {
		s.renew(now)
	}
}

// renew publishes the station message when it changed.
func (s *Session) renew(now float64) {
	s.status.renewed = now
	if s.opt.Output == nil {
		return
	}
	n := s.Info(now)
	if same(&n, &s.status.sent) {
		return
	}
	s.status.sent = n
	s.publish(&n)
}

// same reports whether two station messages state the same; the rate may vary a little.
func same(a, b *message.Station) bool {
	rate := math.Abs(a.Rate-b.Rate) < 0.1*math.Max(a.Rate, 5)
	stream := a.Address == b.Address && a.Link == b.Link && a.Format == b.Format && a.Advice.Equal(b.Advice)
	channels := slices.Equal(a.Channels, b.Channels) && slices.Equal(a.Derived, b.Derived) &&
		slices.Equal(a.Missing, b.Missing)
	choice := a.Maneuver == b.Maneuver && a.Auto == b.Auto && a.Aircraft == b.Aircraft && a.Prompts == b.Prompts
	session := a.Session == b.Session && a.Ended == b.Ended && a.Student == b.Student && a.Private == b.Private
	recording := a.Recording == b.Recording && a.RecordingWords.Equal(b.RecordingWords)
	trouble := a.Trouble.Equal(b.Trouble) && a.Task.Same(b.Task)
	return rate && stream && channels && choice && session && recording && trouble && a.Share.Same(b.Share)
}

// Info returns the station message at a moment in seconds of the epoch of Feed.
func (s *Session) Info(now float64) message.Station {
	p, known := s.plan, &s.status.known
	names := s.status.names.of(s.station.Sent(), s.station.Derived(), p.Card)
	return message.Station{
		Name:           s.opt.Name,
		Address:        s.opt.Address,
		Link:           s.station.Link(now),
		Format:         s.station.Format(),
		Advice:         s.advice(now),
		Rate:           math.Round(s.station.Rate(now)*10) / 10,
		Channels:       names.sends,
		Derived:        names.made,
		Missing:        names.missing,
		Maneuver:       p.Card.Name,
		Auto:           len(s.opt.Auto) > 0,
		Aircraft:       p.Aircraft.Name,
		Prompts:        s.saying(),
		Task:           s.flying(),
		Session:        known.id,
		Ended:          known.ended,
		Student:        known.student,
		Recording:      known.recording,
		RecordingWords: known.words,
		Trouble:        known.trouble,
		Demonstration:  s.opt.Demonstration,
		Share:          known.share,
		Private:        known.private,
	}
}

// leastRate is the rate below which a stream cannot be graded, samples a second: an airplane turns and rolls too far
// between two of them.
const leastRate = 2.0

// advice is the pipeline's, or else that the stream is too slow to grade.
func (s *Session) advice(now float64) phrase.Phrase {
	if a := s.station.Advice(); !a.IsZero() {
		return a
	}
	rate := s.station.Rate(now)
	if s.station.Link(now) == pipeline.LinkLive && s.station.Stats().Samples > 10 && rate > 0 && rate < leastRate {
		return phrase.TooFewSamples.Of(phrase.Number("rate", rate, 1, ""))
	}
	return phrase.Phrase{}
}
