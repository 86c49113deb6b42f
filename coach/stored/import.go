package stored

import (
	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/archive/take"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
)

// Importer imports recordings into an archive, graded by j, for whoever asks. Program names this program.
func (j *Judge) Importer(by who.Who, a *archive.Archive, program string) *take.Importer {
	return &take.Importer{
		Archive: a,
		By:      by,
		Program: program,
		Limits:  take.DefaultLimits,
		Follow: func(rec *play.Recording) (play.Following, logbook.Entry, error) {
			var e logbook.Entry
			follow, err := j.Follow(rec)
			if err != nil {
				return follow, e, err
			}
			lib, err := j.Library(rec)
			if err == nil {
				e.Cards = logbook.CardsOf(lib)
			}
			return follow, e, err
		},
	}
}
