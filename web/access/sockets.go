package access

import (
	"sync"
)

// sockets are the live sockets of each login. The zero value is ready.
type sockets struct {
	mu   sync.Mutex
	next int
	of   map[string]map[int]func()
}

// add takes a socket in; end closes it. What add returns takes it out again.
func (s *sockets) add(login string, end func()) (remove func()) {
	if login == "" {
		return func() {}
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.of == nil {
		s.of = map[string]map[int]func(){}
	}
	if s.of[login] == nil {
		s.of[login] = map[int]func(){}
	}
	n := s.next
	s.next++
	s.of[login][n] = end
	return func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		delete(s.of[login], n)
		if len(s.of[login]) == 0 {
			delete(s.of, login)
		}
	}
}

// end closes the sockets of a login.
func (s *sockets) end(login string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, end := range s.of[login] {
		end()
	}
}

// logins are those that have sockets.
func (s *sockets) logins() []string {
	s.mu.Lock()
	defer s.mu.Unlock()
	var all []string
	for login := range s.of {
		all = append(all, login)
	}
	return all
}

// Watches takes a live socket of a request's login in, so that it is closed with the login. What it returns takes it
// out again.
func (a *Access) Watches(k Known, end func()) (remove func()) { return a.sockets.add(k.Login, end) }
