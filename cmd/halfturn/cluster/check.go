package cluster

import (
	"context"
	"errors"
	"fmt"
	"io"

	"halfturn/cmd/halfturn/base"
	"halfturn/cmd/halfturn/place"
	"halfturn/coach/archive/depot/s3"
	"halfturn/coach/layout"
	"halfturn/coach/logbook/postgres/db"
	"halfturn/coach/storage"
	"halfturn/configs/cluster"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web/cluster/flow/nats"
)

// Command is what is done with a cluster.
type Command struct {
	Check checkCmd `cmd:"" help:"What of a cluster is reachable, and what is missing, which it makes."`
}

type checkCmd struct {
	File string `arg:"" help:"File of the cluster." type:"path"`
	JSON bool   `help:"Print the findings as JSON, in English." name:"json"`
}

// Help says what else there is to know.
func (checkCmd) Help() string {
	return "Connects to each server that the file names, says its version, and makes the streams, tables and the " +
		"bucket that are missing, or changes streams whose settings are others; it can be repeated. The exit status " +
		"is 1 when something stands in the way. The file configs/service/cluster.toml of the program's source " +
		"explains every key."
}

// A finding is one line of a check.
type finding struct {
	Part string `json:"part"`
	OK   bool   `json:"ok"`
	Says string `json:"says"`
}

// A report is all findings.
type report struct {
	OK       bool      `json:"ok"` // nothing stands in the way
	Node     string    `json:"node"`
	Findings []finding `json:"findings"`
}

func (r *report) add(part string, ok bool, says string) {
	r.Findings = append(r.Findings, finding{part, ok, says})
	r.OK = r.OK && ok
}

// Run checks.
func (c *checkCmd) Run(ctx context.Context, s base.Streams) error {
	in := s.Language
	cfg, err := cluster.Load(c.File, s.Env)
	if err != nil {
		return settings.NewError(err)
	}
	if c.JSON {
		in = nil
	}
	r := &report{OK: true, Node: cfg.Node}
	checkNATS(ctx, cfg, r, in)
	if cfg.S3.Bucket == "" {
		r.add("PostgreSQL, S3", true, in.Word("none: each node keeps what it flew"))
	} else {
		checkPostgres(ctx, cfg, r, in)
		checkS3(ctx, cfg, r, in)
	}
	if err := r.print(s.Out, c.JSON, in); err != nil {
		return err
	}
	if !r.OK {
		return errors.New(s.Language.Word("something stands in the way of the cluster"))
	}
	return nil
}

// checkNATS adds what is found of NATS.
func checkNATS(ctx context.Context, cfg *cluster.Config, r *report, in *phrase.Language) {
	ctx, cancel := context.WithTimeout(ctx, makeWait)
	defer cancel()
	engine, err := nats.Open(ctx, ofNATS(cfg))
	if err != nil {
		r.add("NATS", false, in.Error(err))
		return
	}
	defer engine.Close()
	found, err := engine.Make(ctx)
	if found != nil {
		r.servers(found.Servers, in)
		r.streams(found.Streams, in)
	}
	if err != nil {
		r.add("NATS", false, in.Error(err))
		return
	}
	if found.Limit < 0 {
		r.add("NATS", true, in.Wordf("%d MB of disk are used", found.Used/megabyte))
		return
	}
	r.add("NATS", true, in.Wordf("%d of %d MB of disk are used", found.Used/megabyte, found.Limit/megabyte))
}

// checkPostgres makes the tables, and adds what is found.
func checkPostgres(ctx context.Context, cfg *cluster.Config, r *report, in *phrase.Language) {
	ctx, cancel := context.WithTimeout(ctx, makeWait)
	defer cancel()
	place := storage.At(cfg.Postgres.DSN)
	found, err := place.Look(ctx)
	if f := &found.Logbook; f.Version != "" {
		r.add("PostgreSQL", true, in.Wordf("version %s", f.Version))
	}
	if err != nil {
		r.add("PostgreSQL", false, in.Error(err))
		return
	}
	stores, err := place.Open()
	if err == nil {
		err = stores.Close()
	}
	if err != nil {
		r.add("PostgreSQL", false, in.Error(err))
		return
	}
	r.tables(place, &found, in)
}

