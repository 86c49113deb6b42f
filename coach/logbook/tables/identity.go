package tables

import (
	"strconv"

	"halfturn/coach/ids"
	"halfturn/coach/logbook"
)

// An Identity is what the ids of the legs of a grading follow from.
type Identity struct {
	Session string // its id
	Began   int64
	Grading int
}

// IdentityOf looks up what the ids of the legs of a grading follow from.
func IdentityOf(tx *Tx, grade int64) (*Identity, error) {
	of := &Identity{}
	err := tx.QueryRow(`SELECT s.uid, s.began, g.n FROM grades g JOIN sessions s ON s.key = g.session WHERE g.key = ?`,
		grade).
		Scan(&of.Session, &of.Began, &of.Grading)
	return of, err
}

// Leg is the id of a leg by its number in the session, from 1.
func (of *Identity) Leg(n int) string {
	if of.Grading == 1 {
		return logbook.LegID(Moment(of.Began), of.Session, n)
	}
	return ids.Derive(Moment(of.Began), "leg", of.Session, strconv.Itoa(n), strconv.Itoa(of.Grading))
}

// StudentID is the id of a student who was met before students had ids.
func StudentID(session, fold string, flew int64) string {
	return ids.Derive(Moment(flew), "student", session, fold)
}
