// Package home shares a station with a school: it sends what is flown here to another Halfturn over one WebSocket, and
// brings the commands that are given there.
//
// The station is told of nothing: a [Sharer] is a practice.Tap, whose calls never block and never fail. It has two
// lanes. The live lane is a bounded queue in memory, which is empty while there is no link. The back lane is the
// recording on the disk, of which an [outbox.Outbox] says what to send next. Nothing else is kept in memory, however
// long the link is lost.
//
// Sessions that begin while the station is private are on neither lane, and never will be.
package home
