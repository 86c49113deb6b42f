package cause_test

import (
	"testing"

	"halfturn/coach"
	"halfturn/coach/maneuver"
	"halfturn/configs"
	"halfturn/stream/trainer"
)

// TestGroundFlaws: the flaws of what is flown about a point on the ground are the first or second cause named, in wind;
// what causes them and what to do is FAA-H-8083-3C p. 10-4 and 7-15 to 7-18.
func TestGroundFlaws(t *testing.T) {
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ maneuver, flaw, want string }{
		{"steep-spiral", "wind-ignored", "bank-constant"},
		{"steep-spiral", "fast-glide", "airspeed-fast"},
		{"steep-spiral", "slow-glide", "airspeed-slow"},
		{"steep-spiral", "small-circle", "overbanked"},
		{"steep-spiral", "two-turns", "too-few-turns"},
		{"steep-spiral", "early-rollout", "rolled-out-early"},
		{"steep-spiral", "late-rollout", "rolled-out-late"},
		{"steep-spiral", "feet-off", "slip-or-skid"},
		{"steep-spiral", "power-changed", "power-not-idle"},
		{"eights-on-pylons", "height-kept", "altitude-constant"},
		{"eights-on-pylons", "too-high", "altitude-high"},
		{"eights-on-pylons", "too-low", "altitude-low"},
		{"eights-on-pylons", "pylon-close", "bank-too-steep"},
		{"eights-on-pylons", "feet-off", "slip-or-skid"},
		{"eights-on-pylons", "out-of-wind", "out-of-wind"},
		{"eights-on-pylons", "early-roll-in", "rolled-in-before-pylon"},
		{"eights-on-pylons", "late-roll-in", "rolled-in-after-pylon"},
		{"eights-on-pylons", "rough", "rough-controls"},
	} {
		f := trainer.Flight{Maneuver: c.maneuver, Flaw: c.flaw, Airplane: "light-single", Seed: 3, WindFrom: 40,
			WindSpeed: 15}
		if c.flaw == "feet-off" { // the trainer's airplane slips only while it rolls and slows
			f.Heading = 340
		}
		list := fly(t, lib, f)
		if len(list) == 0 || len(list[0].Legs) == 0 {
			t.Errorf("%s %s: no leg", c.maneuver, c.flaw)
			continue
		}
		l := &list[0].Legs[0]
		rank, ids := 0, []string{}
		for i, x := range l.Causes {
			ids = append(ids, x.ID)
			if x.ID == c.want {
				rank = i + 1
			}
		}
		if rank == 0 || rank > 2 {
			t.Errorf("%s %s: %s is not the first or second of %v", c.maneuver, c.flaw, c.want, ids)
		}
		if l.About == nil && l.Outcome == coach.Finished {
			t.Errorf("%s %s: the point was not found", c.maneuver, c.flaw)
		}
	}
}
