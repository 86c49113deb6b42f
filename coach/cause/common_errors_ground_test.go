package cause_test

import "halfturn/stream/trainer"

// spiral is flown in wind.
func spiral(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "steep-spiral", Direction: "left", Flaw: flaw, WindFrom: 300, WindSpeed: 15}
}

// pylons are flown in wind.
func pylons(flaw string) trainer.Flight {
	return trainer.Flight{Maneuver: "eights-on-pylons", Direction: "both", Flaw: flaw, WindFrom: 300, WindSpeed: 15}
}

// slowly is a flight on pylons that slows down, since its first turn begins across the wind: the trainer's airplane
// slips only while it rolls and slows.
func slowly(f trainer.Flight) trainer.Flight {
	f.Heading = f.WindFrom - 60
	return f
}

// onLeg2 is a flight with its flaw on the second leg.
func onLeg2(f trainer.Flight) trainer.Flight {
	f.FlawLeg = 2
	return f
}

// groundErrors are the published lists for what is flown about a point on the ground. Some items are known from memory
// of the source only, as marked.
var groundErrors = []errorList{
	{"Steep spiral: FAA-H-8083-3C p. 10-4, from memory", []commonError{
		{"1", "area not cleared", "not-cleared", uncleared, sameCheck},
		{"2", "nose not let down as the bank comes on", "airspeed-slow", spiral("slow-glide"), ""},
		{"3", "bank not varied for the wind", "bank-constant", spiral("wind-ignored"), ""},
		{"4", "uncoordinated", "slip-or-skid", spiral("feet-off"), ""},
		{"5", "trim does not help", "", trainer.Flight{}, noTrim},
		{"6", "airspeed not held", "airspeed-fast", spiral("fast-glide"), ""},
		{"7", "orientation lost: turns miscounted", "too-few-turns", spiral("two-turns"), ""},
		{"8", "flown on instruments", "", trainer.Flight{}, noEyes},
		{"9", "no traffic scan", "", trainer.Flight{}, noEyes},
		{"10", "exit heading missed", "rolled-out-late", spiral("late-rollout"), ""},
		{"11", "height gained", "airspeed-slow", spiral("slow-glide"), "without power, height is gained from airspeed"},
	}},
	{"Steep spiral: FAA-H-8083-3A p. 9-3", []commonError{
		{"1", "area not cleared", "not-cleared", uncleared, sameCheck},
		{"2", "airspeed not constant", "airspeed-slow", spiral("slow-glide"), ""},
		{"3", "slip or skid", "slip-or-skid", spiral("feet-off"), ""},
		{"4", "too little correction for drift", "bank-constant", spiral("wind-ignored"), ""},
		{"5", "airspeed jumps as the straight glide resumes", "", trainer.Flight{},
			"the leg ends where the wings are level; up to there it is item 2"},
		{"6", "no traffic scan", "", trainer.Flight{}, noEyes},
		{"7", "orientation lost: turns miscounted", "too-few-turns", spiral("two-turns"), ""},
	}},
	{"Eights on pylons: FAA-H-8083-3C p. 7-18", []commonError{
		{"chief", "rudder drags the wing to the pylon", "slip-or-skid", slowly(pylons("feet-off")),
			"as the slip or skid that it makes"},
		{"1", "area not cleared", "not-cleared", uncleared, sameCheck},
		{"2", "slip or skid", "slip-or-skid", slowly(pylons("feet-off")), ""},
		{"3", "height kept, gained or lost for no reason", "altitude-constant", pylons("height-kept"), ""},
		{"4", "pylons poorly chosen", "bank-too-steep", pylons("pylon-close"),
			"for one too close"},
		{"5", "not entered into the wind", "out-of-wind", pylons("out-of-wind"), ""},
		{"6", "no allowance for drift between the pylons", "drift-between", onLeg2(pylons("drifts")), ""},
		{"7", "bank not timed for the pylon", "rolled-in-after-pylon", pylons("late-roll-in"), ""},
		{"7", "bank not timed for the pylon: too soon", "rolled-in-before-pylon", pylons("early-roll-in"), ""},
		{"8", "abrupt controls", "rough-controls", pylons("rough"), ""},
		{"9", "pivotal altitude not found", "altitude-high", pylons("too-high"), ""},
	}},
	{"Turns round a point: FAA-H-8083-3C p. 7-14", []commonError{
		{"all", "all items", "", trainer.Flight{}, noCard},
	}},
}
