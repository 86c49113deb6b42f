package cause

import (
	"math"

	"halfturn/coach"
	"halfturn/coach/aero"
	"halfturn/stream/phrase"
)

// energyOff is from how much energy height on it is named, ft: half of the height that the tests allow at the exit
// (FAA-S-ACS-7 area V; the half common practice, no source).
const energyOff = 50.0

// An energy is how the energy height of a leg went against the reference path: height plus V²/2g, what height and
// airspeed together are worth in ft (FAA-H-8083-3C p. 4-7).
type energy struct {
	off      float64 // ft above that of the reference path at the exit, both counted from the entry
	from, to float64 // ° of turn, between which most of it came
}

// spent returns how the energy of a finished leg went; ok is false where airspeed, height or the path is not known.
func (f *ledger) spent() (e energy, ok bool) {
	if f.plan == nil || f.plan.Card == nil || f.leg == nil || len(f.leg.Trace) == 0 || !finished(f) {
		return e, false
	}
	in := f.leg.Entry.Values
	path := f.plan.From(in["airspeed"], in["altitude"])
	if path == nil {
		return e, false
	}
	entry, start := path.At(0), aero.TrueAirspeed(in["airspeed"], in["altitude"])
	over := func(x *coach.Trace) (float64, bool) {
		if x.Airspeed == nil || x.Height == nil {
			return 0, false
		}
		there := path.At(x.Turn)
		tas := aero.TrueAirspeed(*x.Airspeed, in["altitude"]+*x.Height)
		flown := aero.EnergyHeight(*x.Height, tas) - aero.EnergyHeight(0, start)
		meant := aero.EnergyHeight(there.Height, there.TrueAirspeed) - aero.EnergyHeight(0, entry.TrueAirspeed)
		return flown - meant, true
	}
	last := &f.leg.Trace[len(f.leg.Trace)-1]
	if e.off, ok = over(last); !ok {
		return e, false
	}
	turns := f.plan.Card.Turns()
	before, most := 0.0, 0.0
	for i := 1; i < len(turns); i++ {
		x := *last
		if i < len(turns)-1 {
			if x, ok = f.at(turns[i]); !ok {
				return e, false
			}
		}
		now, ok := over(&x)
		if !ok {
			return e, false
		}
		if part := (now - before) * math.Copysign(1, e.off); part > most {
			most, e.from, e.to = part, turns[i-1], turns[i]
		}
		before = now
	}
	return e, most > 0
}

// short says where energy was lost that the reference path keeps.
func short(f *ledger) phrase.Phrase {
	e, ok := f.spent()
	if !ok || e.off > -energyOff {
		return phrase.Phrase{}
	}
	return e.told(phrase.EnergyShort)
}

// over says where energy came in that the reference path does not have.
func over(f *ledger) phrase.Phrase {
	e, ok := f.spent()
	if !ok || e.off < energyOff {
		return phrase.Phrase{}
	}
	return e.told(phrase.EnergyOver)
}

func (e energy) told(how *phrase.Definition) phrase.Phrase {
	return how.Of(
		phrase.Number("off", 10*math.Round(math.Abs(e.off)/10), 0, "ft"),
		phrase.Number("from", e.from, 0, "°"),
		phrase.Number("to", e.to, 0, "°"))
}
