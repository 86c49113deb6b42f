package queue

import (
	"errors"
	"time"

	"halfturn/coach/logbook"
	"halfturn/stream/phrase"
)

// mostReports is how many reports wait. A report is by far the largest part of what waits of a session: of the sessions
// that ended first it is dropped past that, and made from their folders when they are entered.
const mostReports = 200

// bound drops the reports of the oldest sessions that have ended while more wait than may. It is called with the lock.
func (w *Writer) bound() {
	if len(w.order) <= mostReports {
		return
	}
	reports := 0
	for _, p := range w.work {
		if p.report != nil {
			reports++
		}
	}
	for _, id := range w.order {
		if reports <= mostReports {
			return
		}
		if p := w.work[id]; p.report != nil && !p.ended.IsZero() {
			p.report, p.again = nil, true
			reports--
		}
	}
}

// waiting is how many sessions wait, that which is being entered among them. It is called with the lock.
func (w *Writer) waiting() int {
	if w.entering != "" && w.work[w.entering] == nil {
		return len(w.work) + 1
	}
	return len(w.work)
}

// note notes since when the logbook's database has been away, by what came of entering a session.
func (w *Writer) note(err error, now time.Time) {
	w.mu.Lock()
	defer w.mu.Unlock()
	switch {
	case !errors.Is(err, logbook.ErrAway):
		w.away = time.Time{}
	case w.away.IsZero():
		w.away = now
	}
}

// Lacking says in words for people how many sessions wait while the logbook's database is away; nothing while it
// answers.
func (w *Writer) Lacking(now time.Time) []phrase.Phrase {
	w.mu.Lock()
	defer w.mu.Unlock()
	if w.away.IsZero() {
		return nil
	}
	return []phrase.Phrase{phrase.LogbookAway.Of(
		phrase.Number("time", max(now.Sub(w.away), 0).Minutes(), 0, "min"),
		phrase.Int("n", w.waiting()),
	)}
}
