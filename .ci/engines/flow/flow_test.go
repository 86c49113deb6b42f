// Package flow tests the engine of a cluster against real servers.
package flow

import (
	"context"
	"fmt"
	"os"
	"sync/atomic"
	"testing"
	"time"

	"halfturn/engines/natsserver"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/flowtest"
	"halfturn/web/cluster/flow/nats"
)

func TestMain(m *testing.M) {
	natsserver.Main()
	os.Exit(m.Run())
}

// prefixes tell the clusters of tests apart that share servers.
var prefixes atomic.Int64

// settings are those of a fresh cluster.
func settings(t testing.TB, urls []string, streams, replicas int) nats.Settings {
	return nats.Settings{
		Cluster: t.Name(),
		Prefix:  fmt.Sprint("t", prefixes.Add(1)),
		URLs:    urls,
		Keeping: nats.Keeping{Streams: streams, Replicas: replicas},
	}
}

// join opens an engine, and closes it when the test is over.
func join(t testing.TB, s nats.Settings, node string) *nats.Engine {
	t.Helper()
	s.Node = node
	s.Trouble = func(err error) { t.Logf("%s: %v", node, err) }
	e, err := nats.Open(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { e.Close() })
	return e
}

// made makes the streams of a cluster.
func made(t testing.TB, s nats.Settings) {
	t.Helper()
	e := join(t, s, "maker")
	defer e.Close()
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	if _, err := e.Make(ctx); err != nil {
		t.Fatal(err)
	}
}

func conform(t *testing.T, urls []string, streams, replicas int) {
	flowtest.Run(t, func(t *testing.T) flowtest.Joiner {
		s := settings(t, urls, streams, replicas)
		made(t, s)
		return func(node string) flow.Engine { return join(t, s, node) }
	})
}

// The engine does what package flow says over one server.
func TestOneServer(t *testing.T) {
	t.Parallel()
	conform(t, natsserver.Run(t, 1, nil), 4, 1)
}

// The engine does what package flow says over three servers that hold each stream three times.
func TestThreeServers(t *testing.T) {
	t.Parallel()
	conform(t, natsserver.Run(t, 3, nil), 1, 3)
}
