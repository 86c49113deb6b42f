// Package permit says who may do what: one table of rights, and one function over it. A right is named for what is
// done, not for a page or a call; each route of the server and each command to a station says which right it takes.
//
// The rights lie in one another: whoever may instruct at a station may also fly there and watch it. What tells two
// people of one role apart is their stations.
package permit

import (
	"slices"

	"halfturn/coach/who"
)

// A Right is what somebody must be allowed for one thing to be done. The zero value is nobody's, so that what was
// forgotten is refused.
type Right string

// The rights.
const (
	Anyone   Right = "anyone"   // no right at all: files of the pages, and whatever lets somebody in
	Enter    Right = "enter"    // see the pages and the cards; ask who one is
	Watch    Right = "watch"    // see a station as it flies, and what it has flown since it came
	Read     Right = "read"     // the recorded sessions of a station: grades, files, replays
	Fly      Right = "fly"      // what whoever sits at a station does: choose, mark, remark, end, who flies
	Invite   Right = "invite"   // give somebody a link to watch a station
	Instruct Right = "instruct" // speak, stop, judge, grade again, keep, take recordings in
	Manage   Right = "manage"   // the program and its machine: network, simulators, people
)

// needs is the table: the roles that have each right.
var needs = map[Right][]who.Role{
	Enter:    {who.RoleOwner, who.RoleInstructor, who.RoleStudent, who.RoleViewer},
	Watch:    {who.RoleOwner, who.RoleInstructor, who.RoleStudent, who.RoleViewer},
	Read:     {who.RoleOwner, who.RoleInstructor, who.RoleStudent},
	Fly:      {who.RoleOwner, who.RoleInstructor, who.RoleStudent},
	Invite:   {who.RoleOwner, who.RoleInstructor, who.RoleStudent},
	Instruct: {who.RoleOwner, who.RoleInstructor},
	Manage:   {who.RoleOwner},
}

// Rights lists the rights, from the one that everybody has.
func Rights() []Right { return []Right{Anyone, Enter, Watch, Read, Fly, Invite, Instruct, Manage} }

// Stations are those that somebody has to do with, by name. The zero value is none.
type Stations struct {
	All   bool
	Names []string // when not all
}

// AllStations are all there are and will be.
func AllStations() Stations { return Stations{All: true} }

// Has reports whether a station is one of them.
func (s Stations) Has(name string) bool { return s.All || slices.Contains(s.Names, name) }

// A Caller is somebody who asks, with the stations that they have to do with. The zero value is nobody known.
type Caller struct {
	who.Who
	Stations Stations
}

// Owner is the person whom the machine belongs to.
func Owner() Caller { return Caller{who.Owner(), AllStations()} }

// Known reports whether it is known who asks.
func (c Caller) Known() bool { return c.Role != "" }

// May reports whether a right is somebody's at all, at some station or beside all of them.
func (c Caller) May(r Right) bool { return r == Anyone || slices.Contains(needs[r], c.Role) }

// MayAt reports whether somebody may do something at a station. The owner has to do with all of them.
func (c Caller) MayAt(r Right, station string) bool {
	return c.May(r) && (r == Anyone || c.Role == who.RoleOwner || c.Stations.Has(station))
}

// Everywhere reports whether somebody has a right at all stations, so that none needs to be looked up.
func (c Caller) Everywhere(r Right) bool {
	return c.May(r) && (r == Anyone || c.Role == who.RoleOwner || c.Stations.All)
}
