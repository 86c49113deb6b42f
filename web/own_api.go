package web

import (
	"net/http"
	"slices"

	"halfturn/coach/logbook"
	"halfturn/coach/permit"
)

// Students is the answer to GET /api/students.
type Students struct {
	Version  int      `json:"version"`
	Students []string `json:"students"`
}

// mostStudents is how many are offered on the panel.
const mostStudents = 24

// studentsOf lists who flew the sessions of a list, the latest first: all that somebody may know to whom not all
// stations belong.
func studentsOf(list *logbook.SessionList) []string {
	names := []string{}
	for i := range list.Sessions {
		if name := list.Sessions[i].Student; name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

func (s *Server) trend(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	f, err := filterOf(r)
	if err != nil {
		return nil, err
	}
	return b.Trend(r.Context(), f)
}

// models lists legs to compare a leg with, those that whoever asks may see.
func (s *Server) models(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	n, err := legNumber(r.PathValue("n"))
	if err != nil {
		return nil, err
	}
	m, err := b.Models(r.Context(), r.PathValue("id"), n)
	if err != nil {
		return nil, err
	}
	hidden := func(m logbook.Model) bool { return s.mayRead(r, permit.Read, m.Session) != nil }
	if m.Best != nil && hidden(*m.Best) {
		m.Best = nil
	}
	m.Kept = slices.DeleteFunc(m.Kept, hidden)
	return m, nil
}

func (s *Server) students(b Logbook, w http.ResponseWriter, r *http.Request) (any, error) {
	if c := callerOf(r); !c.Everywhere(permit.Read) {
		stations := append([]string{}, c.Stations.Names...)
		own, err := b.List(r.Context(), logbook.Filter{Stations: stations, Limit: logbook.MostLimit})
		if err != nil {
			return nil, err
		}
		names := studentsOf(own)
		return Students{apiVersion, names[:min(len(names), mostStudents)]}, nil
	}
	list, err := b.Students(r.Context(), mostStudents)
	if err != nil {
		return nil, err
	}
	return Students{apiVersion, list}, nil
}
