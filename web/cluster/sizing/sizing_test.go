package sizing

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the tables in the package documentation")

// TestNeeds is worked by hand: 1,000 stations at 60 datagrams of 400 bytes a second.
func TestNeeds(t *testing.T) {
	a := Assumptions{
		NodeStations: 300, Rate: 60, Datagram: 400, Batches: 10, Batch: 100, Replicas: 3, NATSNode: 20_000,
		FlownHours: 4, LegsPerHour: 20, RowsPerLeg: 10, RowsPerVisit: 5, SessionMean: 1800,
		Compressed: 0.2, Piece: 1 << 20, PieceEvery: 5, PutPrice: 0.005, MonthPrice: 0.02,
	}
	got := a.Needs(1000)
	for _, c := range []struct {
		what      string
		got, must float64
	}{
		{"nodes: 1000/300, and one more", float64(got.Nodes), 5},
		{"batches: 1000 x 10", got.BatchesPerSecond, 10_000},
		{"record: 1000 x (24,000 + 1,000) bytes a second", got.RecordMBps, 25},
		{"stored three times", got.StoredMBps, 75},
		{"servers: 30,000 of 20,000 each, but one for each replica", float64(got.NATSServers), 3},
		{"an hour of it: 75 MB x 3600", got.RecordGBPerHour, 270},
		{"rows: 1000 x 4 h x (200 + 5 x 2)", got.RowsPerDay, 840_000},
		{"pieces: one in five seconds each", got.PutsPerSec, 200},
		{"a day: 1000 x 4 h x 86.4 MB / 5", got.GBPerDay, 69.12},
		{"an hour: 720 pieces, and 17.28 MB for a month", got.HourPrice, 0.72*0.005 + 0.01728*0.02},
	} {
		if math.Abs(c.got-c.must) > 1e-9*c.must {
			t.Errorf("%s: %g; must be %g", c.what, c.got, c.must)
		}
	}
}

// TestTakeoverByHand: one station, in a leg, a node with one processor that nothing else keeps busy.
func TestTakeoverByHand(t *testing.T) {
	a := Assumptions{
		NodeCores: 1, NodeStations: 300, Batches: 10, ReadRate: 10_000, ReadAtOnce: 1, ReplaySpeed: 5000, Missed: 1,
	}
	for name, c := range map[string]struct {
		by   Standby
		must []float64
	}{
		// In a leg first, then the shorter: read 1.0 s, replayed with the second that nobody coached; then 0.5, 0.6.
		"cold": {Cold, []float64{1 + 1 + 0.2002, 1 + 1.5 + 0.1002, 1 + 2.1 + 0.1202}},
		// Only that second is replayed, one station after the other.
		"warm": {Warm, []float64{1.0002, 1.0004, 1.0006}},
	} {
		flights := []flight{{length: 600}, {length: 1000, inLeg: true}, {length: 500}}
		for i, f := range a.takeOver(c.by, flights, 0, rand.New(rand.NewPCG(1, 0))) {
			if math.Abs(f.gap-c.must[i]) > 1e-9 {
				t.Errorf("%s, station %d: a gap of %g s; must be %g", name, i, f.gap, c.must[i])
			}
		}
	}
}

// TestTakeoverLaws holds for any seed: no station is lost, no gap is shorter than a dead node goes unnoticed, and nodes
// are as even as chance makes them (five standard deviations of a binomial distribution).
func TestTakeoverLaws(t *testing.T) {
	a := Measured()
	for seed := range uint64(20) {
		const stations, nodes = 3000, 11
		o := a.Takeover(Cold, stations, nodes, seed)
		if again := a.Takeover(Cold, stations, nodes, seed); again != o {
			t.Fatalf("seed %d: it differs when it is repeated", seed)
		}
		if sum := o.After.Mean * (nodes - 1); math.Abs(sum-stations) > 1e-6 {
			t.Errorf("seed %d: %g stations are held afterwards; must be %d", seed, sum, stations)
		}
		if sum := o.Before.Mean*(nodes-1) + float64(o.Taken); math.Abs(sum-stations) > 1e-6 {
			t.Errorf("seed %d: %d were taken over of %g", seed, o.Taken, stations-o.Before.Mean*(nodes-1))
		}
		if o.InLeg.Median < a.Missed || o.Others.Most < o.Others.P99 || o.InLeg.Median > o.Others.Most {
			t.Errorf("seed %d: gaps %+v and %+v", seed, o.InLeg, o.Others)
		}
		if limit := o.After.Mean + 5*math.Sqrt(o.After.Mean); o.After.Most > limit {
			t.Errorf("seed %d: a node holds %g stations, of %g in the mean", seed, o.After.Most, o.After.Mean)
		}
	}
}

