// Package playback plays a recording into a session, so that it gives the events and the report that it gave live. It
// also holds what a recording needs for that besides the datagrams: an opening at the head of each file (whose session
// it is, the choice, the settings), and the commands, which stand as comments between the datagrams in the order in
// which they took effect. Datagrams that are missing are counted there too.
//
// What is said to the pilot, a leg that is stopped and a moment that is marked come again as they came. A demonstration
// flies at a station of its own, of which nothing is recorded: of handing over to one, a replay has the message alone.
// Who ended a session stands behind its last datagram.
package playback
