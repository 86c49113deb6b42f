// Package archive owns the sessions of a data directory: it begins, changes, removes and restores them, and answers
// questions about them. Commands and pages call it; nothing else writes into session folders.
//
// # Folder first, index after
//
// Each session has a folder under sessions/. The folder holds all there is of it:
//
//	stream-0001.pcapng …  the recording (see halfturn/stream/record)
//	summary.json          the first grading
//	regrade-0001.json …   later gradings, beside the first
//	notes.json            when and where it was flown, by which cards, how it was graded again
//	acts.jsonl            what people added, one act per line
//	cards/                the cards that grade it, as they stood when it began
//	import.json           where an imported session comes from, and who asked for the import
//
// The logbook ([logbook.Book]) is an index over the folders. It holds nothing that the folders do not, except the legs
// of a session that is still being flown and the last choice at each station. It can be deleted: the next start
// rebuilds it.
//
// A change is made in the folder first and in the index after it, under a lock that all programs share:
//
//  1. The session must exist and take the change.
//  2. A mark is created in the data directory: an empty file with the name of the session in its own.
//  3. The file in the folder is replaced whole, or added to.
//  4. The index is changed, in one transaction.
//  5. The mark is removed.
//
// Interrupted before step 3, nothing has changed. Interrupted between steps 3 and 4, the folder is ahead of the index:
// the mark says so, and the next program that opens the archive reads the folder again and enters it. When the index
// refuses a change, the folder is changed back. A session is removed in the same way: its folder is renamed, the
// session leaves the index, and the renamed folder is deleted; the owner of the data directory finishes an interrupted
// removal at its next start.
//
// # Acts
//
// What a person adds to what was measured is an act: a remark, the mark that keeps a session from being removed, the
// student's name. Acts are only ever added; each has an id of its own, and says who asked for it, when, and about which
// session, leg or moment. [logbook.Fold] works out from gradings and acts what is shown. Folders of earlier versions
// have these in notes.json. They are read from there, and moved to acts.jsonl with the next change.
//
// Whoever asks for a change travels with the call (package who), and is recorded. Begin, Keep, End and Save carry
// nobody: the program makes these changes by itself, as a session is flown, and there is nobody who asks.
//
// A line of acts.jsonl without a line end was being written when the power failed, and does not count. A folder that
// cannot be understood is left out of the logbook and named in [Archive.LeftOut]; it is never changed or deleted.
//
// # Many nodes
//
// With [Options.Depot] the folders of many nodes lie in one depot (package remote has their layout), and all nodes
// share one logbook. The data directory of a node then has in sessions/ what it flew, and in copies/ what it was asked
// for. Between steps 3 and 4 a change is stored in the depot: a change that cannot be stored is taken back. A session
// is held by the node that flies it until all of it is in the depot: that node goes on changing it while the depot is
// away, and [Archive.Send] stores it later. Of two nodes that change one session at once the slower one begins again,
// unless the logbook has locks for all nodes ([logbook.Locker]).
//
// What a node enters of a session that it flies it enters under the fence of its lease ([Archive.Under]): once another
// node has the session, depot and logbook refuse it. A session that comes from a home goes on at the node that the home
// comes to ([Archive.Adopt]). A recording is never put together from pieces of two fences.
//
// The logbook is made again from the depot, never from the folders here alone, and not while the depot is away.
// [Archive.Evict] removes here what is whole there.
//
// # Disks that fail
//
// On a disk that is full or read-only an archive opened with Await still answers questions, refuses changes with the
// reason, and is opened again by [Archive.Mend] once the disk can be written. So it is while the database of the
// logbook does not answer at the start, but sessions are recorded then. What package queue could not enter lies in
// waiting/, by session, and is entered by whichever program runs when the database is back.
//
// # The packages below
//
//   - underway: names, makes and repairs the folders of sessions that are being flown
//   - folder: the layout of one session folder, and reading and changing what lies in it
//   - disk: writing whole files, and failures of disks
//   - lock: locks between processes
//   - queue: writes in the background, so that coaching never waits for a disk
//   - play: opens and plays recordings
//   - take: imports recordings
//   - depot: where the folders of many nodes are kept
//   - remote: session folders in a depot
package archive
