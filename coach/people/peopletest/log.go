package peopletest

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach/people"
	"halfturn/coach/who"
)

func testLog(t *testing.T, s people.Store) {
	ada := who.Who{ID: "1", Name: "Ada", Role: who.RoleStudent}
	first := people.Entry{
		At: noon, By: ada, Address: "192.0.2.7", What: "POST /api/stations/{name}/{command}", On: "Seat 3 end",
		Status: 200,
	}
	second := people.Entry{At: noon.Add(time.Second), By: who.Owner(), What: "users add", On: "Bo"}
	must(t, s.Note(first), s.Note(second, second), s.Note())
	all, err := s.Entries(t.Context(), "", 2)
	if d := cmp.Diff([]people.Entry{second, second}, all); d != "" || err != nil {
		t.Errorf("the newest: %v\n%s", err, d)
	}
	all, err = s.Entries(t.Context(), "1", 10)
	if d := cmp.Diff([]people.Entry{first}, all); d != "" || err != nil {
		t.Errorf("of Ada: %v\n%s", err, d)
	}
	few := make([]people.Entry, 1000)
	for i := range few {
		few[i] = second
	}
	for range people.MostEntries / len(few) {
		must(t, s.Note(few...))
	}
	if all, err = s.Entries(t.Context(), "", 2*people.MostEntries); err != nil || len(all) != people.MostEntries {
		t.Errorf("%d entries are kept, %v; must be %d", len(all), err, people.MostEntries)
	}
	if all, err = s.Entries(t.Context(), "1", 1); err != nil || len(all) != 0 {
		t.Errorf("the oldest stays: %+v, %v", all, err)
	}
}

// testForget: a person is gone from users, links and the log, whatever the letters' case; everybody else stays.
func testForget(t *testing.T, s people.Store) {
	ada, mo := who.Who{ID: "1", Name: "Ada Example", Role: who.RoleStudent}, who.Owner()
	until := noon.Add(time.Hour)
	must(t,
		s.AddUser(user("1", "Ada Example", who.RoleStudent), "x"),
		s.AddUser(user("2", "Bo", who.RoleStudent), "x"),
		s.Invite(people.Invitation{ID: "a", Station: "Seat 3", For: "ada example", By: mo, Made: noon, Until: until},
			hash("a")),
		s.Invite(people.Invitation{ID: "b", Station: "Seat 3", For: "Bo", By: ada, Made: noon, Until: until},
			hash("b")),
		s.Note(
			people.Entry{At: noon, By: ada, What: "POST /api/logout", Status: 200},
			people.Entry{At: noon, By: mo, What: "users reset", On: "Ada Example"},
			people.Entry{At: noon, By: mo, What: "users reset", On: "Bo"},
		),
	)
	must(t, s.AddLogin(login("l1", "1"), hash("l1")), s.AddLogin(login("l2", "2"), hash("l2")))
	testHeld(t, s)
	would, err := s.About("ADA EXAMPLE")
	must(t, err)
	f, err := s.Forget("ADA EXAMPLE")
	if would != f {
		t.Errorf("to be forgotten are %+v, and forgotten were %+v", would, f)
	}
	if d := cmp.Diff(people.Forgotten{Users: 1, Links: 1, Entries: 3}, f); d != "" || err != nil {
		t.Fatalf("%v\n%s", err, d)
	}
	_, _, err = s.UserNamed(t.Context(), "Ada Example")
	missing(t, "the user", err)
	left, err := s.Invitations(t.Context(), noon)
	if err != nil || len(left) != 1 || left[0].ID != "b" || left[0].By.Name != "" {
		t.Errorf("the links: %+v, %v", left, err)
	}
	entries, err := s.Entries(t.Context(), "", 10)
	want := []people.Entry{
		{At: noon, By: mo, Address: "192.0.2.9", What: "users change"},
		{At: noon, By: mo, What: "users reset", On: "Bo"},
		{At: noon, By: mo, What: "users reset"},
		{At: noon, By: who.Who{Role: who.RoleStudent}, What: "POST /api/logout", Status: 200},
	}
	if d := cmp.Diff(want, entries); d != "" || err != nil {
		t.Errorf("the log: %v\n%s", err, d)
	}
	if f, err = s.Forget("Ada Example"); err != nil || f != (people.Forgotten{}) {
		t.Errorf("again: %+v, %v", f, err)
	}
	if held, err := s.Held(t.Context(), "Ada Example"); err != nil || !held.IsZero() {
		t.Errorf("still held: %+v, %v", held, err)
	}
}

// testHeld: what is held of a person is theirs alone, with the links that they made, and without secrets or the address
// of others.
func testHeld(t *testing.T, s people.Store) {
	must(t, s.Note(people.Entry{At: noon, By: who.Owner(), Address: "192.0.2.9", What: "users change",
		On: "Ada Example"}))
	h, err := s.Held(t.Context(), "ada example")
	must(t, err)
	var on []string
	for _, e := range h.Entries {
		on = append(on, e.What)
		if e.Address != "" {
			t.Errorf("the address of another is given: %+v", e)
		}
	}
	got := []any{len(h.Users), len(h.Logins), len(h.Links), on}
	want := []any{1, 1, 2, []string{"users change", "users reset", "POST /api/logout"}}
	if d := cmp.Diff(want, got); d != "" {
		t.Fatalf("what is held differs (-want +got):\n%s", d)
	}
	if h.Users[0].Name != "Ada Example" || h.Logins[0].ID != "l1" {
		t.Errorf("%+v", h)
	}
	if part, err := s.Held(t.Context(), "Ada"); err != nil || len(part.Users) != 0 {
		t.Errorf("of part of a name: %+v, %v", part, err)
	}
}
