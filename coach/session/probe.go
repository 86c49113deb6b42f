package session

import (
	"cmp"
	"math"
	"slices"

	"halfturn/coach/maneuver"
	"halfturn/coach/message"
	"halfturn/stream"
	"halfturn/stream/phrase"
	"halfturn/stream/pipeline"
)

// A Probe is everything known of a sender's stream: what arrives, how it is understood, what
// the chosen card needs of it, and what to change in the simulator.
type Probe struct {
	message.Station
	Detail    phrase.Phrase     `json:"detail"`    // what was decided or must be known about the format, if anything
	Sure      string            `json:"sure"`      // how sure the format is: "certain", "likely", "doubtful", "not recognized"
	Read      float64           `json:"read"`      // share of the datagrams that could be read, 0 to 1
	Clock     string            `json:"clock"`     // "simulator" or "receipt": whose time is stream time
	Jitter    float64           `json:"jitter"`    // ms, mean deviation of the time between datagrams
	Age       float64           `json:"age"`       // s since the last datagram
	Datagrams uint64            `json:"datagrams"` //
	Samples   uint64            `json:"samples"`   //
	Paused    uint64            `json:"paused"`    // datagrams of a simulator that stood still
	Jumps     uint64            `json:"jumps"`     //
	Drops     map[string]uint64 `json:"drops"`     // datagrams that gave no sample, by reason
	Signs     phrase.Phrase     `json:"signs"`     // which signs are turned round
	Values    []ProbeValue      `json:"values"`    // of every channel that ever came
	Needs     []ProbeNeed       `json:"needs"`     // of the chosen card
	Todo      []phrase.Phrase   `json:"todo"`      // what to do, the most important first
}

// A ProbeValue is a channel's last value.
type ProbeValue struct {
	Channel string  `json:"channel"`
	Title   string  `json:"title"`
	Unit    string  `json:"unit"`
	Value   float64 `json:"value"`
	Age     float64 `json:"age"`     // s since it came
	Derived bool    `json:"derived"` // computed here, not sent
	Bad     uint64  `json:"bad"`     // values not believed: out of range, or no number
}

// A ProbeNeed is a channel that the chosen card needs.
type ProbeNeed struct {
	Channel string        `json:"channel"`
	Title   string        `json:"title"`
	State   string        `json:"state"`   // "sent", "derived" or "missing"
	For     []string      `json:"for"`     // labels of the checks that need it; empty: nothing works without
	Setting phrase.Phrase `json:"setting"` // of a missing one: what to change in the simulator
}

// wanted returns the channels that a card wants of a stream that has some, and the labels of
// the checks that want each.
func wanted(card *maneuver.Card, has stream.Set) (stream.Set, map[stream.Channel][]string) {
	want := stream.Set(0).With(stream.Heading).With(stream.Pitch).With(stream.Bank).With(stream.Height)
	why := map[stream.Channel][]string{}
	add := func(label string, channels ...stream.Channel) {
		for _, c := range channels {
			want = want.With(c)
			if !slices.Contains(why[c], label) {
				why[c] = append(why[c], label)
			}
		}
	}
	add("the hard deck", stream.Height)
	for i := range card.Checks {
		k := &card.Checks[i]
		q := k.Quantity()
		add(k.Label, q.All...)
		if len(q.Any) > 0 {
			add(k.Label, first(has, q.Any...))
		}
	}
	return want, why
}

// first is the first of the channels that the stream has, as any will do; else the first of all.
func first(has stream.Set, channels ...stream.Channel) stream.Channel {
	for _, c := range channels {
		if has.Has(c) {
			return c
		}
	}
	return channels[0]
}

// Probe tells everything known of the stream at a moment in seconds of the epoch of Feed.
func (s *Session) Probe(now float64) Probe {
	st := s.station
	counts := st.Stats()
	p := Probe{Station: s.Info(now), Detail: st.Detail(), Clock: "receipt", Jitter: round1(1000 * st.Jitter()), Age: round2(max(now-st.LastReceived(), 0)),
		Datagrams: counts.Datagrams, Samples: counts.Samples, Paused: counts.Paused, Jumps: counts.Jumps, Drops: map[string]uint64{},
		Values: []ProbeValue{}, Needs: []ProbeNeed{}, Todo: []phrase.Phrase{}}
	if st.BySimulator() {
		p.Clock = "simulator"
	}
	var lost uint64
	for _, d := range counts.Drops {
		p.Drops[d.Reason] += d.Count
		if d.Reason != pipeline.DropDuplicate && d.Reason != pipeline.DropLate { // those were read
			lost += d.Count
		}
	}
	p.Read, p.Sure = sure(counts.Datagrams, counts.Samples, lost)
	bank, pitch := st.Turned()
	switch {
	case bank && pitch:
		p.Signs = phrase.BankAndPitchTurned.Of()
	case bank:
		p.Signs = phrase.BankTurned.Of()
	case pitch:
		p.Signs = phrase.PitchTurned.Of()
	}
	p.values(st, &counts, now)
	p.needs(s.plan.Card, st.Sent(), st.Derived())
	p.todo()
	return p
}

