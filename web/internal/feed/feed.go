// Package feed makes up a wing-over and sends it through the hub, for the checks of the
// pages. Its numbers are round ones, of no aircraft; its bank, nose, speed and height are
// sines of the turn angle.
package feed

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/message"
	"halfturn/coach/score"
	"halfturn/stream/phrase"
)

// Turn is the full turn of the made-up maneuver, in degrees.
const Turn = 180.0

// The shape of the made-up flight.
const (
	steepest = 75.0  // ° at 90
	highest  = 17.0  // ° at 45, and as low at 135
	entry    = 155.0 // kt
	apex     = 112.0 // kt at 90
	gain     = 600.0 // ft at 90
)

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// Bank returns the bank toward the turn, in degrees, at a turn angle in degrees.
func Bank(turn float64) float64 { return steepest * math.Sin(rad(turn)) }

// Pitch returns the pitch in degrees.
func Pitch(turn float64) float64 { return highest * math.Sin(2*rad(turn)) }

// Speed returns the airspeed in knots.
func Speed(turn float64) float64 { return entry - (entry-apex)*math.Sin(rad(turn)) }

// Climb returns the height above the entry in feet.
func Climb(turn float64) float64 { return gain * math.Pow(math.Sin(rad(turn)), 2) }

// Checkpoints returns the posts of the plan.
func Checkpoints() []message.Checkpoint {
	return []message.Checkpoint{
		{Turn: 45, Label: "45°", Words: "nose highest, bank half way", Want: aim("bank 53°", "nose 17° up")},
		{Turn: 90, Label: "90°", Words: "steepest, nose on the horizon", Want: aim("bank 75°", "nose level", "112 kt")},
		{Turn: 135, Label: "135°", Words: "rolling out, nose lowest", Want: aim("bank 53°", "nose 17° down")},
		{Turn: 180, Label: "out", Words: "wings level, speed and height back", Want: aim("wings level", "155 kt")},
	}
}

// aim joins what is to be flown at a checkpoint.
func aim(parts ...string) phrase.Phrase {
	all := make([]phrase.Phrase, len(parts))
	for i, p := range parts {
		all[i] = phrase.Read(p)
	}
	return phrase.Joined(all...)
}

// Plan returns the maneuver as a picture.
func Plan() *message.Chart {
	return &message.Chart{
		Maneuver:    "wing-over",
		Title:       "Wing-over",
		Standard:    "course",
		Aircraft:    "generic turboprop trainer",
		Turn:        Turn,
		Legs:        2,
		Checkpoints: Checkpoints(),
		Lanes: []message.Lane{
			lane("bank", "Bank", "°", 0, 90, []float64{0, 45, 90}, Bank, 4, 15),
			lane("pitch", "Nose", "°", -25, 25, []float64{-20, 0, 20}, Pitch, 4, 4),
			lane("airspeed", "Speed", "kt", 100, 165, []float64{110, 150}, Speed, 7, 7),
			lane("height", "Height", "ft", -50, 700, []float64{0, 600}, Climb, 60, 90),
		},
		Cautions: []string{"Clear the area before every leg.", "Stop at the hard deck."},
	}
}

// lane draws a corridor about a curve, half as wide as edge at its ends and mid in its middle.
func lane(
	channel, title, unit string,
	low, high float64,
	ticks []float64,
	at func(float64) float64,
	edge, mid float64,
) message.Lane {
	l := message.Lane{Channel: channel, Title: phrase.Read(title), Unit: unit, Low: low, High: high, Ticks: ticks}
	for turn := 0.0; turn <= Turn; turn += 3 {
		half := edge + (mid-edge)*math.Sin(rad(turn))
		aim := at(turn)
		l.Corridor = append(l.Corridor, message.Corridor{Turn: turn, Low: aim - half, Aim: aim, High: aim + half})
	}
	return l
}

// Station returns the made-up station.
func Station(name, link string) *message.Station {
	return &message.Station{
		Name:      name,
		Address:   "127.0.0.1:50123",
		Link:      link,
		Format:    "text lines",
		Rate:      60,
		Channels:  []string{"time", "heading", "pitch", "bank", "airspeed", "altitude"},
		Derived:   []string{"vertical-speed"},
		Missing:   []string{},
		Maneuver:  "wing-over",
		Aircraft:  "turboprop-trainer",
		Prompts:   "card",
		Session:   "2026-01-02-a",
		Student:   "Ada",
		Recording: "on",
	}
}

