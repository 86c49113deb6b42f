// Package peopletest is what every store of people has to do, as tests.
package peopletest

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/people"
	"halfturn/coach/permit"
	"halfturn/coach/who"
)

// An Opener opens a store that holds nobody, and closes it when the test is over.
type Opener func(t *testing.T) people.Store

// Run tests a store.
func Run(t *testing.T, open Opener) {
	for name, test := range map[string]func(*testing.T, people.Store){
		"users":           testUsers,
		"names":           testNames,
		"logins":          testLogins,
		"logins end":      testLoginsEnd,
		"logins too many": testLoginsTooMany,
		"groups":          testGroups,
		"invitations":     testInvitations,
		"stations":        testStations,
		"log":             testLog,
		"forget":          testForget,
		"text as it is":   testText,
	} {
		t.Run(name, func(t *testing.T) { test(t, open(t)) })
	}
}

// noon is when things happen.
var noon = time.Date(2031, 5, 4, 12, 0, 0, 0, time.UTC)

func hash(words string) people.Hash { return sha256.Sum256([]byte(words)) }

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// missing checks that something is not there.
func missing(t *testing.T, what string, err error) {
	t.Helper()
	var none *people.NotFound
	if !errors.As(err, &none) {
		t.Errorf("%s: %v; must be not found", what, err)
	}
}

func user(id, name string, role who.Role) people.User {
	return people.User{ID: id, Name: name, Role: role, Made: noon}
}

func login(id, user string) people.Login {
	return people.Login{ID: id, User: user, Made: noon, Seen: noon, Until: noon.Add(people.LoginLasts)}
}

func testUsers(t *testing.T, s people.Store) {
	ada := user("1", "Ada Example", who.RoleStudent)
	ada.Stations = []string{"Seat 3"}
	bo := user("2", "Bo Example", who.RoleInstructor)
	must(t, s.AddUser(bo, "hash of Bo's"), s.AddUser(ada, "hash of Ada's"))
	all, err := s.Users(t.Context())
	must(t, err)
	if d := cmp.Diff([]people.User{ada, bo}, all); d != "" {
		t.Errorf("the users (-added +listed):\n%s", d)
	}
	u, password, err := s.UserNamed(t.Context(), "ADA  example")
	if d := cmp.Diff(ada, u); d != "" || password != "hash of Ada's" || err != nil {
		t.Errorf("by another spelling: %q, %v\n%s", password, err, d)
	}
	ada.Role, ada.Stations, ada.Group = who.RoleInstructor, nil, "evening"
	must(t, s.ChangeUser(ada), s.SetPassword("1", "another"))
	u, password, err = s.UserNamed(t.Context(), "Ada Example")
	if d := cmp.Diff(ada, u); d != "" || password != "another" || err != nil {
		t.Errorf("changed: %q, %v\n%s", password, err, d)
	}
	must(t, s.RemoveUser("1"))
	_, _, err = s.UserNamed(t.Context(), "Ada Example")
	missing(t, "removed", err)
	missing(t, "removed again", s.RemoveUser("1"))
	missing(t, "changed when removed", s.ChangeUser(ada))
	missing(t, "a password of nobody", s.SetPassword("1", "x"))
}

// Two users, or two stations, never have one name.
func testNames(t *testing.T, s people.Store) {
	must(t, s.AddUser(user("1", "Zoë Example", who.RoleStudent), "x"))
	must(t, s.AddStation(people.Station{ID: "1", Name: "Seat 3", Made: noon}, hash("a")))
	var taken *people.Taken
	for _, name := range []string{"Zoë Example", "ZOË EXAMPLE", "Zoe\u0308  Example"} {
		err := s.AddUser(user("2", name, who.RoleOwner), "y")
		if !errors.As(err, &taken) || taken.Name != "Zoë Example" {
			t.Errorf("%q: %v", name, err)
		}
	}
	if err := s.AddStation(people.Station{ID: "2", Name: "seat 3", Made: noon}, hash("b")); !errors.As(err, &taken) {
		t.Errorf("a second station: %v", err)
	}
	must(t, s.AddStation(people.Station{ID: "2", Name: "Zoë Example", Made: noon}, hash("b")))
}

