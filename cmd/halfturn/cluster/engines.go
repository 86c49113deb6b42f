// Package cluster opens the engines of a cluster for a server, and holds the commands that look at them.
package cluster

import (
	"context"
	"errors"
	"time"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/live"
	"halfturn/configs/cluster"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web/cluster/flow"
	"halfturn/web/cluster/flow/nats"
	"halfturn/web/cluster/node"
)

const megabyte = 1_000_000

// Times of a start.
const (
	makeWait = 10 * time.Second        // for the streams to be looked at
	hearWait = 1500 * time.Millisecond // for other nodes to tell their time
	mostAway = time.Minute             // a clock may be wrong by
)

// ofNATS is what the file says of NATS.
func ofNATS(c *cluster.Config) nats.Settings {
	n := &c.NATS
	return nats.Settings{
		Node:    c.Node,
		Cluster: c.Cluster,
		Prefix:  n.Prefix,
		URLs:    n.URLs,
		Access: nats.Access{
			User:            n.User,
			Password:        n.Password,
			Token:           n.Token,
			CredentialsFile: n.Credentials,
			NKeyFile:        n.NKey,
			TLS:             n.TLS,
		},
		Keeping: nats.Keeping{
			Streams:  n.Streams,
			Replicas: n.Replicas,
			MaxAge:   time.Duration(n.KeepHours) * time.Hour,
			MaxBytes: int64(n.KeepGB) * 1000 * megabyte,
		},
	}
}

// Open reads the file of a cluster and connects a server to it; close lets go of it. It fails where waiting mends
// nothing: a wrong file, credentials that are refused, streams of another cluster or version, a clock that is apart
// from those of other nodes. Engines that do not answer are gone on without.
func Open(
	ctx context.Context, file string, env func(string) (string, bool), in *phrase.Language, log zerolog.Logger,
) (c *live.Cluster, close func(), err error) {
	cfg, err := cluster.Load(file, env)
	if err != nil {
		return nil, nil, settings.NewError(err)
	}
	if err := unserved(cfg, in); err != nil {
		return nil, nil, settings.NewError(err)
	}
	s := ofNATS(cfg)
	s.Trouble = func(err error) { log.Warn().Err(err).Msg("the cluster") }
	engine, err := nats.Open(ctx, s)
	if err != nil {
		return nil, nil, err
	}
	shut := func() {
		if err := engine.Close(); err != nil {
			log.Warn().Err(err).Msg("the cluster is left")
		}
	}
	if err := ready(ctx, engine, in, log); err != nil {
		shut()
		return nil, nil, err
	}
	return &live.Cluster{
		Name:   cfg.Node,
		Flow:   engine,
		Times:  node.Times{Beat: cfg.Times.Heartbeat.Duration, Dead: cfg.Times.Dead.Duration},
		Limits: node.Limits{Waiting: cfg.Waiting.Station * megabyte, All: cfg.Waiting.All * megabyte},
	}, shut, nil
}

// unserved says what this program does not serve from yet.
func unserved(c *cluster.Config, in *phrase.Language) error {
	if c.Postgres.DSN != "" || c.S3.Bucket != "" {
		return base.Failf(in, "sessions and people of a cluster cannot be kept in PostgreSQL and S3 yet; take the "+
			"tables postgres and s3 out of the file: each node then keeps what it flew")
	}
	return nil
}

// ready makes the streams and compares the clocks.
func ready(ctx context.Context, engine *nats.Engine, in *phrase.Language, log zerolog.Logger) error {
	made, cancel := context.WithTimeout(ctx, makeWait)
	_, err := engine.Make(made)
	cancel()
	switch {
	case errors.Is(err, nats.ErrForeign), errors.Is(err, nats.ErrRefused):
		return err
	case err != nil:
		log.Warn().Err(err).
			Msg("the store of the cluster cannot be used now; the server starts, and it is tried again")
		return nil
	}
	select {
	case <-ctx.Done():
		return ctx.Err()
	case <-time.After(hearWait):
	}
	return apart(engine, in)
}

// apart refuses clocks that differ too much: times in recordings, and the order of what nodes wrote, would be wrong.
func apart(clocks flow.Clocks, in *phrase.Language) error {
	other, ahead := clocks.Apart()
	if ahead.Abs() < mostAway {
		return nil
	}
	way := in.Word("ahead of")
	if ahead > 0 {
		way = in.Word("behind")
	}
	return base.Failf(in, "the clock of this machine is %v %s that of node %s; set both by the network (NTP)",
		ahead.Abs().Round(time.Second), way, other)
}
