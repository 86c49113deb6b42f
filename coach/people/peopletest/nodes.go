package peopletest

import (
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"halfturn/coach/people"
	"halfturn/coach/who"
)

// nodes is how many programs work on one list at once.
const nodes = 4

// each does something on every node at the same time.
func each(all []people.Store, do func(n int, s people.Store)) {
	var wait sync.WaitGroup
	for n, s := range all {
		wait.Go(func() { do(n, s) })
	}
	wait.Wait()
}

// Nodes tests that several stores of one database are as one. Each call of open opens it once more.
func Nodes(t *testing.T, open Opener) {
	all := make([]people.Store, nodes)
	for n := range all {
		all[n] = open(t)
	}
	// Of those who take a name at once one has it.
	var mu sync.Mutex
	var has []string
	each(all, func(n int, s people.Store) {
		id := fmt.Sprint(n)
		err := s.AddUser(user(id, "Ada Example", who.RoleInstructor), "hash of "+id)
		var taken *people.Taken
		mu.Lock()
		defer mu.Unlock()
		if err == nil {
			has = append(has, id)
		} else if !errors.As(err, &taken) {
			t.Errorf("the name on node %d: %v", n, err)
		}
	})
	if len(has) != 1 {
		t.Fatalf("%v have one name", has)
	}
	// A login holds on every node, and on none once it ended on one.
	must(t, all[0].AddLogin(login("l", has[0]), hash("token")))
	each(all, func(n int, s people.Store) {
		if _, c, err := s.Login(t.Context(), hash("token"), noon.Add(time.Hour)); err != nil || c.ID != has[0] {
			t.Errorf("the login on node %d: %+v, %v", n, c, err)
		}
	})
	must(t, all[1].EndLogin("l"))
	each(all, func(n int, s people.Store) {
		_, _, err := s.Login(t.Context(), hash("token"), noon)
		missing(t, fmt.Sprintf("the login that ended, on node %d", n), err)
	})
	// What is noted at once is all noted, and there are no more logins than there may be.
	const times = 8
	each(all, func(n int, s people.Store) {
		for i := range times {
			id := fmt.Sprintf("%d-%02d", n, i)
			entry := people.Entry{At: noon, By: who.Who{ID: has[0], Name: "Ada Example"}, What: id}
			if err := errors.Join(s.Note(entry), s.AddLogin(login(id, has[0]), hash(id))); err != nil {
				t.Errorf("node %d: %v", n, err)
			}
		}
	})
	entries, err := all[2].Entries(t.Context(), has[0], people.MostEntries)
	if err != nil || len(entries) != nodes*times {
		t.Errorf("%d entries of %d, %v", len(entries), nodes*times, err)
	}
	h, err := all[3].Held(t.Context(), "ada example")
	if err != nil || len(h.Logins) != people.MostLogins {
		t.Errorf("%d logins; must be %d, %v", len(h.Logins), people.MostLogins, err)
	}
}
