package web

import (
	"path/filepath"
	"testing"

	"github.com/rs/zerolog"

	"halfturn/coach/people"
	"halfturn/coach/people/sqlite"
	"halfturn/web/access"
)

// newPeople is a list of people that holds nobody.
func newPeople(t testing.TB) people.Store {
	t.Helper()
	store, err := sqlite.Open(filepath.Join(t.TempDir(), "people.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := store.Close(); err != nil {
			t.Error(err)
		}
	})
	return store
}

// newAccess lets in people of a list that holds nobody.
func newAccess(t testing.TB) *access.Access {
	return access.New(access.Config{Store: newPeople(t), Log: zerolog.Nop()})
}
