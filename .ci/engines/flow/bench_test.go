package flow

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/nats-io/nats.go/jetstream"

	"halfturn/engines/natsserver"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/nats"
)

// Clusters that are measured: servers, and how many of them hold each stream.
var measured = []struct {
	name              string
	servers, replicas int
}{{"R1", 1, 1}, {"R3", 3, 3}}

// bench starts servers in this process, whose processor time counts, and makes the streams of a cluster.
func bench(b *testing.B, servers, streams, replicas int) nats.Settings {
	b.Helper()
	s := settings(b, natsserver.Run(b, servers, nil), streams, replicas)
	made(b, s)
	return s
}

// processorTime is what this process has used, servers included.
func processorTime(b *testing.B) time.Duration {
	var used syscall.Rusage
	must(b, syscall.Getrusage(syscall.RUSAGE_SELF, &used))
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}

// report says how long calls took.
func report(b *testing.B, took []time.Duration) {
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "ms-p50")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "ms-p99")
	b.ReportMetric(float64(took[len(took)-1].Microseconds())/1000, "ms-max")
}

// BenchmarkKeep keeps the batches of 300 stations as they come, ten a second of six datagrams of 400 bytes each. The
// latency is from the moment at which a batch is due. A loop is a second.
func BenchmarkKeep(b *testing.B) {
	for _, c := range measured {
		b.Run(c.name, func(b *testing.B) {
			e := join(b, bench(b, c.servers, nats.DefaultStreams, c.replicas), "north")
			const stations, each = 300, 10
			leases := claimAll(b, e, stations)
			b.ResetTimer()
			began := time.Now()
			took := make([][]time.Duration, stations)
			var tasks sync.WaitGroup
			for i, l := range leases {
				tasks.Go(func() {
					offset := time.Duration(i) * time.Second / each / stations
					for n := range b.N * each {
						due := began.Add(offset + time.Duration(n)*time.Second/each)
						<-time.After(time.Until(due))
						must(b, e.Keep(context.Background(), batch(l, uint64(n+1))))
						took[i] = append(took[i], time.Since(due))
					}
				})
			}
			tasks.Wait()
			b.StopTimer()
			b.ReportMetric(float64(b.N*stations*each)/b.Elapsed().Seconds(), "batches/s")
			report(b, slices.Concat(took...))
		})
	}
}

// BenchmarkKeepMost keeps batches of 300 stations as fast as they are taken, one of each at a time. A loop is a batch.
func BenchmarkKeepMost(b *testing.B) {
	for _, c := range measured {
		b.Run(c.name, func(b *testing.B) {
			e := join(b, bench(b, c.servers, nats.DefaultStreams, c.replicas), "north")
			const stations = 300
			leases := claimAll(b, e, stations)
			b.ResetTimer()
			used := processorTime(b)
			took := make([][]time.Duration, stations)
			var tasks sync.WaitGroup
			for i, l := range leases {
				tasks.Go(func() {
					for n := range b.N/stations + 1 {
						began := time.Now()
						must(b, e.Keep(context.Background(), batch(l, uint64(n+1))))
						took[i] = append(took[i], time.Since(began))
					}
				})
			}
			tasks.Wait()
			b.StopTimer()
			all := float64((b.N/stations + 1) * stations)
			b.ReportMetric(all/b.Elapsed().Seconds(), "batches/s")
			b.ReportMetric(float64((processorTime(b)-used).Microseconds())/all, "us-cpu/batch")
			report(b, slices.Concat(took...))
		})
	}
}

func claimAll(b *testing.B, e flow.Engine, stations int) []flow.Lease {
	b.Helper()
	all := make([]flow.Lease, stations)
	for i := range all {
		l, err := e.Claim(context.Background(), flow.Lease{Station: fmt.Sprint("Seat ", i)}, "s")
		must(b, err)
		all[i] = l
	}
	return all
}

// BenchmarkRead reads 90 s, and an hour, of one station, among 19 of its stream that keep as much, which is what 300
// stations make in 16 streams. A loop is a record read whole.
func BenchmarkRead(b *testing.B) {
	for _, c := range measured {
		b.Run(c.name, func(b *testing.B) {
			s := bench(b, c.servers, 1, c.replicas)
			e := join(b, s, "north")
			for _, size := range []struct {
				name    string
				batches uint64
			}{{"90s", 900}, {"hour", 36_000}} {
				if size.batches > 900 && c.replicas > 1 {
					continue // takes minutes to write
				}
				one := fill(b, s, size.name, size.batches)
				b.Run(size.name, func(b *testing.B) {
					b.SetBytes(int64(size.batches * 6 * 400))
					used := processorTime(b)
					for b.Loop() {
						n := uint64(0)
						must(b, e.Read(context.Background(), one, "s", func(*flow.Batch) error { n++; return nil }))
						if n != size.batches {
							b.Fatalf("%d batches are read; must be %d", n, size.batches)
						}
					}
					b.ReportMetric(float64((processorTime(b)-used).Milliseconds())/float64(b.N), "ms-cpu/op")
				})
			}
		})
	}
}

// fill writes the records of 19 stations, in turn, and returns one of them.
func fill(b *testing.B, s nats.Settings, name string, batches uint64) (station string) {
	b.Helper()
	const stations = 19
	js := raw(b, s.URLs)
	for n := range batches {
		for i := range stations {
			l := flow.Lease{Station: fmt.Sprint(name, i), Fence: 1, Session: "s"}
			text, err := flow.EncodeBatch(batch(l, n+1))
			must(b, err)
			subject := fmt.Sprintf("%s.st.00.%s.rec.s", s.Prefix, l.Station)
			_, err = js.PublishAsync(subject, text, jetstream.WithStallWait(time.Minute))
			must(b, err)
		}
	}
	<-js.PublishAsyncComplete()
	return fmt.Sprint(name, stations/2)
}

// BenchmarkTell tells a node at another server a batch, and waits until it has heard it.
func BenchmarkTell(b *testing.B) {
	s := bench(b, 3, 1, 3)
	one, other := s, s
	one.URLs, other.URLs = s.URLs[:1], s.URLs[1:2]
	north, south := join(b, one, "north"), join(b, other, "south")
	heard := make(chan struct{}, 1)
	stop, err := south.Listen(flow.Live, "Seat 1", func(flow.Told) {
		select {
		case heard <- struct{}{}:
		default:
		}
	})
	must(b, err)
	defer stop()
	text, err := flow.EncodeBatch(batch(flow.Lease{Station: "Seat 1", Fence: 1}, 1))
	must(b, err)
	until(b, "what is told", func() bool {
		north.Tell(flow.Live, "Seat 1", text)
		return len(heard) > 0
	})
	for quiet := false; !quiet; { // what was told before it was heard
		select {
		case <-heard:
		case <-time.After(100 * time.Millisecond):
			quiet = true
		}
	}
	var took []time.Duration
	for b.Loop() {
		began := time.Now()
		north.Tell(flow.Live, "Seat 1", text)
		<-heard
		took = append(took, time.Since(began))
	}
	report(b, took)
}
