// Package cluster opens the engines of a cluster for a server, and holds the commands that look at them.
package cluster

import (
	"context"
	"errors"
	"time"

	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/live"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/made"
	"halfturn/coach/archive/depot/s3"
	"halfturn/coach/storage"
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

// Open reads the file of a cluster and connects a server to its engines, which it puts in the server's options; close
// lets go of them. It fails where waiting mends nothing: a wrong file, credentials that are refused, streams, tables or
// a bucket of another cluster or version, a clock that is apart from those of other nodes. NATS and S3 that do not
// answer are gone on without; PostgreSQL is opened by the server, which goes on without it, too.
func Open(
	ctx context.Context, file string, env func(string) (string, bool), in *phrase.Language, o *live.Options,
) (close func(), err error) {
	cfg, err := cluster.Load(file, env)
	if err != nil {
		return nil, settings.NewError(err)
	}
	log := o.Log
	bucket, err := depotOf(ctx, cfg, log)
	if err != nil {
		return nil, err
	}
	s := ofNATS(cfg)
	s.Trouble = func(err error) { log.Warn().Err(err).Msg("the cluster") }
	engine, err := nats.Open(ctx, s)
	if err != nil {
		return nil, err
	}
	watch := &watch{engine: engine, log: log}
	unwatch := func() {}
	shut := func() {
		unwatch()
		if err := engine.Close(); err != nil {
			log.Warn().Err(err).Msg("the cluster is left")
		}
		if bucket != nil {
			bucket.Close()
		}
	}
	if watch.made, err = ready(ctx, engine, in, log); err != nil {
		shut()
		return nil, err
	}
	unwatch = watch.start()
	o.Cluster = &live.Cluster{
		Name:   cfg.Node,
		Flow:   engine,
		Times:  node.Times{Beat: cfg.Times.Heartbeat.Duration, Dead: cfg.Times.Dead.Duration},
		Limits: node.Limits{Waiting: cfg.Waiting.Station * megabyte, All: cfg.Waiting.All * megabyte},
	}
	if bucket != nil {
		o.Storage = new(storage.At(cfg.Postgres.DSN))
		o.Depot = &live.Depot{Node: cfg.Node, In: made.Of(bucket, func(ctx context.Context) error {
			return bucket.Make(ctx, cfg.Cluster)
		})}
	}
	return shut, nil
}

// depotOf opens the bucket, and makes it where there is none; nil where the file names none.
func depotOf(ctx context.Context, cfg *cluster.Config, log zerolog.Logger) (*s3.Bucket, error) {
	if cfg.S3.Bucket == "" {
		return nil, nil
	}
	bucket, err := s3.Open(place.S3(&cfg.S3))
	if err != nil {
		return nil, settings.NewError(err)
	}
	ctx, cancel := context.WithTimeout(ctx, makeWait)
	defer cancel()
	err = bucket.Make(ctx, cfg.Cluster)
	if errors.Is(err, depot.ErrDenied) {
		bucket.Close()
		return nil, err
	}
	if err != nil {
		log.Warn().Err(err).Msg("sessions are kept in the data directory until the depot answers")
	}
	return bucket, nil
}

// ready makes the streams and compares the clocks. Made says whether there are streams: else a watch makes them.
func ready(
	ctx context.Context, engine *nats.Engine, in *phrase.Language, log zerolog.Logger,
) (made bool, err error) {
	making, cancel := context.WithTimeout(ctx, makeWait)
	_, err = engine.Make(making)
	cancel()
	switch {
	case errors.Is(err, nats.ErrForeign), errors.Is(err, nats.ErrRefused):
		return false, err
	case err != nil:
		log.Warn().Err(err).
			Msg("the store of the cluster cannot be used now; the server starts, and it is tried again")
		return false, nil
	}
	select {
	case <-ctx.Done():
		return false, ctx.Err()
	case <-time.After(hearWait):
	}
	return true, apart(engine, in)
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
