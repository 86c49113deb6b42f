// Package place finds what a command works on: a data directory, or what the nodes of a cluster share.
package place

import (
	"context"
	"os"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/archive"
	"halfturn/coach/archive/depot/s3"
	"halfturn/coach/storage"
	"halfturn/configs/cluster"
	"halfturn/configs/settings"
)

// makeWait is how long the bucket of a cluster may take to answer.
const makeWait = 10 * time.Second

// Flags name a place.
type Flags struct {
	Config  string `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Data    string `help:"Data directory." placeholder:"DIR" type:"path"`
	Cluster string `help:"File of a cluster, in place of a data directory." placeholder:"FILE" type:"path"`
}

// A Place is where the logbook, the list of people, and the folders of sessions are.
type Place struct {
	storage.Place // of the logbook and the people

	Config *settings.Config
	Data   string // the data directory; of a cluster one that holds nothing but copies, and goes with Close

	cluster *cluster.Config // nil: the place is a data directory
	bucket  *s3.Bucket
}

// Stores finds where the logbook and the list of people are. Nothing is opened, nor asked, nor made.
func (f *Flags) Stores(s base.Streams) (*Place, error) {
	cfg, err := base.Load(&base.Flags{Config: f.Config}, s.Env)
	if err != nil {
		return nil, err
	}
	if f.Cluster == "" {
		data, err := base.DataDir(s.Language, cfg, f.Data)
		return &Place{Place: storage.Directory(data), Config: cfg, Data: data}, err
	}
	if f.Data != "" {
		return nil, base.Usagef(s.Language, "--data and --cluster name two places; give one of them")
	}
	c, err := cluster.Load(f.Cluster, s.Env)
	if err != nil {
		return nil, settings.NewError(err)
	}
	if c.Postgres.DSN == "" {
		return nil, base.Failf(s.Language, "%s names no database: each node has its own people and logbook; name "+
			"the data directory of one with --data", f.Cluster)
	}
	return &Place{Place: storage.At(c.Postgres.DSN), Config: cfg, cluster: c}, nil
}

// Find finds where all is. The bucket of a cluster must answer, and be that of the cluster.
func (f *Flags) Find(ctx context.Context, s base.Streams) (*Place, error) {
	p, err := f.Stores(s)
	if err != nil || p.cluster == nil {
		return p, err
	}
	if p.bucket, err = s3.Open(S3(&p.cluster.S3)); err != nil {
		return nil, settings.NewError(err)
	}
	ctx, cancel := context.WithTimeout(ctx, makeWait)
	defer cancel()
	if err = p.bucket.Make(ctx, p.cluster.Cluster); err == nil {
		p.Data, err = os.MkdirTemp("", "halfturn-")
	}
	if err != nil {
		p.bucket.Close()
		return nil, err
	}
	return p, nil
}

// Shared reports whether the place is that of a cluster, whose nodes may use it at the same time.
func (p *Place) Shared() bool { return p.cluster != nil }

// Archive opens the logbook and the folders of sessions. Engine and depot of the options are those of the place, and
// where nodes share it nothing is opened to be read alone.
func (p *Place) Archive(o archive.Options) (*archive.Archive, error) {
	o.Engine = p.Engine()
	if p.Shared() {
		o.ReadOnly = false
		o.Depot = archive.Depot{In: p.bucket, Node: p.cluster.Node}
	}
	return archive.Open(p.Data, o)
}

// Close lets go of what Find opened.
func (p *Place) Close() error {
	if p.bucket == nil {
		return nil
	}
	p.bucket.Close()
	return os.RemoveAll(p.Data)
}

// S3 is what the file of a cluster says of the bucket.
func S3(s *cluster.S3) s3.Options {
	return s3.Options{
		Endpoint: s.Host,
		Secure:   s.Secure,
		TLS:      s.TLS,
		Region:   s.Region,
		Bucket:   s.Bucket,
		Key:      s.Access,
		Secret:   s.Secret,
	}
}
