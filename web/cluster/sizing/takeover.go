package sizing

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
)

// An Outcome is how a simulated cluster took over the stations of a node that died.
type Outcome struct {
	Stations, Nodes int
	Before, After   Balance // of the living nodes

	Taken      int     // stations that were taken over
	InLeg      Gaps    // of the stations that were in a leg
	Others     Gaps    // of the rest
	WithinGoal float64 // share of those in a leg whose coaching went on within two seconds
}

// A Balance is how evenly stations are spread.
type Balance struct{ Mean, Most float64 }

// Gaps are for how long stations were not coached, s.
type Gaps struct{ Median, P99, Most float64 }

// goal is the gap in coaching that is aimed at, s.
const goal = 2

// A Standby is what a node does for a station that it hears and another holds.
type Standby int

// The standbys.
const (
	Cold Standby = iota // nothing: it reads and replays the session when the holder dies
	Warm                // it follows the session: it replays only what nobody has recorded
)

// Takeover simulates the death of one node. Each station is heard by two nodes, chosen by a hash of its name as good as
// chance; the first of them holds it. A node that misses the dead one takes over its stations, those in a leg first, on
// the processors that its own stations leave.
func (a *Assumptions) Takeover(by Standby, stations, nodes int, seed uint64) Outcome {
	r := rand.New(rand.NewPCG(seed, 0))
	held := make([]float64, nodes)
	lost := make([][]flight, nodes) // of each node that takes over, stations of the dead node
	const dead = 0
	for range stations {
		holder := r.IntN(nodes)
		standby := (holder + 1 + r.IntN(nodes-1)) % nodes
		held[holder]++
		if holder == dead {
			lost[standby] = append(lost[standby], a.flight(r))
		}
	}
	out := Outcome{Stations: stations, Nodes: nodes, Before: balance(held[1:])}
	var inLeg, others []float64
	for node := 1; node < nodes; node++ {
		for _, f := range a.takeOver(by, lost[node], held[node], r) {
			if out.Taken++; f.inLeg {
				inLeg = append(inLeg, f.gap)
			} else {
				others = append(others, f.gap)
			}
		}
		held[node] += float64(len(lost[node]))
	}
	out.After = balance(held[1:])
	out.InLeg, out.Others = gaps(inLeg), gaps(others)
	within := 0
	for _, g := range inLeg {
		if g <= goal {
			within++
		}
	}
	out.WithinGoal = float64(within) / float64(max(1, len(inLeg)))
	return out
}

// A flight is a station of the dead node.
type flight struct {
	length float64 // s of the session so far
	inLeg  bool
	gap    float64 // s
}

func (a *Assumptions) flight(r *rand.Rand) flight {
	return flight{length: r.ExpFloat64() * a.SessionMean, inLeg: r.Float64() < a.InLeg}
}

// takeOver computes the gap of each station that a node takes over. The node has own stations beside them.
func (a *Assumptions) takeOver(by Standby, all []flight, own float64, r *rand.Rand) []flight {
	slices.SortStableFunc(all, func(x, y flight) int {
		if x.inLeg != y.inLeg {
			if x.inLeg {
				return -1
			}
			return 1
		}
		return cmp.Compare(x.length, y.length)
	})
	noticed := a.Missed + r.Float64()*a.Beat
	idle := max(0.05, 1-a.NodeBusy*own/float64(a.NodeStations))
	readers := filled(a.ReadAtOnce, noticed)
	processors := filled(a.NodeCores, noticed)
	for i := range all {
		f := &all[i]
		replayed := f.length + noticed
		var read float64
		if by == Warm {
			replayed = noticed
		} else {
			reader := next(readers)
			*reader += f.length * a.Batches / a.ReadRate
			read = *reader
		}
		p := next(processors)
		*p = max(*p, read) + replayed/a.ReplaySpeed/idle
		f.gap = *p
	}
	return all
}

func filled(n int, with float64) []float64 {
	all := make([]float64, n)
	for i := range all {
		all[i] = with
	}
	return all
}

// next returns the one that is free first.
func next(all []float64) *float64 {
	first := &all[0]
	for i := range all {
		if all[i] < *first {
			first = &all[i]
		}
	}
	return first
}

func balance(held []float64) (b Balance) {
	for _, n := range held {
		b.Mean += n / float64(len(held))
		b.Most = math.Max(b.Most, n)
	}
	return b
}

func gaps(all []float64) Gaps {
	if len(all) == 0 {
		return Gaps{}
	}
	slices.Sort(all)
	at := func(q float64) float64 { return all[int(q*float64(len(all)-1))] }
	return Gaps{Median: at(0.5), P99: at(0.99), Most: all[len(all)-1]}
}
