// Package remote keeps session folders in a depot that many nodes share.
//
// # Objects
//
//	halfturn.json                     whose the depot is (see depot.Own)
//	sessions/ID/00000007.json         the seventh state of a session: a [Manifest]
//	files/ID/00000007-SHA256          a file of its folder, which came with the seventh state
//	pieces/ID/FENCE/PART-OFFSET       a piece of a recording that is being flown, under the lease of that fence
//
// # Order
//
// The newest manifest of a session says what its folder holds. Manifests and files are created and never overwritten.
// Who changes a session stores the files first, then creates the manifest that has the next number: of two who change
// it at once, one creates it, and the other begins again with what the first stored. What no manifest names any more is
// removed afterwards. So a reader sees a folder as it was after one change or after another, never between.
//
// A manifest of no bytes says that the session was removed. It stays: no node that comes back after a long time may
// bring back what was removed, or forgotten.
//
// # Fences
//
// A node holds a session until its folder is whole in the depot. It holds it under the fence of its lease, and a
// manifest carries that fence. Who finds a greater one there has lost the session to another node, and stores nothing.
// Pieces lie under their fence: what a former holder still stores does not touch those of its successor, and nobody
// reads it.
//
// # Folders
//
// In the folder of a session, [stateFile] says which manifest it was made from, and how its files looked then. A file
// that looks otherwise was changed here. When a session was changed both here and there (the node held it while the
// depot was away), acts of both sides are kept.
package remote
