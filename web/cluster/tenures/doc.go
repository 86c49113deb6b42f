// Package tenures puts the record of a session together from what one node after another made of it, and finds where
// what was heard of the station on this node goes on from there. Batches go in, and a [Flight] comes out: it reads and
// asks for nothing itself.
//
// A tenure is what one node records of one session, from when it begins or goes on with it. Its batches are numbered
// from 1 on. It begins with an [Opening], which names the last batch of the tenure before that it goes on from; what
// comes after that batch in the tenure before is not read. What was told of the tenure before and may not be kept is
// [Carried] by the successor, at the beginning of its own.
//
//	flow.Told -> Heard --+
//	                     +-> Whole, Join -> Flight -> Unpacker -> datagrams to play
//	flow.Read -> kept ---+                              |
//	                                                    +-> Ring.After: the datagrams heard here that follow
package tenures
