// Package record stores what a station sends: the raw datagrams of a session, in the pcapng files stream-0001.pcapng,
// stream-0002.pcapng and so on in its folder.
//
// A [Recorder] writes in its own goroutine from a bounded queue, so a slow disk never delays the caller: what does not
// fit is dropped and counted. Data is flushed and synced every second, by the clock and by the times of the datagrams,
// so that neither a crash nor a power failure costs more than a second. A comment at the head of each file ("halfturn
// {json}") says how the session was followed; a command given during the session is a comment on the next datagram.
// Playing a recording gives the same events and report as the live session.
//
// A full disk ends the file at its last whole block. When there is room again the next file begins by itself, and says
// how many datagrams are missing. A folder that holds the file "unfinished" is a session that is not over: the next
// start repairs the files ([Repair]) and continues the session if it can.
package record
