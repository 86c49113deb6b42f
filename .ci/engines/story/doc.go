// Package story holds a test that has everything happen to a cluster that can: three nodes of the program as it is
// shipped, three NATS servers, PostgreSQL and an S3 server, each in processes of its own, with simulators that fly,
// viewers that look on at all nodes, and two instructors who speak, mark and overrule.
//
//	make test-cluster STATIONS=300 RATE=60 VIEWERS=60
//
// One after the other each node is killed (signal 9) and started again, the NATS server that leads most streams is
// killed and started again, a node stands still for 20 s (SIGSTOP), a node is cut off from NATS by relays that pass
// nothing on, all nodes stand still for over a second, again and again, the S3 server is killed, and PostgreSQL ends at
// once. Meanwhile flights begin and end, each a session.
// Then
//
//   - every flight is a session in the logbook and in the depot, once, and its recording is what was sent, to the byte,
//   - a single machine that plays the recordings grades them as they were graded in flight, to the byte,
//   - no leg is graded twice, and every viewer saw each leg of its station once,
//   - every viewer got every event once, by station, numbering and number, also when it went to another node and said
//     which event it had last. What two viewers got under one number is the same; but where a node is apart (frozen,
//     cut off) and coaches on, its viewers get what the others will never have, and are greeted again afterwards,
//   - what instructors were told is done is recorded, once,
//   - no station that several nodes hear was without a coach for longer than the fault allows: 2 s when its node dies
//     (stands still, is cut off), 1 s when anything else does. That is measured at the viewers: how long nothing new of
//     a flight is shown to any of them. Stations that nobody looks at are not measured.
//
// Simulators send to two nodes, to all, to a multicast group, or to one node alone. Those of the last kind lose what
// they send while their node is away; their gap is shown apart and has no limit, and their recordings hold nothing but
// what was sent, in its order. All nodes and engines share one machine and its clock.
//
// # Sizes
//
// By itself 12 stations send 10 datagrams a second each, and 24 viewers look on: that takes eight minutes and 0.6 of
// two processors, beside all engines. The full size, 300 stations at 60 a second and 60 viewers, is about 40,000
// samples a second, as each station is followed by the nodes that stand by as well, and 3,000 batches a second that
// three servers keep: by the figures of package sizing five to six processors, so that it takes eight. It was not
// run.
//
// Simulators may send as few as two datagrams a second, below which nothing is graded. 300 stations that do take 1.2 to
// 1.6 processors beside all engines, and fly without a fault, or with the NATS leader killed, as promised on two. That
// leaves too little for a node's death there: who takes a hundred stations over has no processor for a second, is taken
// for dead in turn, and so on. 100 stations with five datagrams a second are carried through that too. -profile of go
// test says what a node computes.
//
// The machine must be idle otherwise. Where a node does not get a processor for a second it is taken for dead,
// rightly, and gaps grow. -dead of go test sets after which time a node is taken for dead, and with it what gaps may
// be.
//
// # The table
//
// A line for each fault: when, what, the longest gap, that of stations that send to one node alone, how many stations
// other nodes took over, how many events viewers lost and got twice, how many differ because two nodes were apart, how
// many viewers were greeted again, and how many events there were.
package story
