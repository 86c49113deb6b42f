package probe

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

// A Probe is everything known about a sender's stream.
type Probe struct {
	message.Station
	Detail    phrase.Phrase `json:"detail"`    // what was assumed about the format; "" is nothing
	Sure      string        `json:"sure"`      // of the format: "certain", "likely", "doubtful", "not recognized"
	Read      float64       `json:"read"`      // share of the datagrams that could be read, 0 to 1
	Clock     string        `json:"clock"`     // stream time is that of the "simulator" or of "receipt"
	Jitter    float64       `json:"jitter"`    // ms, mean deviation of the time between datagrams
	Age       float64       `json:"age"`       // s since the last datagram
	Datagrams uint64        `json:"datagrams"` //
	Samples   uint64        `json:"samples"`   //
	Paused    uint64        `json:"paused"`    // datagrams of a paused simulator
	Jumps     uint64        `json:"jumps"`     //

	Checks     int `json:"checks"`     // of the chosen card
	Unmeasured int `json:"unmeasured"` // of those, the ones whose channels do not come

	Drops  map[string]uint64 `json:"drops"`  // datagrams that gave no sample, by reason
	Signs  phrase.Phrase     `json:"signs"`  // which signs are reversed
	Values []Value           `json:"values"` // of every channel received so far
	Needs  []Need            `json:"needs"`  // of the chosen card
	Todo   []phrase.Phrase   `json:"todo"`   // for the user, the most important first
}

// A Value is a channel's last value.
type Value struct {
	Channel string  `json:"channel"`
	Title   string  `json:"title"`
	Unit    string  `json:"unit"`
	Value   float64 `json:"value"`
	Age     float64 `json:"age"`     // s since it was received
	Derived bool    `json:"derived"` // computed here, not sent
	Bad     uint64  `json:"bad"`     // values rejected: out of range, or not a number
}

// A Need is a channel that the chosen card needs.
type Need struct {
	Channel string          `json:"channel"`
	Title   string          `json:"title"`
	State   string          `json:"state"`   // "sent", "derived" or "missing"
	For     []phrase.Phrase `json:"for"`     // labels of the checks that need it; empty: every check does
	Setting phrase.Phrase   `json:"setting"` // of a missing one: what to change in the simulator
}

// Missing lists the channels that a card's checks need and the set lacks.
func Missing(card *maneuver.Card, has stream.Set) []string {
	want, _ := wanted(card, has)
	return (want &^ has).Names()
}

// wanted returns the channels that a card needs, given those that the stream has, and for each the labels of the
// checks that need it.
func wanted(card *maneuver.Card, has stream.Set) (stream.Set, map[stream.Channel][]phrase.Phrase) {
	want := stream.Set(0).With(stream.Heading).With(stream.Pitch).With(stream.Bank).With(stream.Height)
	why := map[stream.Channel][]phrase.Phrase{}
	add := func(label phrase.Phrase, channels ...stream.Channel) {
		for _, c := range channels {
			want = want.With(c)
			if !slices.ContainsFunc(why[c], label.Equal) {
				why[c] = append(why[c], label)
			}
		}
	}
	add(phrase.NeedDeck.Of(), stream.Height)
	for i := range card.Checks {
		k := &card.Checks[i]
		q := k.Quantity()
		add(phrase.Plain(k.Label), q.All...)
		if len(q.Any) > 0 {
			add(phrase.Plain(k.Label), first(has, q.Any...))
		}
	}
	return want, why
}

// unmeasured counts the checks of a card that a stream with these channels leaves unmeasured.
func unmeasured(card *maneuver.Card, has stream.Set) (n int) {
	for i := range card.Checks {
		q := card.Checks[i].Quantity()
		lacks := func(c stream.Channel) bool { return !has.Has(c) }
		none := len(q.Any) > 0 && !slices.ContainsFunc(q.Any, has.Has)
		if none || slices.ContainsFunc(q.All, lacks) {
			n++
		}
	}
	return n
}

// first is the first of some equivalent channels that the stream has, or else the first of all.
func first(has stream.Set, channels ...stream.Channel) stream.Channel {
	for _, c := range channels {
		if has.Has(c) {
			return c
		}
	}
	return channels[0]
}

// New returns everything known about a stream at a moment in seconds of the epoch of the pipeline's Feed. info is what
// the station states about itself then, card the chosen one.
func New(info message.Station, st *pipeline.Pipeline, card *maneuver.Card, now float64) Probe {
	counts := st.Stats()
	p := Probe{
		Station:   info,
		Detail:    st.Detail(),
		Clock:     "receipt",
		Jitter:    rounded(1000*st.Jitter(), 10),
		Age:       rounded(max(now-st.LastReceived(), 0), 100),
		Datagrams: counts.Datagrams,
		Samples:   counts.Samples,
		Paused:    counts.Paused,
		Jumps:     counts.Jumps,
		Drops:     map[string]uint64{},
		Signs:     signs(st),
		Values:    []Value{},
		Needs:     []Need{},
		Todo:      []phrase.Phrase{},
	}
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
	p.values(st, &counts, now)
	p.needs(card, st.Sent(), st.Derived())
	p.Checks, p.Unmeasured = len(card.Checks), unmeasured(card, st.Sent()|st.Derived())
	p.todo()
	return p
}

// signs says which signs are reversed.
func signs(st *pipeline.Pipeline) phrase.Phrase {
	switch bank, pitch := st.Turned(); {
	case bank && pitch:
		return phrase.BankAndPitchTurned.Of()
	case bank:
		return phrase.BankTurned.Of()
	case pitch:
		return phrase.PitchTurned.Of()
	}
	return phrase.Phrase{}
}

// sure rates how sure the format is, by the share of the datagrams that could be read.
func sure(datagrams, samples, lost uint64) (share float64, word string) {
	if datagrams > 0 {
		share = rounded(1-float64(lost)/float64(datagrams), 1000)
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
		p.Values = append(p.Values, Value{
			Channel: in.Name,
			Title:   in.Title,
			Unit:    in.Unit,
			Value:   rounded(v.Value, 1000),
			Age:     rounded(v.Age, 100),
			Derived: v.Derived,
			Bad:     bad,
		})
	}
}

func (p *Probe) needs(card *maneuver.Card, sent, derived stream.Set) {
	want, why := wanted(card, sent|derived)
	for c := range stream.NumChannels {
		if !want.Has(c) {
			continue
		}
		n := Need{
			Channel: c.Info().Name,
			Title:   c.Info().Title,
			State:   "missing",
			For:     append([]phrase.Phrase{}, why[c]...),
		}
		switch {
		case sent.Has(c):
			n.State = "sent"
		case derived.Has(c):
			n.State = "derived"
		default:
			n.Setting = Setting(p.Format, c)
		}
		if c == stream.Heading || c == stream.Pitch || c == stream.Bank {
			n.For = []phrase.Phrase{}
		}
		p.Needs = append(p.Needs, n)
	}
	order := map[string]int{"missing": 0, "derived": 1, "sent": 2}
	slices.SortStableFunc(p.Needs, func(a, b Need) int { return cmp.Compare(order[a.State], order[b.State]) })
}

// slowest is the rate below which checkpoints are too coarse: at 20 °/s of turn, 20 samples a second are one per
// degree. Common practice, no source.
const slowest = 20.0

// todo lists what the user should do.
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

// settings lists the settings that bring the missing channels, each once with all the channels that it brings.
func settings(needs []Need) (all []phrase.Phrase) {
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

// rounded rounds to a multiple of 1/parts.
func rounded(x, parts float64) float64 { return math.Round(x*parts) / parts }
