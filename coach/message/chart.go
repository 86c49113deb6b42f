package message

import (
	"math"
	"slices"

	"halfturn/coach"
	"halfturn/coach/check"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/stream/phrase"
)

// A Chart is a plan as a picture over the turn angle.
type Chart struct {
	Maneuver    string       `json:"maneuver"` // card name
	Title       string       `json:"title"`    // "Wing-over"
	Standard    string       `json:"standard"`
	Aircraft    string       `json:"aircraft"` // title, "" when none
	Turn        float64      `json:"turn"`     // 180 or 360
	Legs        int          `json:"legs"`     // in a series
	Checkpoints []Checkpoint `json:"checkpoints"`
	Lanes       []Lane       `json:"lanes"`
	Cautions    []string     `json:"cautions"`
	// Warnings is what the maneuver asks for and the aircraft may not do.
	Warnings []phrase.Phrase `json:"warnings"`
	// Of is the plan that was drawn, for pictures made in this program; nil in a chart that was read.
	Of *plan.Plan `json:"-"`
}

func (*Chart) kind() Type { return TypePlan }

// A Checkpoint is a post on the ribbon.
type Checkpoint struct {
	Turn  float64       `json:"turn"`
	Label string        `json:"label"` // "45°", "out"
	Words string        `json:"words"`
	Want  phrase.Phrase `json:"want"`
}

// A Lane is one strip of the ribbon: channel "bank", "pitch", "airspeed" or "height" (the change of altitude since
// the entry); of a turn about a point on the ground "radius" (the distance from it, % off its mean) or "pivotal" (ft
// above the pivotal altitude) as well.
type Lane struct {
	Channel  string        `json:"channel"`
	Title    phrase.Phrase `json:"title"`
	Unit     string        `json:"unit"`
	Low      float64       `json:"low"`  // what the strip spans
	High     float64       `json:"high"` //
	Ticks    []float64     `json:"ticks"`
	Corridor []Corridor    `json:"corridor"` // in order of turn; empty when nothing is known
}

// Corridor is what is allowed at one turn angle.
type Corridor struct {
	Turn float64 `json:"turn"`
	Low  float64 `json:"low"`
	Aim  float64 `json:"aim"`
	High float64 `json:"high"`
}

// NewChart draws a plan as a picture over the turn angle.
func NewChart(p *plan.Plan) *Chart {
	card := p.Card
	out := &Chart{
		Maneuver:    card.Name,
		Title:       card.Title,
		Standard:    card.Standard,
		Aircraft:    p.Aircraft.Title,
		Turn:        card.Turn,
		Legs:        card.Series.Legs,
		Checkpoints: []Checkpoint{},
		Cautions:    slices.Clone(coach.Cautions[:]),
		Warnings:    p.Warnings(),
		Of:          p,
	}
	for _, k := range card.Checkpoints {
		c := Checkpoint{Turn: k.Turn, Label: p.Label(k.Turn), Words: k.Words, Want: p.Want(k.Turn)}
		out.Checkpoints = append(out.Checkpoints, c)
	}
	lanes := []Lane{
		{Channel: "bank", Title: phrase.LabelBank.Of(), Unit: "°"},
		{Channel: "pitch", Title: phrase.LabelNose.Of(), Unit: "°"},
		{Channel: "airspeed", Title: phrase.LabelSpeed.Of(), Unit: "kt"},
		{Channel: "height", Title: phrase.LabelHeight.Of(), Unit: "ft"},
	}
	switch card.Ground.About {
	case maneuver.Center:
		lanes = slices.Insert(lanes, 1, Lane{Channel: LaneRadius, Title: phrase.LabelDistance.Of(), Unit: "%"})
	case maneuver.Pylon:
		lanes = slices.Insert(lanes, 1, Lane{Channel: LanePivotal, Title: phrase.LabelOffPivotal.Of(), Unit: "ft"})
	}
	for _, l := range lanes {
		l.Corridor = corridor(p, l.Channel)
		l.Low, l.High, l.Ticks = scale(l.Channel, l.Corridor)
		out.Lanes = append(out.Lanes, l)
	}
	return out
}

// The lanes of turns about a point on the ground.
const (
	LaneRadius  = "radius"
	LanePivotal = "pivotal"
)

// about is the corridor of a lane of a turn about a point: what the card's check of it calls met, where it looks.
func about(card *maneuver.Card, lane string) []Corridor {
	for i := range card.Checks {
		k, times := &card.Checks[i], 1.0
		switch {
		case lane == LaneRadius && k.Kind == "round":
			times = 100
		case lane == LanePivotal && k.Channel == check.OffPivotal && k.Kind == "mean":
		default:
			continue
		}
		if k.From == nil || k.To == nil || k.Aim == nil || k.MetBand.Low == nil || k.MetBand.High == nil {
			continue
		}
		c := []Corridor{}
		for _, turn := range []float64{*k.From, math.Min(*k.To, card.Turn)} {
			low, high := times**k.MetBand.Low, times**k.MetBand.High
			c = append(c, Corridor{turn, round1(low), round1(times * *k.Aim), round1(high)})
		}
		return c
	}
	return []Corridor{}
}

// corridor samples what is allowed every three degrees.
func corridor(p *plan.Plan, lane string) []Corridor {
	if lane == LaneRadius || lane == LanePivotal {
		return about(p.Card, lane)
	}
	c := []Corridor{}
	for turn := 0.0; turn <= p.Card.Turn; turn += 3 {
		aim, width, ok := p.Aim(lane, turn)
		if !ok {
			break
		}
		// At the entry there is little to be off by; the corridor opens over the first 30°.
		width *= math.Min(1, 0.35+turn/46)
		c = append(c, Corridor{turn, round1(aim - width), round1(aim), round1(aim + width)})
	}
	return c
}

// scale chooses what a lane spans: the corridor with room around it, on round numbers.
func scale(lane string, c []Corridor) (low, high float64, ticks []float64) {
	fallback := map[string][2]float64{
		"bank":      {0, 90},
		"pitch":     {-30, 30},
		"airspeed":  {40, 160},
		"height":    {0, 1000},
		LaneRadius:  {-25, 25},
		LanePivotal: {-200, 200},
	}[lane]
	low, high = fallback[0], fallback[1]
	if len(c) > 0 {
		low, high = c[0].Low, c[0].High
		for _, k := range c {
			low, high = math.Min(low, k.Low), math.Max(high, k.High)
		}
	}
	step := map[string]float64{"bank": 45, "pitch": 10, "airspeed": 20, "height": 100,
		LaneRadius: 10, LanePivotal: 100}[lane]
	for (high-low)/step > 4 {
		step *= 2
	}
	room := (high - low) * 0.1
	switch lane {
	case LaneRadius, LanePivotal: // as far again on both sides
		room = (high - low) * 0.5
	}
	if lane != "bank" {
		low, high = low-room, high+room
	} else {
		low, high = math.Min(low, -8), math.Max(high, 95)
	}
	for t := math.Ceil(low/step) * step; t <= high; t += step {
		ticks = append(ticks, t)
	}
	return round1(low), round1(high), ticks
}

func round1(x float64) float64 { return math.Round(x*10) / 10 }