func testLogins(t *testing.T, s people.Store) {
	ada := user("1", "Ada Example", who.RoleStudent)
	ada.Stations = []string{"Seat 3"}
	must(t, s.AddUser(ada, "x"), s.AddLogin(login("a", "1"), hash("token a")), s.AddLogin(login("b", "1"), hash("b")))
	l, c, err := s.Login(t.Context(), hash("token a"), noon.Add(time.Minute))
	must(t, err)
	want := permit.Caller{
		Who:      who.Who{ID: "1", Name: "Ada Example", Role: who.RoleStudent},
		Stations: permit.Stations{Names: []string{"Seat 3"}},
	}
	if d := cmp.Diff(want, c) + cmp.Diff(login("a", "1"), l); d != "" {
		t.Errorf("logged in (-added +read):\n%s", d)
	}
	for _, bad := range []string{"", "token A", "token a ", "x"} {
		_, c, err := s.Login(t.Context(), hash(bad), noon)
		missing(t, bad, err)
		if c.Known() {
			t.Errorf("the token %q is %+v", bad, c)
		}
	}
	later := noon.Add(90 * time.Minute)
	if l, _, err := s.Login(t.Context(), hash("token a"), later); err != nil || !l.Seen.Equal(later) {
		t.Errorf("used later: %+v, %v", l, err)
	}
	must(t, s.EndLogin("a"), s.EndLogin("a"))
	_, _, err = s.Login(t.Context(), hash("token a"), noon)
	missing(t, "ended", err)
	there, err := s.Alive(t.Context(), []string{"a", "b", "c"}, noon)
	if d := cmp.Diff(map[string]bool{"a": false, "b": true, "c": false}, there); d != "" || err != nil {
		t.Errorf("alive: %v\n%s", err, d)
	}
}

// A login ends by itself, and with what was changed or removed.
func testLoginsEnd(t *testing.T, s people.Store) {
	ada, bo := user("1", "Ada", who.RoleOwner), user("2", "Bo", who.RoleOwner)
	must(t, s.AddUser(ada, "x"), s.AddUser(bo, "x"))
	must(t, s.AddLogin(login("bo", "2"), hash("bo")))
	for name, end := range map[string]func() error{
		"all but another": func() error { return s.EndLogins("1", "other") },
		"another right":   func() error { return s.ChangeUser(ada) },
		"password":        func() error { return s.SetPassword("1", "y") },
		"removed":         func() error { return errors.Join(s.RemoveUser("1"), s.AddUser(ada, "x")) },
	} {
		must(t, s.AddLogin(login(name, "1"), hash(name)))
		_, _, err := s.Login(t.Context(), hash(name), noon)
		must(t, err)
		must(t, end())
		_, _, err = s.Login(t.Context(), hash(name), noon)
		missing(t, name, err)
	}
	must(t, s.AddLogin(login("here", "1"), hash("here")), s.AddLogin(login("there", "1"), hash("there")),
		s.EndLogins("1", "here"))
	_, _, err := s.Login(t.Context(), hash("here"), noon)
	must(t, err)
	_, _, err = s.Login(t.Context(), hash("there"), noon)
	missing(t, "all but this one", err)
	if _, _, err := s.Login(t.Context(), hash("bo"), noon); err != nil {
		t.Errorf("that of another user ended, too: %v", err)
	}
	for name, at := range map[string]time.Time{
		"not used": noon.Add(people.LoginIdle),
		"at last":  noon.Add(people.LoginLasts),
	} {
		_, _, err := s.Login(t.Context(), hash("here"), at)
		missing(t, name, err)
	}
	// One that is used goes on, but not for ever.
	for at := noon; at.Before(noon.Add(people.LoginLasts)); at = at.Add(people.LoginIdle - time.Hour) {
		_, _, err := s.Login(t.Context(), hash("here"), at)
		must(t, err)
	}
	_, _, err = s.Login(t.Context(), hash("here"), noon.Add(people.LoginLasts))
	missing(t, "used until its end", err)
}

