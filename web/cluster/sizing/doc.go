// Package sizing says what a cluster of a size needs, and simulates how it takes over the stations of a node that dies.
// It computes from assumptions, and measures nothing itself.
//
// # Assumptions
//
// [Measured] has them. A node has two processors and coaches 300 stations at 60 datagrams a second, recorded and
// watched, with p99 from datagram to page under 20 ms (make load). A NATS server stores 28,000 batches a second of the
// copies that three servers keep; a node reads 25,000 batches a second of one record where few stations share a stream.
// Half of the stations are in a leg at any moment. Prices of stores are from memory, of the order that large providers
// ask: half a cent for a thousand objects stored, two and a half cents for a gigabyte and month.
//
// Each station is heard by two nodes. Leases go to the one that heard it first, which a hash of the address makes as
// even as chance.
//
// # Tables
//
//	stations that fly                         300       1000      10000     100000
//	nodes, one of them to spare                 3          5         35        335
//	batches a second                         3000      10000     100000    1000000
//	record, MB/s                              7.8       25.9      259.2     2592.0
//	stored by all replicas, MB/s             23.3       77.8      777.6     7776.0
//	NATS servers                                3          3         11        108
//	an hour of the record, GB                  84        280       2799      27994
//	PostgreSQL, million rows a day           0.45       1.50      15.04     150.40
//	pieces stored a second                     30        100       1000      10000
//	complete recordings, GB a day            21.4       71.2      711.9     7119.4
//	a flown hour, cents                      0.22       0.22       0.22       0.22
//
// After the death of a node, others having followed its sessions:
//
//	stations of a node: mean                  102        204        286        298
//	… afterwards, of the fullest              164        258        329        351
//	taken over                                 97        186        285        328
//	gap in a leg: median, s                  1.14       1.05       1.14       1.14
//	… 99 of 100                              1.14       1.24       1.29       1.30
//	… within two seconds, %                   100        100        100        100
//	gap between legs: median, s              1.14       1.06       1.14       1.15
//	… the longest                            1.15       1.24       1.29       1.29
//
// The same, nobody having followed them:
//
//	stations of a node: mean                  102        204        286        298
//	… afterwards, of the fullest              164        258        329        351
//	taken over                                 97        186        285        328
//	gap in a leg: median, s                  2.94       2.57       2.34       2.15
//	… 99 of 100                              8.12       9.60       7.05       6.84
//	… within two seconds, %                    31         37         38         44
//	gap between legs: median, s              8.41      10.04       4.21       2.33
//	… the longest                           15.78      17.23      10.74      11.37
//
// # What breaks first
//
// The record. Ten batches a second and station are as many messages at 10,000 stations as a NATS cluster of a few large
// machines stores, and its bytes are written once per replica. In this order help:
//
//   - Streams are split by a hash of the station already: more streams, and servers beside each other that lead them.
//   - Batches of half a second, while nothing is flown or a station is alone: a fifth of the messages. What is not kept
//     yet is on the disk of the node, and with the standby, which hears the station too.
//   - Regions: a cluster of its own per place, with a PostgreSQL replica and a bucket; leaf nodes carry events and
//     questions between them, the record stays where it is flown. 100,000 stations are such regions, not one cluster.
//
// PostgreSQL takes the rows of 10,000 stations on one machine; beyond it sessions are partitioned by month. The store
// is asked for more objects a second than one prefix takes: keys begin with the session, whose hash can lead them.
//
// The gap is that of a death nobody noticed yet, where standbys follow what they hear. A node that started later, or
// lost a batch, replays whole sessions: hours of flight, or nodes nearly full, take the gap past two seconds; the
// remedy is more nodes, not larger ones, for each then takes over fewer.
package sizing
