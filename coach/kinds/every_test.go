package kinds_test

import (
	"math"

	"halfturn/coach/aircraft"
	"halfturn/coach/check"
	"halfturn/stream"
)

// wingOver is a smooth leg with every channel that a check below asks for.
func wingOver() flight {
	sin := func(turn, times float64) float64 { return math.Sin(turn * times * math.Pi / 180) }
	return flight{
		recovery: 5,
		facts: check.Facts{
			Aircraft: aircraft.Aircraft{Stall: 59},
			Duration: 28,
			Climb:    500,
			Setup:    map[string]float64{"bank": 1.5},
		},
		signals: map[stream.Channel]signal{
			stream.Heading:     func(turn float64) float64 { return 300 + turn },
			stream.Pitch:       func(turn float64) float64 { return 24*sin(turn, 2) + 2*sin(turn, 1) },
			stream.Bank:        func(turn float64) float64 { return 75 * sin(turn, 1) },
			stream.Ball:        func(turn float64) float64 { return 0.4*sin(turn, 3) + 0.1 },
			stream.RollRate:    func(turn float64) float64 { return 9 * math.Cos(turn*math.Pi/180) },
			stream.PitchRate:   func(turn float64) float64 { return 4 * math.Cos(turn*math.Pi/90) },
			stream.Airspeed:    func(turn float64) float64 { return 130 - 60*sin(turn, 1) },
			stream.Altitude:    func(turn float64) float64 { return 5000 + 900*sin(turn, 1) - turn/3 },
			stream.NormalLoad:  func(turn float64) float64 { return 1.6 + 0.5*math.Cos(turn*math.Pi/90) },
			stream.Throttle:    func(turn float64) float64 { return 0.6 + 0.02*sin(turn, 1) },
			stream.LateralLoad: func(turn float64) float64 { return 0.03 * sin(turn, 3) },
			// about a point 3,000 ft to the right of the entry, ft over those of a degree
			stream.Latitude:  func(turn float64) float64 { return 45 + (2000+30*sin(turn, 2))*sin(turn, 1)/364900 },
			stream.Longitude: func(turn float64) float64 { return 9 - 2000*math.Cos(turn*math.Pi/180)/258800 },
			stream.Height:    constant(900),
		},
	}
}

// A judged is a check of each kind, and how far its measure may depend on the sample rate.
type judged struct {
	check   *check.Spec
	channel stream.Channel // what it cannot do without
	rate    float64        // between 20 and 60 samples a second
}

// everyKind has at least one check of each kind that judges a leg.
func everyKind() map[string]judged {
	smooth := func(k *check.Spec) { highest(k); k.Smooth, k.Within = 0.5, 1 }
	return map[string]judged{
		"set-up":          {check: &check.Spec{Kind: "set-up", Channel: "bank"}, channel: stream.NumChannels},
		"value":           {at("bank", 90), stream.Bank, 0.001},
		"value at exit":   {&check.Spec{Kind: "value", Channel: "airspeed", At: "exit"}, stream.Airspeed, 1e-9},
		"value of margin": {at("stall-margin", 45), stream.NormalLoad, 0.01},
		"extreme":         {with(over("extreme", "ball", 0, 180), highest), stream.Ball, 0.002},
		"extreme smooth":  {with(over("extreme", "pitch", 0, 90), smooth), stream.Pitch, 0.1},
		"extreme-angle":   {with(over("extreme-angle", "bank", 30, 150), smooth), stream.Bank, 0.5},
		"crossing-angle": {
			check:   with(over("crossing-angle", "pitch", 45, 135), func(k *check.Spec) { k.Falling = true }),
			channel: stream.Pitch,
			rate:    0.2,
		},
		"roll-out-angle": {over("roll-out-angle", "", 60, 180), stream.Bank, 1},
		"roll-ratio":     {&check.Spec{Kind: "roll-ratio"}, stream.Bank, 0.02},
		"change":         {&check.Spec{Kind: "change", Channel: "altitude"}, stream.Altitude, 1e-9},
		"departure":      {&check.Spec{Kind: "departure", Channel: "power"}, stream.Throttle, 0.0002},
		"mean":           {over("mean", "roll-rate", 20, 85), stream.RollRate, 0.05},
		"rms":            {with(over("rms", "ball", 0, 180), smooth), stream.Ball, 0.01},
		"share": {
			check:   with(over("share", "ball", 0, 180), func(k *check.Spec) { k.Within = 0.25 }),
			channel: stream.Ball,
			rate:    0.01,
		},
		"reversal":        {over("reversal", "pitch", 0, 90), stream.Pitch, 0.15},
		"rise":            {over("rise", "lateral-load", 30, 120), stream.LateralLoad, 0.001},
		"smoothness":      {over("smoothness", "roll-rate", 0, 180), stream.RollRate, 0.02},
		"smoothness fast": {over("smoothness", "pitch-rate", 0, 180), stream.PitchRate, 0.02},
		"rhythm":          {check: over("rhythm", "", 0, 180), channel: stream.NumChannels, rate: 1e-6},
		"ball-centered": {
			check:   with(over("ball-centered", "slip", 0, 180), func(k *check.Spec) { k.Within = 0.25 }),
			channel: stream.Ball,
			rate:    0.01,
		},
		"pace": {check: &check.Spec{Kind: "pace"}, channel: stream.NumChannels},
		"held": {
			check: with(over("held", "bank", 30, 150), func(k *check.Spec) { k.Aim = ptr(70) }), channel: stream.Bank,
			rate: 0.6,
		},
		"round":     {over("round", "", 10, 180), stream.Latitude, 0.02},
		"sight":     {over("sight", "", 10, 180), stream.Latitude, 0.6},
		"abeam":     {over("abeam", "", 10, 180), stream.Latitude, 0.6},
		"apart":     {over("apart", "", 10, 180), stream.Latitude, 60},
		"range":     {over("range", "altitude", 20, 160), stream.Altitude, 2},
		"steady":    {&check.Spec{Kind: "steady", Channel: "bank"}, stream.Bank, 0.3},
		"even-rate": {over("even-rate", "bank", 90, 180), stream.Bank, 0.1},
		"pause": {
			check:   with(over("pause", "pitch", 10, 170), func(k *check.Spec) { k.Within = 2 }),
			channel: stream.Pitch,
			rate:    0.01,
		},
		"up-down": {over("up-down", "pitch", 0, 180), stream.Pitch, 0.005},
		"mirror":  {over("mirror", "", 45, 135), stream.Altitude, 0.005},
		"gain":    {&check.Spec{Kind: "gain"}, stream.Altitude, 1e-9},
		"after-exit": {
			check:   with(&check.Spec{Kind: "after-exit", Channel: "altitude"}, lowest),
			channel: stream.Altitude,
			rate:    1,
		},
		"kept": {&check.Spec{Kind: "kept", Channel: "airspeed", Within: 20}, stream.Airspeed, 0.06},
		"falls": {
			check:   with(over("reversal", "airspeed", 45, 180), func(k *check.Spec) { k.Falling = true }),
			channel: stream.Airspeed,
			rate:    0.5,
		},
	}
}
