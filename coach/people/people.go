package people

import (
	"slices"
	"time"

	"halfturn/coach/permit"
	"halfturn/coach/who"
)

// A User is somebody with a name and a password.
type User struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"` // as they write it; no two have the same one, whatever its capitals
	Role     who.Role  `json:"role"`
	Stations []string  `json:"stations,omitempty"` // those they have to do with, by name
	Group    string    `json:"group,omitempty"`    // and those of this group
	Made     time.Time `json:"made"`
}

// Who is the user as one who asks.
func (u User) Who() who.Who { return who.Who{ID: u.ID, Name: u.Name, Role: u.Role} }

// Caller is the user with the stations that they have to do with: all for the owner, and for an instructor to whom none
// was given. The stations are those known.
func (u User) Caller(known []Station) permit.Caller {
	c := permit.Caller{Who: u.Who()}
	if u.Role == who.RoleOwner || u.Role == who.RoleInstructor && u.Group == "" && len(u.Stations) == 0 {
		c.Stations = permit.AllStations()
		return c
	}
	c.Stations.Names = slices.Clone(u.Stations)
	for _, s := range known {
		if u.Group != "" && s.Group == u.Group && !slices.Contains(c.Stations.Names, s.Name) {
			c.Stations.Names = append(c.Stations.Names, s.Name)
		}
	}
	return c
}

// A Login is a browser that somebody logged in with, or that brought the link of an invitation.
type Login struct {
	ID         string    `json:"id"`                   // names the login where its secret must not stand
	User       string    `json:"user,omitempty"`       // the id of the user; "" for a guest
	Invitation string    `json:"invitation,omitempty"` // the id of the invitation of a guest; "" for a user
	Made       time.Time `json:"made"`
	Seen       time.Time `json:"seen"`  // when it was last used, to the hour
	Until      time.Time `json:"until"` // when it ends
}

// An Invitation lets whoever has its link watch one station.
type Invitation struct {
	ID      string    `json:"id"`
	Station string    `json:"station"`
	For     string    `json:"for,omitempty"` // whom it was made for, in words
	By      who.Who   `json:"by"`
	Made    time.Time `json:"made"`
	Until   time.Time `json:"until"`
}

// Caller is the guest who brings the link.
func (i Invitation) Caller() permit.Caller {
	name := i.For
	if name == "" {
		name = "guest"
	}
	return permit.Caller{
		Who:      who.Who{Name: name, Role: who.RoleViewer},
		Stations: permit.Stations{Names: []string{i.Station}},
	}
}

// A Station is one that sends from elsewhere with a key of its own, or one that belongs to a group.
type Station struct {
	ID    string    `json:"id"`
	Name  string    `json:"name"` // as on the pages; no two have the same one, whatever its capitals
	Group string    `json:"group,omitempty"`
	Made  time.Time `json:"made"`
	Used  time.Time `json:"used,omitzero"` // when its key was last brought
}

// An Entry is one line of the log: somebody asked for something.
type Entry struct {
	At      time.Time `json:"at"`
	By      who.Who   `json:"by"`
	Address string    `json:"address,omitempty"` // they asked from, without the port
	What    string    `json:"what"`              // the route, or the command
	On      string    `json:"on,omitempty"`      // the station, session, user or link that it was about
	Status  int       `json:"status,omitempty"`  // the HTTP status of the answer
}

// Bounds of what is kept.
const (
	MostUsers       = 1000
	MostStations    = 1000
	MostInvitations = 200     // that have not ended
	MostLogins      = 20      // of one user or invitation: the oldest ends
	MostEntries     = 100_000 // of the log: the oldest go
)

// How long a login lasts: for LoginLasts in any case, and while it is used again within LoginIdle.
const (
	LoginLasts = 30 * 24 * time.Hour
	LoginIdle  = 7 * 24 * time.Hour
)

// LongestInvitation is the longest that a link may last.
const LongestInvitation = 30 * 24 * time.Hour
