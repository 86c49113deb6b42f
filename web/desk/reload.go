package desk

import (
	"halfturn/coach/archive"
	"halfturn/coach/maneuver"
)

// A Reload is what changes at a desk when the configuration is read again.
type Reload struct {
	Library   *maneuver.Library
	Compress  bool // as in Recording
	Retention archive.Retention
}

// Prepare checks a change. The error says why the desk goes on as it is. Otherwise apply makes the change: sessions
// that begin from now on are flown by the new cards, those under way by the cards they began with. cards reports
// whether any card has changed.
func (d *Desk) Prepare(r Reload) (apply func(), cards bool, err error) {
	now := d.menu.Load()
	next, err := now.Next(r.Library)
	if err != nil {
		return nil, false, err
	}
	return func() {
		d.menu.Store(next)
		if d.cfg.Recording != nil {
			d.upkeep.Change(r.Compress, r.Retention)
		}
	}, next != now, nil
}