// The oldest login of a user ends when there are too many, and nobody else's.
func testLoginsTooMany(t *testing.T, s people.Store) {
	must(t, s.AddUser(user("1", "Ada", who.RoleOwner), "x"), s.AddUser(user("2", "Bo", who.RoleOwner), "x"))
	must(t, s.AddLogin(login("bo", "2"), hash("bo")))
	for n := range people.MostLogins + 1 {
		l := login(fmt.Sprintf("%03d", n), "1")
		l.Made = noon.Add(time.Duration(n) * time.Second)
		must(t, s.AddLogin(l, hash(l.ID)))
	}
	_, _, err := s.Login(t.Context(), hash("000"), noon)
	missing(t, "the oldest", err)
	for _, id := range []string{"001", fmt.Sprintf("%03d", people.MostLogins), "bo"} {
		if _, _, err := s.Login(t.Context(), hash(id), noon.Add(time.Minute)); err != nil {
			t.Errorf("%s: %v", id, err)
		}
	}
}

// An instructor of a group has to do with its stations as they are now.
func testGroups(t *testing.T, s people.Store) {
	u := user("1", "Bo Example", who.RoleInstructor)
	u.Group, u.Stations = "evening", []string{"Seat 9"}
	must(t, s.AddUser(u, "x"), s.AddLogin(login("a", "1"), hash("a")))
	stations := func() []string {
		_, c, err := s.Login(t.Context(), hash("a"), noon)
		must(t, err)
		slices.Sort(c.Stations.Names)
		if c.Stations.All {
			t.Error("all stations")
		}
		return c.Stations.Names
	}
	for n, group := range []string{"evening", "morning", "evening", ""} {
		id := fmt.Sprint(n)
		must(t, s.AddStation(people.Station{ID: id, Name: "Seat " + id, Group: group, Made: noon}, hash(id)))
	}
	if got := stations(); !slices.Equal(got, []string{"Seat 0", "Seat 2", "Seat 9"}) {
		t.Errorf("the stations are %q", got)
	}
	must(t, s.RemoveStation("2"))
	if got := stations(); !slices.Equal(got, []string{"Seat 0", "Seat 9"}) {
		t.Errorf("without Seat 2 the stations are %q", got)
	}
}

func testInvitations(t *testing.T, s people.Store) {
	i := people.Invitation{
		ID: "1", Station: "Seat 3", For: "Cy", By: who.Owner(), Made: noon, Until: noon.Add(time.Hour),
	}
	other := i
	other.ID, other.Made, other.For = "2", noon.Add(time.Second), ""
	must(t, s.Invite(i, hash("link")), s.Invite(other, hash("other")))
	all, err := s.Invitations(t.Context(), noon)
	if d := cmp.Diff([]people.Invitation{other, i}, all); d != "" || err != nil {
		t.Errorf("the links: %v (-added +listed)\n%s", err, d)
	}
	got, err := s.Invited(t.Context(), hash("link"), noon)
	if d := cmp.Diff(i, got); d != "" || err != nil {
		t.Errorf("by its token: %v (-added +read)\n%s", err, d)
	}
	_, err = s.Invited(t.Context(), hash("Link"), noon)
	missing(t, "another token", err)
	_, err = s.Invited(t.Context(), hash("link"), i.Until)
	missing(t, "an hour later", err)
	guest := people.Login{ID: "g", Invitation: "1", Made: noon, Until: i.Until}
	must(t, s.AddLogin(guest, hash("guest")))
	_, c, err := s.Login(t.Context(), hash("guest"), noon)
	must(t, err)
	if !c.MayAt(permit.Watch, "Seat 3") || c.MayAt(permit.Watch, "Seat 4") || c.May(permit.Read) || c.Name != "Cy" {
		t.Errorf("the guest is %+v", c)
	}
	must(t, s.Revoke("1"))
	_, _, err = s.Login(t.Context(), hash("guest"), noon)
	missing(t, "a guest whose link was revoked", err)
	_, err = s.Invited(t.Context(), hash("link"), noon)
	missing(t, "a link that was revoked", err)
	missing(t, "revoked again", s.Revoke("1"))
	for n := range people.MostInvitations - 1 {
		other.ID = fmt.Sprint("more", n)
		must(t, s.Invite(other, hash(other.ID)))
	}
	var full *people.Full
	other.ID = "one too many"
	if err := s.Invite(other, hash(other.ID)); !errors.As(err, &full) {
		t.Errorf("one more than there may be: %v", err)
	}
	other.Made, other.Until = noon.Add(2*time.Hour), noon.Add(3*time.Hour)
	must(t, s.Invite(other, hash(other.ID))) // those before it have ended
	if all, err := s.Invitations(t.Context(), noon); err != nil || len(all) != 1 {
		t.Errorf("kept are %d, %v", len(all), err)
	}
}

