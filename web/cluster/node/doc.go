// Package node makes servers one cluster: every node shows every station, and each station is coached on one of them.
//
// # Who coaches
//
// A node that hears a station hears all of its datagrams, and coaches it as a single server does: nothing of that waits
// for the store or for another node. Where several nodes hear a station, one coaches it and the others stand by
// ([hearing]): they hold the datagrams of the last seconds, and what the coaching node tells of the record. Each node
// says several times a second what it holds, hears and watches (package presence). When the holder is not heard of any
// more, the first of the nodes that hear the station takes it over: it has played the record as it came into a session
// of its own ([shadow]), which records it here to the byte and holds back what it publishes; it goes on with the
// datagrams it holds that come after the last one recorded, and publishes what was not published before. Where it has
// not followed the session, it plays what is kept and what was told now. It claims the lease meanwhile, and need not
// have it to coach.
//
//	datagrams -> hearing -> desk -> tap -----> batches -+-> told -> shadow of each node that hears the station
//	                |         |                         +-> keeper -> store -> who goes on without a shadow
//	                |         +-> output -> events -+-> hub here
//	                |                               +-> told -> remote: hubs of the other nodes
//	                +-> presence -> claim: coach, stand by, take over, leave
//
// A holder that does not hear a station which another node hears hands it over in the same way. A session whose node is
// gone and that nobody hears is adopted by one node, which ends and enters it after the idle time.
//
// What a node hears is what simulators send to it, and nodes pass on no datagrams: a station goes on at another node
// only where that one hears it too. A simulator that can send to several addresses is given those of two nodes. One
// that can send to a single address is given a multicast group that the nodes have joined, or the broadcast address of
// their network. One that sends to a single node waits while that node is away: its session goes on when the node is
// back within the time after which sessions end, without what was sent meanwhile.
//
// # What is ordered by what
//
//   - Of two nodes that claim a station the one with the greater fence holds it. One that has taken over and has no
//     lease yet gives way to the node that has the lease it knows of, unless that one stood still meanwhile. The other
//     node leaves the session: without a word, and without entering it. It does so when it hears the one that holds
//     the station, not when the store refuses it: package claim has the rule, and why it leaves no station to nobody.
//   - A node that the store has refused while the other one has left the station takes the lease again. What it
//     recorded and could not keep begins its next tenure.
//   - A node that reaches the store and not the other nodes, or these only since just now, goes on with what it
//     coaches, and takes no lease: that it hears of nobody says nothing.
//   - A node that was started again leaves the sessions that others have taken over, as the store says, and plays none
//     of them; it hears stations before the rest is played. It doubts the leases of its life before until it has
//     renewed them: another one may go on with their sessions, and not have its lease yet.
//   - A session that was over while its node had the lease is that node's to be entered, whoever has the station by
//     then. One whose lease was given back, and that nobody takes, is ended by one node after the idle time.
//   - A record is a list of tenures: what one node recorded of one session. Each begins with an opening that names the
//     last batch of the tenure before that it goes on from; batches after that one are not read. What was told of the
//     tenure before and may not be kept, the successor keeps at the beginning of its own.
//   - Events are numbered by the holder. A successor goes on with the numbering, so that viewers resume on any node.
//     Where two nodes numbered events apart, the nodes take over what the holder has, and greet their viewers again.
//
// What is told (package flow) goes at once and may be lost: a batch with the datagrams and events since the one before,
// at the latest when an event is published, so that who knows of an event also knows the datagram that made it.
// Batches are kept behind that, one at a time. A batch that the store does not take waits; what waits is bounded and
// told.
//
// A node that follows and misses a batch asks for those that the store has not kept, and reads those that it has. A
// session is divided where it can have neither when the coaching node dies: the store is away, and the batch was kept
// just before, or the node heard nothing of the session until then. A new session begins there, with the datagrams
// that the node holds. The pages and the logbook have that one alone; the first one is in the data directory of the
// node that died, which moves it aside when it is started again, and says in its log where it is, to be imported.
//
// What is done at a node that is cut off from the others is lost with what it records there, once another node has
// taken the station over. So a command is answered as done only when it outlives its node: the store keeps the batch
// that has it, and the nodes that hear the station know of that batch; while the store is away they follow the session
// up to there. Whoever asked for a command of which that is not so within a few seconds is told that it may be lost
// (status 504). One given to a station that sends nothing is recorded with the next datagram, and until then as safe as
// on a single server.
//
// # What is here
//
// All of it is about one station under one lock, which is why it is one package, larger than others are: who coaches it
// (hearing, presence, takeover, settle), the record that is made of it here (tap, output, keeper, refused, await), the
// record that another node makes (listen, shadow, goingon), and its pages here while another node coaches it (remote,
// desk). What needs no station is in packages of its own: claim, tenures, presence, numbering and notes.
package node
