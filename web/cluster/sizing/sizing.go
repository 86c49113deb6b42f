package sizing

import "math"

// Assumptions are what a station, a node and the engines do, in one list as in the documentation of the package.
// The defaults are in [Measured].
type Assumptions struct {
	NodeStations int     // stations that a node coaches with nothing lost
	NodeCores    int     // processors of a node
	NodeBusy     float64 // share of a node's processors that its own stations take when it has NodeStations

	Rate     float64 // datagrams a second and station
	Datagram int     // bytes of a datagram in the record, its head included
	Batches  float64 // batches of the record a second and station
	Batch    int     // bytes that a batch adds to its datagrams

	Replicas   int     // of each stream
	NATSNode   float64 // batches a second that a NATS server stores
	ReadRate   float64 // batches a second that a node reads of one station's record
	ReadAtOnce int     // records that a node reads at once

	ReplaySpeed float64 // seconds of flight that one processor replays in a second
	Beat        float64 // s between two signs of life of a node
	Missed      float64 // s of silence after which a node is taken for dead

	SessionMean  float64 // s; how long sessions are, exponentially distributed
	InLeg        float64 // share of the stations that are in a leg at a moment
	FlownHours   float64 // a day and station
	LegsPerHour  float64
	RowsPerLeg   float64 // of PostgreSQL, of all tables
	RowsPerVisit float64 // of PostgreSQL per session, beside its legs

	Compressed float64 // bytes of a complete recording per byte of its datagrams
	Piece      int     // bytes of a piece of a recording that is being flown
	PieceEvery float64 // s after which a smaller piece is stored
	PutPrice   float64 // of storing a thousand objects
	MonthPrice float64 // of keeping a gigabyte for a month
}

// Measured returns the assumptions of the package documentation.
func Measured() *Assumptions {
	return &Assumptions{
		NodeStations: 300,
		NodeCores:    2,
		NodeBusy:     0.55,
		Rate:         60,
		Datagram:     412,
		Batches:      10,
		Batch:        120,
		Replicas:     3,
		NATSNode:     28_000,
		ReadRate:     25_000,
		ReadAtOnce:   8,
		ReplaySpeed:  5000,
		Beat:         0.3,
		Missed:       1,
		SessionMean:  1800,
		InLeg:        0.5,
		FlownHours:   4,
		LegsPerHour:  30,
		RowsPerLeg:   12,
		RowsPerVisit: 8,
		Compressed:   0.2,
		Piece:        1 << 20,
		PieceEvery:   10,
		PutPrice:     0.005,
		MonthPrice:   0.025,
	}
}

// A Need is what a cluster of a size needs.
type Need struct {
	Stations int
	Nodes    int // that hold all stations also when one of them is gone

	BatchesPerSecond float64
	RecordMBps       float64 // of the record, before it is replicated
	StoredMBps       float64 // written by all NATS servers
	NATSServers      int
	RecordGBPerHour  float64 // that is kept per hour of the record's age, all replicas

	RowsPerDay float64 // in PostgreSQL
	PutsPerSec float64 // of the store
	GBPerDay   float64 // of complete recordings

	HourPrice float64 // of the store, for a flown hour that is kept for a month
}

// Needs computes what a number of stations that all fly at once needs.
func (a *Assumptions) Needs(stations int) Need {
	n := float64(stations)
	bytes := a.Rate*float64(a.Datagram) + a.Batches*float64(a.Batch)
	batches := n * a.Batches
	servers := max(a.Replicas, int(math.Ceil(batches*float64(a.Replicas)/a.NATSNode)))
	hour := a.Rate * float64(a.Datagram) * 3600
	puts := max(a.Rate*float64(a.Datagram)/float64(a.Piece), 1/a.PieceEvery)
	return Need{
		Stations:         stations,
		Nodes:            max(3, int(math.Ceil(n/float64(a.NodeStations)))+1),
		BatchesPerSecond: batches,
		RecordMBps:       n * bytes / 1e6,
		StoredMBps:       n * bytes * float64(a.Replicas) / 1e6,
		NATSServers:      servers,
		RecordGBPerHour:  n * bytes * 3600 * float64(a.Replicas) / 1e9,
		RowsPerDay:       n * a.FlownHours * (a.LegsPerHour*a.RowsPerLeg + a.RowsPerVisit*3600/a.SessionMean),
		PutsPerSec:       n * puts,
		GBPerDay:         n * a.FlownHours * hour * a.Compressed / 1e9,
		HourPrice:        puts*3600/1000*a.PutPrice + hour*a.Compressed/1e9*a.MonthPrice,
	}
}
