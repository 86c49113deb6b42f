package query

import (
	"context"
	"database/sql"
	"encoding/json"
	"slices"
	"strings"

	"halfturn/coach/debrief"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// gradedAtOnce is how many sessions are read by the same questions: what is read of them waits in memory.
const gradedAtOnce = 100

// Graded returns the first gradings of sessions as they were kept, but for the points of the legs, with what people
// made of them. Those that are not in the logbook are left out.
func (b Questions) Graded(ctx context.Context, ids []string) (list []logbook.Graded, err error) {
	return list, b.Ask(ctx, func(tx *tables.Tx) error {
		for some := range slices.Chunk(ids, gradedAtOnce) {
			more, err := b.graded(ctx, tx, some)
			if err != nil {
				return err
			}
			list = append(list, more...)
		}
		return nil
	})
}

// graded reads some of them, in the order of the ids.
func (b Questions) graded(ctx context.Context, tx *tables.Tx, ids []string) ([]logbook.Graded, error) {
	judging := "''"
	if b.ShapeIs() >= tables.ShapeOfJudging {
		judging = "s.judging"
	}
	args, place := make([]any, len(ids)), map[string]int{}
	for i, id := range ids {
		args[i], place[id] = id, i
	}
	found, grades := make([]*logbook.Graded, len(ids)), []int64{}
	at := map[int64]*logbook.Graded{}
	rows, err := tx.QueryContext(ctx, `SELECT s.id, g.key, s.began, s.ended, `+judging+` FROM sessions s
		JOIN grades g ON g.session = s.key AND g.n = 1 WHERE s.id IN (?`+strings.Repeat(", ?", len(ids)-1)+`)`, args...)
	err = tables.Each(rows, err, func() error {
		one := logbook.Graded{Report: debrief.New(), Judging: logbook.NewJudging()}
		var grade, began int64
		var ended sql.NullInt64
		var text string
		if err := rows.Scan(&one.Session, &grade, &began, &ended, &text); err != nil {
			return err
		}
		one.Report.Session = dates(one.Session, began, ended)
		found[place[one.Session]], at[grade] = &one, &one
		grades = append(grades, grade)
		if text == "" {
			return nil
		}
		return json.Unmarshal([]byte(text), &one.Judging)
	})
	if err != nil || len(grades) == 0 {
		return nil, err
	}
	g := gradings{ctx: ctx, tx: tx, shape: b.ShapeIs()}
	all, err := g.read(grades)
	if err != nil {
		return nil, err
	}
	for grade, one := range at {
		f := debrief.FileReport{File: one.Session, Stations: all[grade]}
		if f.Stations == nil {
			f.Stations = []debrief.StationReport{}
		}
		one.Report.Files = append(one.Report.Files, f)
	}
	list := make([]logbook.Graded, 0, len(grades))
	for _, one := range found {
		if one != nil {
			list = append(list, *one)
		}
	}
	return list, nil
}
