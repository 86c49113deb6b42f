package db

import (
	"database/sql"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// addIDs gives what was kept before there were ids the ids that follow from what is known of it: the same that its
// folder gives.
func addIDs(tx *sql.Tx) error {
	for _, fill := range []func(*sql.Tx) error{sessionIDs, studentIDs, remarkIDs, legIDs} {
		if err := fill(tx); err != nil {
			return err
		}
	}
	_, err := tx.Exec(`CREATE UNIQUE INDEX students_uid ON students (uid); CREATE INDEX sessions_uid ON sessions (uid)`)
	return err
}

// fillIDs sets the id of each row of a table to what make gives for the rows of a query: a key and what the id follows
// from.
func fillIDs(tx *sql.Tx, table, query string, make func(rows *sql.Rows) (key int64, uid string, err error)) error {
	type row struct {
		key int64
		uid string
	}
	var all []row
	rows, err := tx.Query(query)
	err = tables.Each(rows, err, func() error {
		key, uid, err := make(rows)
		all = append(all, row{key, uid})
		return err
	})
	if err != nil {
		return err
	}
	set, err := tx.Prepare(`UPDATE ` + table + ` SET uid = ? WHERE key = ?`)
	if err != nil {
		return err
	}
	defer set.Close()
	for _, r := range all {
		if _, err := set.Exec(r.uid, r.key); err != nil {
			return err
		}
	}
	return nil
}

func sessionIDs(tx *sql.Tx) error {
	return fillIDs(tx, "sessions", `SELECT key, id, began, station FROM sessions`, func(rows *sql.Rows) (int64, string,
		error) {
		var key, began int64
		var id, station string
		err := rows.Scan(&key, &id, &began, &station)
		return key, logbook.SessionKey(tables.Moment(began), id, station), err
	})
}

func studentIDs(tx *sql.Tx) error {
	// A student who flew nothing that is still there has only the name.
	return fillIDs(tx, "students", `SELECT t.key, t.fold, coalesce(s.uid, ''), coalesce(s.began, 0) FROM students t
		LEFT JOIN sessions s ON s.key = (SELECT key FROM sessions WHERE student = t.key ORDER BY began, id LIMIT 1)`,
		func(rows *sql.Rows) (int64, string, error) {
			var key, began int64
			var fold, session string
			err := rows.Scan(&key, &fold, &session, &began)
			return key, tables.StudentID(session, fold, began), err
		})
}

func remarkIDs(tx *sql.Tx) error {
	return fillIDs(tx, "remarks", `SELECT r.key, r.id, r.at, s.uid FROM remarks r JOIN sessions s ON s.key = r.session`,
		func(rows *sql.Rows) (int64, string, error) {
			var key, at int64
			var n int
			var session string
			err := rows.Scan(&key, &n, &at, &session)
			return key, logbook.RemarkID(tables.Moment(at), session, n), err
		})
}

func legIDs(tx *sql.Tx) error {
	return fillIDs(tx, "legs", `SELECT l.key, l.n, g.n, s.uid, s.began FROM legs l
		JOIN series x ON x.key = l.series JOIN grades g ON g.key = x.grade JOIN sessions s ON s.key = g.session`,
		func(rows *sql.Rows) (int64, string, error) {
			var key int64
			var n int
			var of tables.Identity
			err := rows.Scan(&key, &n, &of.Grading, &of.Session, &of.Began)
			return key, of.Leg(n), err
		})
}