func ptr(v float64) *float64 { return &v }

// Gates returns the set-up gates, all open or with the entry speed wrong.
func Gates(ready bool) []coach.Gate {
	speed := 148.0
	if ready {
		speed = 155
	}
	clearing := gate("clearing-turns", "Clearing turns", "180° of turn, or 90° each way", ptr(185), "°")
	clearing.Optional = true
	entry := gate("entry-speed", "Entry speed", "155 kt, within 5 kt", &speed, "kt")
	entry.OK = ready
	entry.Want = phrase.WantSpeed.Of(phrase.Number("speed", 155, 0, "kt"), phrase.Number("within", 5, 0, "kt"))
	return []coach.Gate{
		gate("wings-level", "Wings level", "within 5°", ptr(0.6), "°"),
		gate("height-held", "Height held", "within 300 ft/min", ptr(-40), "ft/min"),
		entry,
		gate("ball", "Ball centered", "within 0.25 of a ball", nil, "balls"),
		gate("hard-deck", "Above the hard deck", "at least 1500 ft", ptr(3500), "ft"),
		clearing,
		gate("on-the-line", "On the line", "within 5° of 090°", ptr(0.4), "°"),
	}
}

// gate is one that is open.
func gate(id, label, want string, value *float64, unit string) coach.Gate {
	return coach.Gate{ID: id, Label: phrase.Read(label), Want: phrase.Read(want), Value: value, Unit: unit, OK: true}
}

// Level returns a frame before the turn.
func Level(time float64, ready bool) *coach.Frame {
	return &coach.Frame{
		Time: time, State: "set-up", Phase: "set-up", Ready: ready, Gates: Gates(ready),
		Values: map[string]float64{
			"bank":     0.6,
			"pitch":    1.2,
			"airspeed": *Gates(ready)[2].Value,
			"altitude": 5000,
			"ball":     0,
		},
		Stall: ptr(80), Deck: ptr(3500), Point: ptr(90), PointBy: "position", PointFar: ptr(pointFar),
		Ground: &coach.Ground{Track: ptr(94), Drift: ptr(4), Wind: &coach.Wind{From: 10, Speed: 12}},
		Line:   &coach.Line{Heading: 90, Side: "right", Off: 0.4},
	}
}

// Recovering returns a frame after the exit of a leg that waits for its verdict.
func Recovering(time float64, leg int) *coach.Frame {
	f := At(time, Turn-1, 0)
	f.State, f.Phase, f.Next, f.Cues = "after", "after", nil, []coach.NextCue{}
	f.Awaited = &coach.Awaited{Leg: leg, Start: time - 25}
	return f
}

// The made-up path over the ground is a half circle about a point off the wing.
const (
	radius   = 2400.0  // ft
	pointFar = 5.0     // NM at the entry
	nautical = 6076.12 // ft
)

// Place returns where the flight is over the ground, in ft along the entry heading and toward the turn.
func Place(turn float64) (along, across float64) {
	return radius * math.Sin(rad(turn)), radius * (1 - math.Cos(rad(turn)))
}

// ground adds the flight over the ground to a frame, and where the point stands from there.
func ground(f *coach.Frame) {
	along, across := Place(f.Turn)
	f.Ground = &coach.Ground{
		Along:  along,
		Across: across,
		Track:  ptr(94 + f.Turn),
		Drift:  ptr(4),
		Wind:   &coach.Wind{From: 10, Speed: 12},
	}
	bearing := math.Atan2(pointFar*nautical-across, -along) * 180 / math.Pi // from the entry heading
	f.Point, f.PointBy = ptr(bearing-f.Turn), "position"
	f.PointFar = ptr(math.Hypot(pointFar*nautical-across, along) / nautical)
	f.Line = &coach.Line{Heading: 90, Side: "right", Off: math.Remainder(f.Turn, 180)}
}

