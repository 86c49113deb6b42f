package permit

import (
	"testing"

	"halfturn/coach/who"
)

// The roles as they are described to people: a viewer looks at one station, a student flies at their own, an instructor
// teaches at all or at those of a group, the owner does everything, and nobody known does nothing.
func TestRoles(t *testing.T) {
	const o, i, s, v, n = who.RoleOwner, who.RoleInstructor, who.RoleStudent, who.RoleViewer, who.Role("")
	table := map[Right]map[who.Role]bool{
		Anyone:   {o: true, i: true, s: true, v: true, n: true},
		Enter:    {o: true, i: true, s: true, v: true},
		Watch:    {o: true, i: true, s: true, v: true},
		Read:     {o: true, i: true, s: true},
		Fly:      {o: true, i: true, s: true},
		Invite:   {o: true, i: true, s: true},
		Instruct: {o: true, i: true},
		Manage:   {o: true},
		"":       {},
		"other":  {},
	}
	for _, r := range Rights() {
		if table[r] == nil {
			t.Errorf("the right %q has no row here", r)
		}
	}
	own := Stations{Names: []string{"Seat 3", "Seat 4"}}
	for right, roles := range table {
		for _, role := range append(who.Roles(), n, "admin") {
			c := Caller{who.Who{Name: "Ada", Role: role}, own}
			roles[role] = roles[role] || right == Anyone
			if c.May(right) != roles[role] || c.MayAt(right, "Seat 3") != roles[role] {
				t.Errorf("%q may %q: %v; must be %v", role, right, c.May(right), roles[role])
			}
			elsewhere := roles[role] && (role == o || right == Anyone)
			if c.MayAt(right, "Seat 1") != elsewhere || c.Everywhere(right) != elsewhere {
				t.Errorf("%q may %q at the station of another: %v; must be %v", role, right,
					c.MayAt(right, "Seat 1"), elsewhere)
			}
			c.Stations = AllStations()
			if c.MayAt(right, "Seat 1") != roles[role] || c.Everywhere(right) != roles[role] {
				t.Errorf("%q of all stations may %q: %v", role, right, c.MayAt(right, "Seat 1"))
			}
		}
	}
}

// Rights lie in one another, as the package says.
func TestRightsNest(t *testing.T) {
	for _, role := range who.Roles() {
		c, has := Caller{Who: who.Who{Role: role}}, true
		for _, r := range Rights() {
			if c.May(r) && !has {
				t.Errorf("%s may %s and not what comes before it", role, r)
			}
			has = c.May(r)
		}
	}
}

func TestNobody(t *testing.T) {
	var nobody Caller
	if nobody.Known() || nobody.May(Enter) || nobody.MayAt(Watch, "") || !nobody.May(Anyone) {
		t.Errorf("nobody known is %+v", nobody)
	}
	if !Owner().Known() || !Owner().MayAt(Manage, "") || !Owner().Everywhere(Fly) {
		t.Errorf("the owner is %+v", Owner())
	}
}
