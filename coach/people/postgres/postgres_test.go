package postgres

import (
	"os"
	"testing"

	"halfturn/coach/logbook/postgres/pgtest"
	"halfturn/coach/people"
	"halfturn/coach/people/peopletest"
)

var cluster *pgtest.Cluster

func TestMain(m *testing.M) {
	os.Exit(pgtest.Main(m, func(c *pgtest.Cluster) { cluster = c }))
}

// copied is a database that has the tables.
func copied(t *testing.T) (dsn string) {
	t.Helper()
	return cluster.Copy(t, "people", func(dsn string) error {
		s, err := Open(dsn)
		if err != nil {
			return err
		}
		return s.Close()
	})
}

func opened(t *testing.T, dsn string) people.Store {
	t.Helper()
	s, err := Open(dsn)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// TestStore: the engine keeps people as the interface says.
func TestStore(t *testing.T) {
	peopletest.Run(t, func(t *testing.T) people.Store { return opened(t, copied(t)) })
}

// TestNodes: several nodes on one database are as one store.
func TestNodes(t *testing.T) {
	dsn := copied(t)
	peopletest.Nodes(t, func(t *testing.T) people.Store { return opened(t, dsn) })
}
