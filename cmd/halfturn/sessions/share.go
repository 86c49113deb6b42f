package sessions

import (
	"context"
	"errors"
	"io"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/play"
	"halfturn/coach/grading"
	"halfturn/coach/logbook"
	"halfturn/coach/stored"
	"halfturn/web"
	"halfturn/web/replay"
)

// share writes a recording as one HTML file.
func (e *exportCmd) share(
	ctx context.Context, s base.Streams, data string, rec *play.Recording, by grading.Judge,
) error {
	follow, err := by.Follow(rec)
	if err != nil {
		return err
	}
	files := replay.Files{Find: func(string) (replay.Recording, error) {
		return replay.Recording{Recording: rec, Following: follow}, nil
	}}
	var detail *logbook.SessionDetail
	graded := func(string) []coach.Series { return nil }
	if stored.In(data, rec) {
		graded = func(string) []coach.Series { return replay.GradedIn(rec.Dir) }
		if stored.HasLogbook(data) {
			b := bookFlags{Config: e.Config, Data: data}
			if err := b.with(ctx, s, true, func(a *archive.Archive) error {
				detail, err = a.Session(ctx, rec.Session)
				var none *logbook.NotFound
				if errors.As(err, &none) {
					return nil // it is only a folder
				}
				return err
			}); err != nil {
				return err
			}
		}
	}
	flights := replay.Judged{
		Flights: replay.NewFlights(files, nil, graded),
		Of: func(context.Context, string) (*logbook.Judging, error) {
			if detail != nil {
				return &detail.Judging, nil
			}
			judging, err := by.Judging(rec) // as it stands in the folder
			if judging == nil {
				judging = &logbook.Judging{}
			}
			return judging, err
		},
	}
	write := func(w io.Writer) error {
		return web.WriteShare(ctx, w, flights, rec.Name, detail, web.Share{Leg: e.Leg, Names: e.Names})
	}
	if e.Output == "" || e.Output == "-" {
		return write(s.Out)
	}
	return stored.WriteFile(e.Output, e.Force, write)
}
