package tables

import (
	"database/sql"
	"errors"
	"strconv"
	"strings"
	"time"

	"halfturn/coach/logbook"
)

// Each goes through rows and closes them.
func Each(rows *sql.Rows, err error, take func() error) error {
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := take(); err != nil {
			return err
		}
	}
	return rows.Err()
}

// One makes an error of a change that met no session.
func One(id string) func(sql.Result, error) error {
	return func(r sql.Result, err error) error {
		if err != nil {
			return err
		}
		if n, err := r.RowsAffected(); err != nil || n > 0 {
			return err
		}
		return &logbook.NotFound{ID: id}
	}
}

// Find looks a session up.
func Find(tx *Tx, id string) (key, began int64, err error) {
	err = tx.QueryRow(`SELECT key, began FROM sessions WHERE id = ?`, id).Scan(&key, &began)
	if errors.Is(err, sql.ErrNoRows) {
		err = &logbook.NotFound{ID: id}
	}
	return key, began, err
}

// Flag is a flag as the tables have it.
func Flag(is bool) int {
	if is {
		return 1
	}
	return 0
}

// Stamp is a time as the tables have it, ms since 1970; NULL for the zero time.
func Stamp(t time.Time) sql.NullInt64 {
	return sql.NullInt64{Int64: t.UnixMilli(), Valid: !t.IsZero()}
}

// Moment is a time from the tables, ms since 1970.
func Moment(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// MomentOr is the zero time for NULL.
func MomentOr(ms sql.NullInt64) time.Time {
	if !ms.Valid {
		return time.Time{}
	}
	return Moment(ms.Int64)
}

// Text makes a text one that every database takes: UTF-8 without zero bytes. Other values stay as they are.
func Text(v any) any {
	if s, ok := v.(string); ok {
		return strings.ReplaceAll(strings.ToValidUTF8(s, "\uFFFD"), "\x00", "")
	}
	return v
}

// Joined are keys with commas between them.
func Joined(keys []int64) string {
	var b []byte
	for i, key := range keys {
		if i > 0 {
			b = append(b, ',')
		}
		b = strconv.AppendInt(b, key, 10)
	}
	return string(b)
}
