package logbook

import (
	"strconv"
	"time"

	"halfturn/coach/ids"
)

// SessionKey is the key of a session that began before sessions had keys.
func SessionKey(began time.Time, id, station string) string {
	return ids.Derive(began, "session", id, station)
}

// LegID is the id of a leg of a session's first grading: it follows from the key of the session and its number in it,
// from 1.
func LegID(began time.Time, session string, n int) string {
	return ids.Derive(began, "leg", session, strconv.Itoa(n))
}

// RemarkID is the id of a remark that was made before remarks had ids: it follows from the key of the session and its
// number in it.
func RemarkID(at time.Time, session string, n int) string {
	return ids.Derive(at, "remark", session, strconv.Itoa(n))
}
