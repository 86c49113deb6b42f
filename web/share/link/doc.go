// Package link is the protocol between a Halfturn at home and the Halfturn of a school: binary messages over one
// WebSocket, which the home opens. It is pure.
//
// A message is a byte that says its kind, and the rest of it: JSON, but for the two that are sent often. The home sends
// two lanes over the link:
//
//   - The live lane ([Live]) is what the school shows at once: openings, datagrams, and the commands recorded with
//     them, as they come. What cannot be sent at once is left out, and nothing of it is sent again.
//   - The back lane ([Offer], [Begin], [Piece], [Whole], [Finish]) copies the files of the recording, piece by piece.
//     The school answers with [Have]: how much of the recording it has. The home goes on from there, so that a lost
//     link, or a restart of either, needs nothing else to be remembered, and no byte is written twice or left out.
//     Whole has the hash of a file that is complete: what differs is fetched again.
//
// What people at home add to a session ([Acts]) is sent beside its recording, and also when that is complete. All of it
// is sent on each link, because the school tells by the ids what it has; [Noted] says that it has it.
//
// Files are copied rather than datagrams so that the two recordings are equal to the byte whatever happened at home: a
// full disk, a file that was begun early, a crash.
//
// The school sends [Command], which the home answers with [Result], and [Watching]. [Welcome] or [Bye] is the first
// message of the school; after a Bye it closes the link.
package link
