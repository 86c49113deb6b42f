package change

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"reflect"

	"halfturn/coach/assess"
	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
	"halfturn/coach/logbook/tables/query"
)

// judge notes what people made of the grades of a session. The rows of its legs stay as computed; what lists and trends
// show of it follows what was overruled.
func judge(tx *tables.Tx, session int64, j *logbook.Judging) error {
	was, err := query.Judging(tx, session)
	if err != nil {
		return err
	}
	text := ""
	if !j.IsZero() {
		data, err := json.Marshal(j)
		if err != nil {
			return err
		}
		text = string(data)
	}
	if _, err := tx.Exec(`UPDATE sessions SET judging = ? WHERE key = ?`, text, session); err != nil {
		return err
	}
	if len(was.Overruled) == 0 && len(j.Overruled) == 0 || reflect.DeepEqual(was.Overruled, j.Overruled) {
		return nil
	}
	var grade int64
	err = tx.QueryRow(`SELECT key FROM grades WHERE session = ? AND n = 1`, session).Scan(&grade)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	if err != nil {
		return err
	}
	stations, err := query.StationsFrom(context.Background(), tx, grade, query.NewestShape)
	if err != nil {
		return err
	}
	r := debrief.New()
	r.Files = []debrief.FileReport{{Stations: stations}}
	return summarize(tx, session, grade, r)
}

// summarize writes what lists and trends show of the first grading of a session, with what was overruled.
func summarize(tx *tables.Tx, session, grade int64, r *debrief.Report) error {
	titles, err := titlesOf(tx, grade)
	if err != nil {
		return err
	}
	j, err := query.Judging(tx, session)
	if err != nil {
		return err
	}
	return summary(tx, session, grade, logbook.TallyOf(assess.Report(r, &j), titles))
}
