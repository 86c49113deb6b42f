// Package playback plays a recording into a session, so that it gives the events and the report that it gave live. It
// also holds what a recording needs for that besides the datagrams: an opening at the head of each file (whose session
// it is, the choice, the settings), and the commands, which stand as comments between the datagrams in the order in
// which they took effect.
package playback
