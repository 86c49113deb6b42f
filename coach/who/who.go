// Package who says who asks for something to be changed. Every call that changes what is stored takes a [Who], which is
// kept with the change.
package who

import "halfturn/stream/phrase"

// A Role says what somebody is here for. What each role may do is in package permit.
type Role string

// The roles.
const (
	RoleOwner      Role = "owner"      // everything: the machine is theirs
	RoleInstructor Role = "instructor" // all stations, or those of a group
	RoleStudent    Role = "student"    // their own stations
	RoleViewer     Role = "viewer"     // looks at one station
)

// Roles lists the roles, from the one that may most.
func Roles() []Role { return []Role{RoleOwner, RoleInstructor, RoleStudent, RoleViewer} }

// RoleNamed returns the role of a name. The error lists the names there are.
func RoleNamed(name string) (Role, error) {
	for _, r := range Roles() {
		if string(r) == name {
			return r, nil
		}
	}
	return "", phrase.RoleUnknown.Error(phrase.Name("role", name))
}

// A Who is somebody who asks. The zero value is nobody known. What was written before there were roles has a name
// alone.
type Who struct {
	ID   string `json:"id,omitempty"` // of a user; "" for the person at the machine, a device, or a guest
	Name string `json:"name"`
	Role Role   `json:"role,omitempty"`
}

// Owner is the person whom the machine belongs to: whoever uses the command line, and whoever opens a page on it while
// no users are set up.
func Owner() Who { return Who{Name: "owner", Role: RoleOwner} }