func testStations(t *testing.T, s people.Store) {
	three := people.Station{ID: "1", Name: "Seat 3", Group: "evening", Made: noon}
	must(t, s.AddStation(three, hash("key")), s.AddStation(people.Station{ID: "2", Name: "Seat 1", Made: noon},
		people.Hash{}))
	got, err := s.StationOf(t.Context(), hash("key"), noon.Add(time.Minute))
	three.Used = noon.Add(time.Minute)
	if d := cmp.Diff(three, got); d != "" || err != nil {
		t.Errorf("by its key: %v (-added +read)\n%s", err, d)
	}
	all, err := s.Stations(t.Context())
	if err != nil || len(all) != 2 || all[0].Name != "Seat 1" || !all[1].Used.Equal(three.Used) {
		t.Errorf("the stations are %+v, %v", all, err)
	}
	for name, key := range map[string]people.Hash{"another key": hash("Key"), "no key": {}} {
		_, err := s.StationOf(t.Context(), key, noon)
		missing(t, name, err)
	}
	must(t, s.SetKey("1", hash("new")))
	_, err = s.StationOf(t.Context(), hash("key"), noon)
	missing(t, "the key before", err)
	_, err = s.StationOf(t.Context(), hash("new"), noon)
	must(t, err)
	for name, is := range map[string]bool{"Seat 3": true, "SEAT 3": true, "Seat 1": false, "Seat 2": false} {
		if has, err := s.HasKey(t.Context(), name); has != is || err != nil {
			t.Errorf("%s has a key: %v, %v", name, has, err)
		}
	}
	must(t, s.SetKey("1", people.Hash{}), s.SetKey("2", people.Hash{}))
	if has, err := s.HasKey(t.Context(), "Seat 3"); has || err != nil {
		t.Errorf("a key that was revoked is there: %v, %v", has, err)
	}
	_, err = s.StationOf(t.Context(), hash("new"), noon)
	missing(t, "a key that was revoked", err)
	must(t, s.RemoveStation("1"))
	missing(t, "removed again", s.RemoveStation("1"))
	missing(t, "a key for no station", s.SetKey("1", hash("x")))
}

// What people write is kept as it is, whatever a database would make of it.
func testText(t *testing.T, s people.Store) {
	for n, name := range []string{`Robert'); DROP TABLE users;--`, `<script>alert(1)</script>`, "größe 座席 🛩"} {
		id := fmt.Sprint(n)
		u := user(id, name, who.RoleStudent)
		u.Stations, u.Group = []string{name}, name
		station := people.Station{ID: id, Name: name, Group: name, Made: noon}
		must(t, s.AddUser(u, name), s.AddStation(station, hash(name)))
		got, password, err := s.UserNamed(t.Context(), name)
		if d := cmp.Diff(u, got); d != "" || password != name || err != nil {
			t.Errorf("%q: %q, %v\n%s", name, password, err, d)
		}
		if station, err := s.StationOf(t.Context(), hash(name), noon); err != nil || station.Name != name {
			t.Errorf("%q: %+v, %v", name, station, err)
		}
	}
}