// sure says how sure the format is, from how much of what came could be read by it.
func sure(datagrams, samples, lost uint64) (share float64, word string) {
	if datagrams > 0 {
		share = math.Round(1000*(1-float64(lost)/float64(datagrams))) / 1000
	}
	switch {
	case samples == 0:
		return share, "not recognized"
	case share >= 0.99 && samples >= 30:
		return share, "certain"
	case share >= 0.9:
		return share, "likely"
	}
	return share, "doubtful"
}

func (p *Probe) values(st *pipeline.Pipeline, counts *pipeline.Stats, now float64) {
	for c := range stream.NumChannels {
		v, came := st.Last(c, now)
		var bad uint64
		for _, b := range counts.Bad {
			if b.Channel == c {
				bad = b.Count
			}
		}
		if !came && bad == 0 {
			continue
		}
		in := c.Info()
		p.Values = append(p.Values, ProbeValue{Channel: in.Name, Title: in.Title, Unit: in.Unit, Value: round3(v.Value), Age: round2(v.Age), Derived: v.Derived, Bad: bad})
	}
}

func (p *Probe) needs(card *maneuver.Card, sent, derived stream.Set) {
	want, why := wanted(card, sent|derived)
	for c := range stream.NumChannels {
		if !want.Has(c) {
			continue
		}
		n := ProbeNeed{Channel: c.Info().Name, Title: c.Info().Title, State: "missing", For: append([]string{}, why[c]...)}
		switch {
		case sent.Has(c):
			n.State = "sent"
		case derived.Has(c):
			n.State = "derived"
		default:
			n.Setting = Setting(p.Format, c)
		}
		if c == stream.Heading || c == stream.Pitch || c == stream.Bank {
			n.For = []string{}
		}
		p.Needs = append(p.Needs, n)
	}
	order := map[string]int{"missing": 0, "derived": 1, "sent": 2}
	slices.SortStableFunc(p.Needs, func(a, b ProbeNeed) int { return cmp.Compare(order[a.State], order[b.State]) })
}

// slowest is the rate below which checkpoints are too coarse: at 20 °/s of turn, 20 samples a second
// are one for each degree. Common practice, no source.
const slowest = 20.0

// todo lists what to do.
func (p *Probe) todo() {
	if !p.Advice.IsZero() {
		p.Todo = append(p.Todo, p.Advice)
	}
	switch p.Link {
	case pipeline.LinkSilent:
		p.Todo = append(p.Todo, phrase.StreamEnded.Of())
	case pipeline.LinkPaused:
		p.Todo = append(p.Todo, phrase.StreamPaused.Of())
	}
	if p.Samples == 0 {
		return
	}
	p.Todo = append(p.Todo, settings(p.Needs)...)
	if p.Link == pipeline.LinkLive && p.Rate > 0 && p.Rate < slowest {
		p.Todo = append(p.Todo, rateSetting(p.Format))
	}
}

// settings are those of the missing channels, each once for all the channels it brings.
func settings(needs []ProbeNeed) (all []phrase.Phrase) {
	var order []phrase.Phrase
	channels := map[string][]phrase.Phrase{} // by the setting's English
	for _, n := range needs {
		if n.State != "missing" || n.Setting.IsZero() {
			continue
		}
		words := n.Setting.String()
		if channels[words] == nil {
			order = append(order, n.Setting)
		}
		channels[words] = append(channels[words], phrase.Plain(n.Title))
	}
	for _, setting := range order {
		of := channels[setting.String()]
		all = append(all, phrase.ForChannels.Of(phrase.List("channels", of...), phrase.Part("setting", setting)))
	}
	return all
}

func round1(x float64) float64 { return math.Round(x*10) / 10 }
func round2(x float64) float64 { return math.Round(x*100) / 100 }
func round3(x float64) float64 { return math.Round(x*1000) / 1000 }