// TestTables holds the tables of the documentation to what is computed.
func TestTables(t *testing.T) {
	const file = "doc.go"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const begin, end = "// # Tables\n//\n", "//\n// # What breaks first"
	from, to := strings.Index(string(text), begin), strings.Index(string(text), end)
	if from < 0 || to < from {
		t.Fatalf("%s has no tables", file)
	}
	from += len(begin)
	if *update {
		text = []byte(string(text[:from]) + tables() + string(text[to:]))
		if err := os.WriteFile(file, text, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if got := string(text[from:to]); got != tables() {
		t.Errorf("the tables are not those that are computed; go test ./web/cluster/sizing -update\n%s", tables())
	}
}

// A comment is lines of a documentation comment.
type comment struct{ strings.Builder }

func (c *comment) line(text string) {
	switch {
	case text == "":
	case text[0] != '\t':
		text = " " + text
	}
	c.WriteString("//" + text + "\n")
}

// tables writes what the documentation shows.
func tables() string {
	var b comment
	a := Measured()
	sizes := []int{300, 1000, 10_000, 100_000}
	needs := make([]Need, len(sizes))
	for i, n := range sizes {
		needs[i] = a.Needs(n)
	}
	row := func(what string, of func(n *Need) string) {
		line := fmt.Sprintf("\t%-34s", what)
		for i := range needs {
			line += fmt.Sprintf(" %10s", of(&needs[i]))
		}
		b.line(line)
	}
	row("stations that fly", func(n *Need) string { return fmt.Sprint(n.Stations) })
	row("nodes, one of them to spare", func(n *Need) string { return fmt.Sprint(n.Nodes) })
	row("batches a second", func(n *Need) string { return fmt.Sprintf("%.0f", n.BatchesPerSecond) })
	row("record, MB/s", func(n *Need) string { return fmt.Sprintf("%.1f", n.RecordMBps) })
	row("stored by all replicas, MB/s", func(n *Need) string { return fmt.Sprintf("%.1f", n.StoredMBps) })
	row("NATS servers", func(n *Need) string { return fmt.Sprint(n.NATSServers) })
	row("an hour of the record, GB", func(n *Need) string { return fmt.Sprintf("%.0f", n.RecordGBPerHour) })
	row("PostgreSQL, million rows a day", func(n *Need) string { return fmt.Sprintf("%.2f", n.RowsPerDay/1e6) })
	row("pieces stored a second", func(n *Need) string { return fmt.Sprintf("%.0f", n.PutsPerSec) })
	row("complete recordings, GB a day", func(n *Need) string { return fmt.Sprintf("%.1f", n.GBPerDay) })
	row("a flown hour, cents", func(n *Need) string { return fmt.Sprintf("%.2f", n.HourPrice*100) })
	after(&b, "After the death of a node, others having followed its sessions", Warm, needs)
	after(&b, "The same, nobody having followed them", Cold, needs)
	return b.String()
}

// after writes what the death of a node does to clusters.
func after(b *comment, title string, by Standby, needs []Need) {
	a := Measured()
	outcomes := make([]Outcome, len(needs))
	for i := range needs {
		outcomes[i] = a.Takeover(by, needs[i].Stations, needs[i].Nodes, 1)
	}
	for _, text := range []string{"", title + ":", ""} {
		b.line(text)
	}
	for _, row := range []struct {
		what, format string
		of           func(o *Outcome) float64
	}{
		{"stations of a node: mean", "%.0f", func(o *Outcome) float64 { return o.Before.Mean }},
		{"… afterwards, of the fullest", "%.0f", func(o *Outcome) float64 { return o.After.Most }},
		{"taken over", "%.0f", func(o *Outcome) float64 { return float64(o.Taken) }},
		{"gap in a leg: median, s", "%.2f", func(o *Outcome) float64 { return o.InLeg.Median }},
		{"… 99 of 100", "%.2f", func(o *Outcome) float64 { return o.InLeg.P99 }},
		{"… within two seconds, %", "%.0f", func(o *Outcome) float64 { return 100 * o.WithinGoal }},
		{"gap between legs: median, s", "%.2f", func(o *Outcome) float64 { return o.Others.Median }},
		{"… the longest", "%.2f", func(o *Outcome) float64 { return o.Others.Most }},
	} {
		line := fmt.Sprintf("\t%-34s", row.what)
		for i := range outcomes {
			line += fmt.Sprintf(" %10s", fmt.Sprintf(row.format, row.of(&outcomes[i])))
		}
		b.line(line)
	}
}
