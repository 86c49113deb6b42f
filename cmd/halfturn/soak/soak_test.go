package soak

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"
	"time"
)

var (
	lasts  = flag.Duration("for", 0, "how long TestSoak flies against the program; 0 is the short form in this process")
	crowd  = flag.Int("stations", 100, "stations of the long form")
	chosen = flag.Uint64("seed", 0, "seed of the random faults; 0 is a new one")
)

// A form is how long and how hard the test is.
type form struct {
	seed     uint64
	clean    int           // stations without faults
	faulty   int           // stations with faults
	viewers  int           // of each kind
	rounds   int           // loud ones
	round    time.Duration // after which a loud round ends, once the flights under way are over
	rate     float64       // datagrams a second of flight
	pace     float64       // seconds of flight a second
	idle     time.Duration // after which a session ends
	tempo    time.Duration // what people do takes between a fifth of it and five times as long
	heap     float64       // bytes by which the live memory may grow from one round to the next
	keepSize int           // MB of recordings that are kept
}

// short takes about seven seconds, most of them waiting for sessions to end. Its flights are flown 66 times as fast.
//
// The memory may grow by what is bounded and not yet full: what the hub keeps of the last 64 stations that left, 0.1 MB
// each, and an encoder of compressed recordings that works just then, which has buffers of 8 MB.
func short(seed uint64) form {
	return form{
		seed:     seed,
		clean:    2,
		faulty:   6,
		viewers:  2,
		rounds:   2,
		round:    700 * time.Millisecond,
		rate:     12,
		pace:     66,
		idle:     800 * time.Millisecond,
		tempo:    50 * time.Millisecond,
		heap:     16 << 20,
		keepSize: 1000,
	}
}

// long flies in real time, in rounds of five minutes.
func long(seed uint64, stations int, lasts time.Duration) form {
	rounds := max(2, int(lasts/(5*time.Minute)))
	return form{
		seed:     seed,
		clean:    max(2, stations/4),
		faulty:   stations - max(2, stations/4),
		viewers:  max(2, stations/20),
		rounds:   rounds,
		round:    lasts / time.Duration(rounds),
		rate:     30,
		pace:     1,
		idle:     5 * time.Second,
		tempo:    2 * time.Second,
		heap:     16 << 20,
		keepSize: 1000,
	}
}

// A soak is one run of the test.
type soak struct {
	*testing.T
	form
	house  house
	counts counts

	quiet map[int]flown // what the flights of the clean stations gave in the quiet round
	disk  sync.RWMutex  // held for writing while the data folder is away; for reading where that would be a loss
}

// random returns the chance of one of those who take part.
func (s *soak) random(who, round, number int) *rand.Rand {
	return rand.New(rand.NewPCG(s.seed, uint64(who)<<48|uint64(round)<<24|uint64(number)))
}

// Who takes part, for random.
const (
	aFaultyStation = iota + 1
	aViewer
	aPerson
	theDisk
	theService
)

// TestSoak runs a server while everything around it fails, and looks at what is left: see the package's documentation.
func TestSoak(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("each station has an address of its own in 127.0.0.0/8, which other systems have not")
	}
	seed := *chosen
	if seed == 0 {
		seed = rand.Uint64()>>1 | 1
	}
	s := &soak{T: t, form: short(seed), quiet: map[int]flown{}}
	repeat := fmt.Sprintf("go test ./cmd/halfturn/soak -count 1 -seed %d", seed)
	if *lasts > 0 {
		s.form = long(seed, *crowd, *lasts)
		repeat = fmt.Sprintf("make soak FOR=%v STATIONS=%d SEED=%d", *lasts, *crowd, seed)
		s.house = startProgram(t, &s.form)
	} else {
		s.house = startHere(t, &s.form)
	}
	t.Logf("seed %d; to repeat it: %s", seed, repeat)
	s.run()
}

// run flies the rounds and compares what is left after each.
func (s *soak) run() {
	s.fly(0)
	s.left(figures{})
	s.judge(0)
	var began figures
	for round := 1; round <= s.rounds && !s.Failed(); round++ {
		s.fly(round)
		left := s.left(began)
		s.judge(round)
		s.Logf("after round %d: %v", round, left)
		if round == 1 {
			began = left
		} else {
			s.compare(began, left)
		}
		s.faults()
	}
	s.Logf("%v", &s.counts)
	if !s.Failed() {
		s.counts.check(s.T, &s.form)
	}
	if most := s.house.peak(s.T); most > 0 {
		s.Logf("most memory that the process ever had: %.1f MB", most/1e6)
	}
}

// fly flies a round to its end. Round 0 is the quiet one.
func (s *soak) fly(round int) {
	ctx, cancel := context.WithTimeout(s.Context(), s.round)
	defer cancel()
	var all sync.WaitGroup
	gate := newGate(s.house.udp().Port)
	watching, stop := context.WithCancel(s.Context())
	all.Go(func() { gate.watch(watching) })
	var flights sync.WaitGroup
	for n := range s.clean {
		c := &clean{soak: s, gate: gate, number: n, round: round}
		flights.Go(func() { c.fly(ctx) })
	}
	if round > 0 {
		for n := range s.faulty {
			f := &faulty{soak: s, gate: gate, number: n, random: s.random(aFaultyStation, round, n)}
			flights.Go(func() { f.fly(ctx) })
		}
		s.disturb(ctx, round, &all)
	}
	flights.Wait()
	stop()
	all.Wait()
}

// disturb has people and the system do what they do beside the stations, until a context ends.
func (s *soak) disturb(ctx context.Context, round int, all *sync.WaitGroup) {
	for n := range s.viewers * len(habits) {
		v := &viewer{soak: s, random: s.random(aViewer, round, n)}
		all.Go(func() { v.live(ctx, habits[n%len(habits)]) })
	}
	for n := range 2 {
		all.Go(func() { s.command(ctx, s.random(aPerson, round, n)) })
	}
	all.Go(func() { s.takeAway(ctx, s.random(theDisk, round, 0)) })
	all.Go(func() { s.reload(ctx, s.random(theService, round, 0)) })
}
