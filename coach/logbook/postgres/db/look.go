package db

import (
	"context"
	"errors"
	"fmt"

	"halfturn/coach/logbook"
)

// oldest is the first version of PostgreSQL that knows all that is asked of it (pg_current_xact_id), as
// server_version_num has it.
const oldest = 130_000

// A Found is what is found of a database and of the server that it is on.
type Found struct {
	Version string // of the server, as it says
	Bytes   int64  // of the database
	Used    int    // connections, and how many there may be
	Most    int
	Shape   int // of the tables; 0: there are none
	Newest  int // that this program makes

	number   int // of the version
	encoding string
	standby  bool
}

// found asks the server about itself.
func (d *Database) found(ctx context.Context) (f Found, err error) {
	return f, d.pool.QueryRowContext(ctx, `SELECT current_setting('server_version'),
			current_setting('server_version_num')::INT, current_setting('server_encoding'), pg_is_in_recovery()`).
		Scan(&f.Version, &f.number, &f.encoding, &f.standby)
}

// suits says why a server cannot be used, and what to do.
func (d *Database) suits(f *Found) error {
	what := ""
	switch {
	case f.number < oldest:
		what = fmt.Sprintf("it is version %s: update it to version %d or newer", f.Version, oldest/10_000)
	case f.encoding != "UTF8":
		what = fmt.Sprintf("its texts are in %s: make a database in UTF8 (CREATE DATABASE halfturn ENCODING 'UTF8' "+
			"TEMPLATE template0), and name that one", f.encoding)
	case f.standby && !d.readOnly:
		what = "it is a standby and takes no changes: name the primary server"
	default:
		return nil
	}
	return &logbook.Failure{Words: d.Of + " in " + d.where + ": " + what, Unwritable: f.standby}
}

// Look finds out what there is of a schema, and changes nothing. The error says why it cannot be used.
func (s Schema) Look(ctx context.Context, dsn string) (f Found, err error) {
	d, err := s.prepare(dsn)
	if err != nil {
		return f, err
	}
	defer func() { err = errors.Join(err, d.Close()) }()
	ctx, cancel := context.WithTimeout(ctx, openWait)
	defer cancel()
	if f, err = d.found(ctx); err == nil {
		err = d.suits(&f)
	}
	if err == nil {
		f.Shape, err = d.version(ctx, d.pool)
	}
	if err == nil {
		err = d.pool.QueryRowContext(ctx, `SELECT pg_database_size(current_database()),
				(SELECT count(*) FROM pg_stat_activity WHERE backend_type = 'client backend'),
				current_setting('max_connections')::INT`).Scan(&f.Bytes, &f.Used, &f.Most)
	}
	if err != nil {
		return f, d.plainly(err)
	}
	list, err := s.steps()
	f.Newest = shapeOf(list[len(list)-1])
	return f, err
}
