package spool

import (
	"halfturn/coach/message"
	"halfturn/web/desk/practice"
)

var _ practice.Tap = (*Spool)(nil)

// Begin implements practice.Tap.
func (s *Spool) Begin(b practice.Beginning) { s.begin(b.Opening.Session) }

// Datagram implements practice.Tap: what is not on the disk is not stored.
func (s *Spool) Datagram(string, practice.Datagram) {}

// End implements practice.Tap: Over follows when all is on the disk.
func (s *Spool) End(string) {}

// Stored implements practice.Tap.
func (s *Spool) Stored(session, file string, size int64) { s.recorded(session, file, size, false) }

// Complete implements practice.Tap.
func (s *Spool) Complete(session, file string) { s.recorded(session, file, 0, true) }

// Over implements practice.Tap.
func (s *Spool) Over(session string) { s.ended(session) }

// Private implements practice.Tap: sessions that are shared with no school are kept by the cluster all the same.
func (s *Spool) Private(string, bool) {}

// Shared implements practice.Tap.
func (s *Spool) Shared(string) *message.Share { return nil }
