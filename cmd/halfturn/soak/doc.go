// Package soak holds a test that has a server run for a long time with everything going wrong around it that can go
// wrong: simulators that stop, start again, jump, send garbage or lose datagrams; viewers that come, go, stall and come
// back; commands at random; a data folder that is away for a while; configurations read again, good and bad.
//
// The test runs in rounds. In the first round, which is quiet, some stations each fly one flight, and nothing else
// happens: it says how these flights are graded. In every later round they fly the same flights in the midst of the
// others. At the end of each round everybody leaves. Then
//
//   - the flights have the same grades as in the quiet round, and all their datagrams are recorded,
//   - no counter of faults has risen,
//   - goroutines, live memory and open files are where they were at the end of the first loud round.
//
// The first loud round is what later ones are compared with because until then caches and pools fill, all of which are
// bounded.
//
// go test runs a short form, in the test's own process and under the race detector if that is asked for. make soak runs
// the long one, against the program as it is shipped:
//
//	make soak FOR=8m STATIONS=30 SEED=7
//
// The seed decides who does what, and when, as far as the clock of the machine lets it. It is printed.
package soak
