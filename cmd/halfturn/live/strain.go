package live

import "halfturn/web/overload"

// strain returns a function that says how the server kept up since it was last called. One goroutine may call it.
func (s *Server) strain() func() overload.Reading {
	var missed uint64 // datagrams that were not recorded, up to the last call
	return func() overload.Reading {
		is, lost := s.listener.Strain(), s.desk.Recorded().Lost
		r := overload.Reading{Wait: is.Wait, Lost: is.Dropped + is.Unread, Unrecorded: lost - missed}
		missed = lost
		return r
	}
}
