package stored

import (
	"context"
	"time"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/assess"
	"halfturn/coach/course"
	"halfturn/coach/logbook"
)

// FlownBy returns the graded legs of a student as they stand once everything that was overruled is counted, in the
// order in which they were flown, at some stations; nil is all. The days of the legs are those of a time zone. The
// error is a [*logbook.Refused] for a student who is not in the logbook.
func FlownBy(
	ctx context.Context, a *archive.Archive, name string, stations []string, zone *time.Location,
) (known string, legs []course.Flown, err error) {
	known, flown, err := sessionsOf(ctx, a, name, stations)
	if err != nil {
		return "", nil, err
	}
	return known, legsOf(flown, zone), nil
}

// legsOf are the legs of sessions, whose days are those of a time zone.
func legsOf(flown []assess.Flown, zone *time.Location) (legs []course.Flown) {
	for i := range flown {
		f, n := &flown[i], 0
		for _, station := range logbook.Stations(f.Report) {
			for k := range station.Series {
				s := &station.Series[k]
				for m := range s.Legs {
					n++
					legs = append(legs, course.Flown{
						Session:  f.Session,
						Number:   n,
						Began:    f.Began.In(zone),
						Maneuver: s.Maneuver,
						Standard: s.Standard,
						Aircraft: s.Aircraft,
						Within:   s.Verdict == coach.Met,
						Signed:   f.Signed,
						Leg:      &s.Legs[m],
					})
				}
			}
		}
	}
	return legs
}
