package web

import (
	"testing"

	"halfturn/coach/message"
	"halfturn/coach/permit"
	"halfturn/coach/who"
)

// TestSees: the wall holds the stations of whoever looks: all for the owner and for an instructor of all, those of the
// group for another, one's own for a student and for a viewer.
func TestSees(t *testing.T) {
	if sees(permit.Owner()) != nil {
		t.Error("the owner's wall is filtered")
	}
	for _, role := range who.Roles() {
		c := permit.Caller{Who: who.Who{Name: "Mo", Role: role}, Stations: permit.Stations{Names: []string{"Seat 3"}}}
		for station, want := range map[string]bool{"Seat 3": true, "Seat 4": c.Everywhere(permit.Watch)} {
			may := sees(c)
			got := may == nil || may(&message.Station{Name: station})
			if got != want {
				t.Errorf("a %s of Seat 3 sees %s: %v", role, station, got)
			}
		}
	}
}
