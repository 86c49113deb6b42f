// Package nats joins the nodes of a cluster over NATS: its JetStream keeps leases and batches, its core subjects carry
// what is told and asked.
//
// # Subjects and streams
//
// PREFIX is a setting, by default "halfturn". Names are written as tokens: letters, digits, "-" and "_" stay, other
// bytes become "=" and two hexadecimal digits; long names become a digest.
//
//	PREFIX.st.PART.STATION.lease        kept   who coaches the station; the last message counts
//	PREFIX.st.PART.STATION.rec.SESSION  kept   batches of a session
//	PREFIX.tell.TOPIC.STATION           core   what is told; the teller stands in the message
//	PREFIX.ask.NODE                     core   questions to a node; answers come in pieces to the asker's inbox
//
// Stations are spread over 16 streams, PREFIX-st-00 to PREFIX-st-0f, by the hash of their names, since the time to read
// one station grows with the number of stations that share its stream. The number is a setting that no later start can
// change: where a record is depends on it. Each stream names the cluster that made it in its metadata, so that two
// clusters never share one.
//
// # Order and fences
//
// A stream gives its messages growing numbers. The fence of a lease is the number of its message, and a claim is a
// publish that names the last lease it knows: the server refuses it when there is another. A batch names the lease that
// it is kept under in the same way, although it goes to another subject, so that the server itself refuses the batches
// of a former holder. Numbers begin with the time at which a stream was made, in microseconds: they go on growing when
// a stream is lost and made again.
//
// Each publish has an id, and is sent again with it until it is known to be stored. The server knows ids for two
// minutes; what it stores twice after a longer absence is passed over by Read, since a batch has a number. While a
// message about a lease is being replicated the server answers that something is in flight, and the publish is sent
// again.
//
// Streams drop what is older than a limit, or too much: leases as well. A holder whose lease was dropped writes it
// again, with the fence that it had, when it keeps its next batch and nothing was kept under a greater fence.
//
// # When servers fail
//
// A JetStream leader that is killed is replaced after 4 to 9 seconds. Calls that need its stream wait meanwhile; Away
// says since when. What is told and asked takes another connection, which goes to a living server within milliseconds.
// A server that is frozen is noticed after 1.5 s without an answer to a ping. A stream that answers and takes nothing,
// since the disk of its servers is full, is away too, until it takes something.
package nats
