package store

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"halfturn/coach/logbook/tables"
	"halfturn/coach/names"
	"halfturn/coach/people"
)

const stationColumns = `id, name, grp, made, used`

func scanStation(scan func(...any) error) (s people.Station, err error) {
	var made int64
	var used sql.NullInt64
	err = scan(&s.ID, &s.Name, &s.Group, &made, &used)
	s.Made, s.Used = tables.Moment(made), tables.MomentOr(used)
	return s, err
}

// keyOrNone is NULL for the zero hash.
func keyOrNone(key people.Hash) any {
	if key == (people.Hash{}) {
		return nil
	}
	return key[:]
}

// AddStation adds a station.
func (s store) AddStation(station people.Station, key people.Hash) error {
	return s.Change(func(tx *tables.Tx) error {
		err := errors.Join(
			taken(tx, "stations", "a station", station.Name),
			room(tx, "stations", people.MostStations, `SELECT count(*) FROM stations`),
		)
		if err != nil {
			return err
		}
		_, err = tx.Exec(`INSERT INTO stations (id, name, fold, grp, key, made) VALUES (?, ?, ?, ?, ?, ?)`, station.ID,
			station.Name, names.Key(station.Name), station.Group, keyOrNone(key), station.Made.UnixMilli())
		return err
	})
}

// Stations lists the stations by name.
func (s store) Stations(ctx context.Context) ([]people.Station, error) {
	return ask(ctx, s, scanStation, `SELECT `+stationColumns+` FROM stations ORDER BY fold`)
}

// usedEvery is how exactly the time is kept at which a key was last brought.
const usedEvery = time.Minute

// StationOf returns the station of a key. That it was brought is noted where the database takes it.
func (s store) StationOf(ctx context.Context, key people.Hash, now time.Time) (station people.Station, err error) {
	if key == (people.Hash{}) {
		return station, &people.NotFound{What: "station with that key"}
	}
	// What looks at a key every few seconds does not write each time.
	known, err := ask(ctx, s, scanStation, `SELECT `+stationColumns+` FROM stations WHERE key = ?`, key[:])
	switch {
	case err != nil:
		return station, err
	case len(known) == 0:
		return station, &people.NotFound{What: "station with that key"}
	case now.Sub(known[0].Used).Abs() < usedEvery:
		return known[0], nil
	}
	err = s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`UPDATE stations SET used = ? WHERE key = ?`, now.UnixMilli(), key[:])
		if err := one(r, err, "station with that key"); err != nil {
			return err
		}
		station, err = scanStation(tx.QueryRowContext(ctx, `SELECT `+stationColumns+` FROM stations WHERE key = ?`,
			key[:]).Scan)
		return err
	})
	var gone *people.NotFound
	if err != nil && !errors.As(err, &gone) { // it can only be read
		return known[0], nil
	}
	return station, err
}

// HasKey reports whether a station has a key.
func (s store) HasKey(ctx context.Context, station string) (bool, error) {
	known, err := ask(ctx, s, scanStation, `SELECT `+stationColumns+` FROM stations WHERE fold = ? AND key IS NOT NULL`,
		names.Key(station))
	return len(known) > 0, err
}

// SetKey gives a station another key.
func (s store) SetKey(id string, key people.Hash) error {
	return s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`UPDATE stations SET key = ?, used = NULL WHERE id = ?`, keyOrNone(key), id)
		return one(r, err, "such station")
	})
}

// RemoveStation removes a station.
func (s store) RemoveStation(id string) error {
	return s.Change(func(tx *tables.Tx) error {
		r, err := tx.Exec(`DELETE FROM stations WHERE id = ?`, id)
		return one(r, err, "such station")
	})
}