// At returns a frame of the leg to the right. Off is added to the bank, in degrees.
func At(time, turn, off float64) *coach.Frame {
	f := &coach.Frame{
		Time: time, State: "leg", Direction: "right", Turn: turn, Phase: phase(turn),
		Values: map[string]float64{
			"bank":        Bank(turn) + off,
			"pitch":       Pitch(turn),
			"airspeed":    Speed(turn),
			"altitude":    5000 + Climb(turn),
			"ball":        0.1,
			"normal-load": 1.2,
		},
		Climb: ptr(Climb(turn)), Stall: ptr(Speed(turn) - 75), Deck: ptr(3500 + Climb(turn)),
	}
	ground(f)
	for _, c := range Checkpoints() {
		if c.Turn > turn {
			f.Next = &coach.Next{
				Turn: c.Turn, Label: c.Label, Words: c.Words, Want: c.Want,
				Seconds: ptr(math.Round((c.Turn-turn)*Pace*100) / 100), Point: 90 - c.Turn,
			}
			break
		}
	}
	return f
}

func phase(turn float64) string {
	switch {
	case turn < 45:
		return "up"
	case turn < 90:
		return "over the top"
	case turn < 135:
		return "down"
	}
	return "roll-out"
}

// Callouts returns what is said up to each turn angle of a leg whose bank is late at 90.
func Callouts() []*coach.Callout {
	return []*coach.Callout{
		cue("at-45", "Nose high at forty-five", 28, 45),
		{Kind: coach.After, ID: "bank-at-45", Tone: "met", Turn: 45},
		cue("at-90", "Steepest at the point", 58, 90),
		{Kind: coach.After, ID: "bank-at-90", Words: "More bank", Tone: "missed", Turn: 91},
		cue("at-135", "Roll out slowly", 107, 135),
		{Kind: coach.After, ID: "pitch-at-135", Tone: "met", Turn: 136},
		cue("out", "Wings level on the line", 148, 180),
	}
}

// Pace is how long a degree of the made-up turn takes, in s.
const Pace = 0.12

// cue is something said at one turn angle of what comes at another. Due is, as with At, from the
// time of the frame that it comes with.
func cue(id, words string, at, to float64) *coach.Callout {
	return &coach.Callout{Kind: coach.Cue, ID: id, Words: words, Turn: at, To: &to, Due: ptr((to - at) * Pace)}
}

// Finished returns the graded leg, one of each verdict among its checks.
func Finished(number int, direction string, start float64) *coach.Leg {
	leg := &coach.Leg{
		Number: number, Direction: direction, Outcome: coach.Finished, Start: start, End: start + 25,
		Entry: point(0, start), Exit: &coach.Point{},
		Causes: []coach.Cause{
			{
				ID:    "underbanked",
				Share: 0.7,
				Evidence: phrase.BankWent.Of(phrase.Number("from", 25, 0, "°"), phrase.Number("start", 25, 0, "°"),
					phrase.Number("to", 58, 0, "°"), phrase.Number("end", 85, 0, "°")),
				Advice: phrase.CorrectUnderbanked.Of(),
			},
		},
	}
	*leg.Exit = point(178.6, start+25)
	for _, turn := range []float64{45, 90, 135} {
		leg.Points = append(leg.Points, point(turn, start+turn/8))
	}
	for turn := 0.0; turn < 179; turn++ {
		along, across := Place(turn)
		leg.Trace = append(leg.Trace, coach.Trace{
			Turn: turn, Time: start + turn*Pace, Along: &along, Across: &across, Bank: Bank(turn) - late(turn),
			Pitch: Pitch(turn), Airspeed: ptr(Speed(turn) + late(turn)/2), Height: ptr(Climb(turn)),
		})
	}
	leg.Checks = checks()
	for i := range leg.Checks {
		k := &leg.Checks[i]
		if k.Post = k.Turn; k.At != nil {
			k.Post = ptr(180)
		}
	}
	score.Leg(leg, score.Ended{})
	score.Tell(leg)
	leg.Change = phrase.ChangeKeepRollingToNinety.Of()
	return leg
}

// late is what the bank lacks about 90°.
func late(turn float64) float64 { return 17 * math.Exp(-math.Pow((turn-92)/22, 2)) }

// Late returns the same for frames, as what to add.
func Late(turn float64) float64 { return -late(turn) }

// Steep returns what to add to the bank of frames for a leg that is rolled past its limit after 50°.
func Steep(turn float64) float64 { return 36 * math.Exp(-math.Pow((turn-80)/16, 2)) }

func point(turn, time float64) coach.Point {
	return coach.Point{
		Turn: turn,
		Time: time,
		Values: map[string]float64{
			"bank":     Bank(turn) - late(turn),
			"pitch":    Pitch(turn),
			"airspeed": Speed(turn) + late(turn)/2,
			"altitude": 5000 + Climb(turn),
		},
	}
}
