// Package spool stores in the depot what a node records: while it is flown in pieces, afterwards as a whole.
//
// The disk of the node is the spool. The recorder writes there as it does on a single machine, and the spool reads what
// is on the disk to stay: nothing waits in memory, and a depot that is away holds up neither coaching nor recording.
// What waits is limited by the disk alone, and told by [Spool.Lacking] and the metrics.
//
// A [Spool] is a practice.Tap. From Stored it knows how much of a file may be stored, and stores it as a piece a few
// seconds later, or at once when it is as large as a piece may be. Complete files are stored as one object, in whose
// place the pieces go; where complete files are compressed, that is waited for, so that nothing is stored twice. After
// Over the rest of the folder is stored, and the session is whole in the depot.
//
// While the depot is away one session at a time tries whether it is back. Then all are stored, those first that have
// waited longest, and each in its order. A piece has the place in its name at which it begins, and is created once: a
// node that does not know what it stored before it died asks the depot, and doubles nothing. What an earlier run left
// is found at the start. A node whose session another one took over is refused by the depot, and stores nothing of it.
package spool
