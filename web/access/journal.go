package access

import (
	"context"
	"net/http"
	"time"

	"halfturn/coach/people"
	"halfturn/coach/who"
)

// Bounds of the work in the background.
const (
	mostWaiting = 1024            // entries of the log that are not written yet; more are lost, and that is logged
	sweepEvery  = 2 * time.Second // how often it is looked up whether logins with open sockets have ended
)

// A journal is the log on its way to the store.
type journal struct {
	entries chan people.Entry
}

func newJournal() journal { return journal{make(chan people.Entry, mostWaiting)} }

// Note notes what somebody known asked to be changed, on what, and the status of the answer. It waits for nothing.
func (a *Access) Note(r *http.Request, by who.Who, what, on string, status int) {
	if by.Role != "" {
		a.note(r, by, what, on, status)
	}
}

func (a *Access) note(r *http.Request, by who.Who, what, on string, status int) {
	e := people.Entry{At: time.Now(), By: by, Address: addressOf(r).String(), What: what, On: on, Status: status}
	select {
	case a.journal.entries <- e:
	default:
		a.cfg.Log.Warn().Str("by", by.Name).Str("what", what).
			Msg("too much is asked for at once; not all is in the log")
	}
}

// Run writes the log and closes the sockets of logins that have ended elsewhere, by a command or because their time is
// up, until the context ends. Then it writes what is left.
func (a *Access) Run(ctx context.Context) {
	sweep := time.NewTicker(sweepEvery)
	defer sweep.Stop()
	for {
		select {
		case <-ctx.Done():
			select {
			case e := <-a.journal.entries:
				a.write(e)
			default:
			}
			return
		case e := <-a.journal.entries:
			a.write(e)
		case now := <-sweep.C:
			a.sweep(ctx, now)
		}
	}
}

// write writes an entry and those that wait behind it.
func (a *Access) write(e people.Entry) {
	all := []people.Entry{e}
	for more := true; more && len(all) < mostWaiting; {
		select {
		case e := <-a.journal.entries:
			all = append(all, e)
		default:
			more = false
		}
	}
	if err := a.cfg.Store.Note(all...); err != nil {
		a.cfg.Log.Error().Err(err).Int("entries", len(all)).Msg("the log of what people asked for cannot be written")
	}
}

// sweep closes the sockets of logins that have ended.
func (a *Access) sweep(ctx context.Context, now time.Time) {
	logins := a.sockets.logins()
	if len(logins) == 0 {
		return
	}
	alive, err := a.cfg.Store.Alive(ctx, logins, now)
	if err != nil {
		return // the next request of each asks the store again, and says so
	}
	for _, login := range logins {
		if !alive[login] {
			a.sockets.end(login)
		}
	}
}