// tables adds what was done for the tables, and what room there is.
func (r *report) tables(place storage.Place, found *storage.Found, in *phrase.Language) {
	book, people := &found.Logbook, &found.People
	address, name := place.Database()
	where := in.Wordf("PostgreSQL at %s, database %s", address, name)
	switch {
	case book.Shape == 0 && people.Shape == 0:
		r.add("PostgreSQL", true, in.Wordf("%s had no tables: they were made now", where))
	case book.Shape < book.Newest || people.Shape < people.Newest:
		r.add("PostgreSQL", true, in.Wordf("%s had tables of an older version: they were changed now (logbook from "+
			"shape %d to %d, people from %d to %d)",
			where, book.Shape, book.Newest, people.Shape, people.Newest))
	default:
		r.add("PostgreSQL", true, in.Wordf("%s has the tables", where))
	}
	left := book.Most - book.Used
	says := in.Wordf("%d MB are used; %d of %d connections are free", book.Bytes/megabyte, left, book.Most)
	if left < db.MostOfNode {
		says = in.Wordf("%d of %d connections are free, and a node may need %d: raise max_connections, or run "+
			"fewer nodes", left, book.Most, db.MostOfNode)
	}
	r.add("PostgreSQL", left >= db.MostOfNode, says)
}

// checkS3 makes the bucket, and adds what is found.
func checkS3(ctx context.Context, cfg *cluster.Config, r *report, in *phrase.Language) {
	ctx, cancel := context.WithTimeout(ctx, makeWait)
	defer cancel()
	bucket, err := s3.Open(place.S3(&cfg.S3))
	if err != nil {
		r.add("S3", false, in.Error(err))
		return
	}
	defer bucket.Close()
	found, err := bucket.Look(ctx, cfg.Cluster)
	if found.Server != "" {
		r.add("S3", true, in.Wordf("the store calls itself %s", found.Server))
	}
	if err != nil {
		r.add("S3", false, in.Error(err))
		return
	}
	r.bucket(&cfg.S3, &found, in)
}

// bucket adds what was done for the bucket, and what is wrong with it.
func (r *report) bucket(s *cluster.S3, found *s3.Found, in *phrase.Language) {
	scheme := "http"
	if s.Secure {
		scheme = "https"
	}
	where := in.Wordf("bucket %s at %s", s.Bucket, scheme+"://"+s.Host)
	if found.Made {
		r.add("S3", true, in.Wordf("%s was made now, and can be used", where))
	} else {
		r.add("S3", true, in.Wordf("%s can be used", where))
	}
	if found.Versions {
		r.add("S3", false, in.Word("the bucket keeps old versions of objects, and with them what is forgotten: switch "+
			"versioning off and remove the old versions"))
	}
}

func (r *report) servers(all []nats.Server, in *phrase.Language) {
	for _, s := range all {
		if s.Err != nil {
			r.add("NATS "+s.Address, false, in.Error(s.Err))
			continue
		}
		r.add("NATS "+s.Address, true, in.Wordf("version %s, server %s", s.Version, s.Name))
	}
}

func (r *report) streams(all []nats.Stream, in *phrase.Language) {
	made, changed, behind := 0, 0, 0
	var messages uint64
	for _, s := range all {
		if s.Made {
			made++
		}
		if s.Changed {
			changed++
		}
		if s.Behind > 0 {
			behind++
		}
		messages += s.Messages
	}
	if len(all) == 0 {
		return
	}
	r.add("NATS", behind == 0, in.Wordf("%d streams, of which %d were made now, %d changed, and %d have replicas that "+
		"are not up to date; %d messages", len(all), made, changed, behind, messages))
}

// print writes the findings.
func (r *report) print(w io.Writer, asJSON bool, in *phrase.Language) error {
	if asJSON {
		return base.Indented(w, r)
	}
	page := layout.NewPage(w)
	fmt.Fprintf(page, "%s\n", in.Wordf("Node %s", r.Node))
	for _, f := range r.Findings {
		state := in.Word("ok")
		if !f.OK {
			state = in.Word("TROUBLE")
		}
		fmt.Fprintf(page, "%s: %s\n  %s\n", f.Part, state, f.Says)
	}
	return page.Err()
}
