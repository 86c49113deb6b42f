// Package load holds a test that finds out how much one server can take. It has the program, as it is shipped, in a
// process of its own work for more and more stations, with viewers looking at some of them, and measures what an
// operator would: how long a datagram takes to a page, what is lost and where, processor time and memory.
//
//	make load STATIONS=200,600,1000 VIEWERS=200
//
// Load is an open loop: every station sends sixty times a second on its schedule, whatever the server does, and a delay
// is counted from when a datagram was sent. Sender, server and viewers share the processors of the machine. The figures
// are written to bin/load as a table and as a picture.
package load
