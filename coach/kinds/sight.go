package kinds

import (
	"halfturn/coach/check"
	"halfturn/coach/ground"
)

const sightSays = "mean angle by which the pylon was ahead of the wing line or behind it"

var sightKind = &check.Kind{
	Name:   "sight",
	Says:   sightSays,
	Needs:  []string{"from", "to"},
	Allows: []string{},
	Valid:  anything,
	Where:  as(sightSays),
	Unit:   in("°"),
	Leg: func(s *check.Spec, f *check.Facts) check.Judge {
		return &sight{about: newAbout(s, f)}
	},
	Bands:  check.Tolerances,
	Looks:  check.OnAverage,
	Known:  check.AtEnd,
	Doubt:  check.Undoubted,
	Told:   check.WithPlace,
	Counts: check.NoCount,
}

// sight measures how well a pylon was kept on the wing: the mean of how far it was off the wing line in the plane of
// the wings, to either side; its place is where it was farthest off. The pylon is the one that was chosen, else the one
// that the banks were flown to.
type sight struct{ about }

func (s *sight) Measure(*check.Moment) check.Measure {
	to := s.end()
	pylon, ok := PylonOf(s.facts, s.from, to)
	if !ok {
		return s.none()
	}
	_, off := s.facts.Way().Ahead(pylon, s.facts.Side, s.from, to)
	return check.Found(off.Value, off.Turn)
}

// PylonOf returns the pylon that a turn kept on the wing between two turn angles, °.
func PylonOf(f *check.Facts, from, to float64) (ground.Spot, bool) {
	if f.Chosen != nil {
		return f.Way().Given(*f.Chosen, from, to)
	}
	return f.Way().Pylon(f.Side, from, to)
}
