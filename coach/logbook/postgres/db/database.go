package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"net"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

// Bounds of what is asked of a server.
const (
	mostConnections = 8                // of one pool: a node has two, and a server 100 as it is installed
	connectWait     = 5 * time.Second  // for one address
	openWait        = 10 * time.Second // for all of them
	changeWait      = 20 * time.Second // for a change with what it is in the way of, and for a question
	aloneWait       = 6 * time.Hour    // for a rebuild, or a move
	mostTries       = 200              // of a change that is in the way of others, within changeWait
	longestPause    = 100 * time.Millisecond
	fewTries        = 4               // of one that may be wrong in itself
	idleFor         = 5 * time.Minute // a connection that nobody uses
	unseenEvery     = 10 * time.Millisecond
)

// MostOfNode is how many connections a node may have: those of two pools, and those that hold locks.
const MostOfNode = 2*mostConnections + mostLocks

// A node that stands still in the middle of a change holds up whoever changes the same rows: the server ends its
// transaction. What takes long by itself, a rebuild or a move, is left alone.
const (
	idleParam = "idle_in_transaction_session_timeout"
	idleMost  = "10s"
	idleAlone = "SET LOCAL " + idleParam + " = 0"
)

// A Database is a pool of connections to the tables of a schema.
type Database struct {
	Schema
	pool     *sql.DB
	locks    *sql.DB // connections that hold the locks of sessions
	where    string  // as people know it, without the password
	readOnly bool
	shape    int // of the tables
	later    later
}

// later is what is still to be done of an opening.
type later struct {
	mu   sync.Mutex // held while the tables are made
	made atomic.Bool
}

var _ tables.Database = (*Database)(nil)

// Open connects to a database for changes, and makes the tables where there are none. The error says what is wrong with
// the connection string, or why the database cannot be used.
func (s Schema) Open(ctx context.Context, dsn string) (*Database, error) {
	d, err := s.prepare(dsn)
	if err != nil {
		return nil, err
	}
	if err := d.make(ctx, aloneWait); err != nil {
		return nil, errors.Join(err, d.Close())
	}
	return d, nil
}

// OpenLater is Open that does not fail while the database is away: the tables are made as soon as something is asked
// while it is not, and until then each call says that it is.
func (s Schema) OpenLater(ctx context.Context, dsn string) (*Database, error) {
	d, err := s.prepare(dsn)
	if err != nil {
		return nil, err
	}
	if err := d.make(ctx, aloneWait); err != nil && !errors.Is(err, logbook.ErrAway) {
		return nil, errors.Join(err, d.Close())
	}
	return d, nil
}

// make connects and makes the tables, unless that is done. Wait is how long the making may take: a start waits for
// tables of a million rows to be brought to a newer shape, a question does not.
func (d *Database) make(ctx context.Context, wait time.Duration) error {
	if d.later.made.Load() {
		return nil
	}
	d.later.mu.Lock()
	defer d.later.mu.Unlock()
	if d.later.made.Load() {
		return nil
	}
	if err := d.ping(ctx); err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(ctx, wait)
	defer cancel()
	if err := d.migrate(ctx); err != nil {
		return d.plainly(err)
	}
	d.later.made.Store(true)
	return nil
}

// OpenReadOnly connects to a database that has the tables already; the error is [fs.ErrNotExist] where it has none.
func (s Schema) OpenReadOnly(ctx context.Context, dsn string) (*Database, error) {
	d, err := s.prepare(dsn)
	if err != nil {
		return nil, err
	}
	d.readOnly = true
	d.later.made.Store(true)
	if err := d.ping(ctx); err != nil {
		return nil, errors.Join(err, d.Close())
	}
	ctx, cancel := context.WithTimeout(ctx, changeWait)
	defer cancel()
	shape, err := d.version(ctx, d.pool)
	if err == nil && shape == 0 {
		err = fs.ErrNotExist
	}
	if err != nil {
		return nil, errors.Join(d.plainly(err), d.Close())
	}
	return d, nil
}

// prepare makes the pool.
func (s Schema) prepare(dsn string) (*Database, error) {
	cfg, err := pgx.ParseConfig(dsn)
	if err != nil {
		return nil, &logbook.Failure{Words: "the connection to PostgreSQL cannot be read: " + withoutPassword(err) +
			"; it must be such as postgres://halfturn@db.example/halfturn?sslmode=verify-full", Err: err}
	}
	cfg.RuntimeParams["search_path"] = s.Name
	if cfg.RuntimeParams["application_name"] == "" {
		cfg.RuntimeParams["application_name"] = "halfturn"
	}
	if cfg.RuntimeParams[idleParam] == "" {
		cfg.RuntimeParams[idleParam] = idleMost
	}
	if cfg.ConnectTimeout == 0 {
		cfg.ConnectTimeout = connectWait
	}
	d := &Database{
		Schema: s,
		pool:   stdlib.OpenDB(*cfg),
		where:  whereOf(cfg),
	}
	d.pool.SetMaxOpenConns(mostConnections)
	d.pool.SetMaxIdleConns(mostConnections)
	d.pool.SetConnMaxIdleTime(idleFor)
	alive := cfg.Copy()
	maps.Copy(alive.RuntimeParams, aliveParams)
	d.locks = stdlib.OpenDB(*alive)
	d.locks.SetMaxOpenConns(mostLocks)
	d.locks.SetMaxIdleConns(idleLocks)
	d.locks.SetConnMaxIdleTime(idleFor)
	return d, nil
}

// ping connects, and makes sure that the server is one that can be used.
func (d *Database) ping(ctx context.Context) error {
	ctx, cancel := context.WithTimeout(ctx, openWait)
	defer cancel()
	f, err := d.found(ctx)
	if err != nil {
		return d.plainly(err)
	}
	return d.suits(&f)
}

// Where says which database a connection string is of, as people know it, without the password.
func Where(dsn string) string {
	cfg, err := pgx.ParseConfig(dsn)
	if err != nil {
		return "PostgreSQL"
	}
	return whereOf(cfg)
}

func whereOf(cfg *pgx.ConnConfig) string {
	return fmt.Sprintf("PostgreSQL at %s, database %s", addressOf(cfg), cfg.Database)
}

func addressOf(cfg *pgx.ConnConfig) string {
	if strings.HasPrefix(cfg.Host, "/") {
		return cfg.Host // a folder with its socket
	}
	return net.JoinHostPort(cfg.Host, strconv.Itoa(int(cfg.Port)))
}

// Parts are what Where says of a connection string, for words of another language; both are "" where it cannot be read.
func Parts(dsn string) (address, database string) {
	cfg, err := pgx.ParseConfig(dsn)
	if err != nil {
		return "", ""
	}
	return addressOf(cfg), cfg.Database
}

// withoutPassword is what is wrong with a connection string.
func withoutPassword(err error) string {
	var e *pgconn.ParseConfigError
	if errors.As(err, &e) { // it holds the string, with the password blotted out
		return e.Error()
	}
	return err.Error()
}

// Close closes the connections after waiting for their queries.
func (d *Database) Close() error { return errors.Join(d.pool.Close(), d.locks.Close()) }

// ShapeIs is the version of the tables.
func (d *Database) ShapeIs() int { return d.shape }

// Change makes a change in a serializable transaction, and again while it is in the way of another.
func (d *Database) Change(f func(*tables.Tx) error) error {
	ctx, cancel := context.WithTimeout(context.Background(), d.patience())
	defer cancel()
	for try := 1; ; try++ {
		err := d.change(ctx, sql.LevelSerializable, "", f)
		if !inTheWay(err, try) {
			return d.plainly(err)
		}
		select {
		case <-ctx.Done():
			return d.plainly(err)
		case <-time.After(rand.N(min(time.Duration(try)*5*time.Millisecond, longestPause))):
		}
	}
}

// inTheWay reports whether a change that failed may succeed when it is tried again.
func inTheWay(err error, tries int) bool {
	switch codeOf(err) {
	case serializationFailure, deadlock, stoodStill:
		return tries < mostTries
	case uniqueViolation: // also where another change entered the same row meanwhile, which is there the next time
		return tries < fewTries
	}
	return false
}

// ChangeAlone makes a change while all tables that others would write are locked; they are read as they were.
func (d *Database) ChangeAlone(f func(*tables.Tx) error) error {
	ctx, cancel := context.WithTimeout(context.Background(), aloneWait)
	defer cancel()
	lock := idleAlone + "; LOCK TABLE " + strings.Join(d.Locked, ", ") + " IN EXCLUSIVE MODE"
	return d.plainly(d.change(ctx, sql.LevelReadCommitted, lock, f))
}

func (d *Database) change(ctx context.Context, level sql.IsolationLevel, first string, f func(*tables.Tx) error) error {
	if d.readOnly {
		return &logbook.Failure{Words: d.Of + " in " + d.where + " was opened to be read only"}
	}
	if err := d.make(ctx, d.patience()); err != nil {
		return err
	}
	tx, err := d.pool.BeginTx(ctx, &sql.TxOptions{Isolation: level})
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if first != "" {
		if _, err := tx.ExecContext(ctx, first); err != nil {
			return err
		}
	}
	if err := f(tables.NewTx(ctx, tx, dialect{})); err != nil {
		return err
	}
	return tx.Commit()
}

// Ask reads in one state of the database, whatever is written meanwhile. A context without an end of its own ends after
// changeWait.
func (d *Database) Ask(ctx context.Context, f func(*tables.Tx) error) error {
	within := ctx
	end, bound := ctx.Deadline()
	if !bound {
		var cancel func()
		within, cancel = context.WithTimeout(ctx, d.patience())
		defer cancel()
	}
	if err := d.make(within, d.patience()); err != nil {
		return err
	}
	tx, err := d.pool.BeginTx(within, &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true})
	if err == nil {
		defer tx.Rollback()
		if bound && time.Until(end) > changeWait {
			_, err = tx.ExecContext(within, idleAlone)
		}
	}
	if err == nil {
		err = f(tables.NewTx(within, tx, dialect{}))
	}
	if ctx.Err() != nil { // whoever asked gave up
		return err
	}
	return d.plainly(err)
}

// Analyze has the database count what its plans follow, as it does by itself some time after many changes.
func (d *Database) Analyze() error {
	ctx, cancel := context.WithTimeout(context.Background(), aloneWait)
	defer cancel()
	_, err := d.pool.ExecContext(ctx, "ANALYZE")
	return d.plainly(err)
}

// Rewrite takes what was deleted out of the tables that hold names and words. What the database keeps beside them, its
// write-ahead log and its backups, is for who runs it to delete.
func (d *Database) Rewrite() error {
	ctx, cancel := context.WithTimeout(context.Background(), aloneWait)
	defer cancel()
	if err := d.unseen(ctx); err != nil {
		return d.plainly(err)
	}
	for _, table := range d.Names {
		if _, err := d.pool.ExecContext(ctx, "VACUUM (FULL) "+table); err != nil {
			return d.plainly(err)
		}
	}
	return nil
}

// unseen waits until nobody can see any more what was deleted before, and until changes of before are over, also those
// in other databases of the server: as long as somebody may see it, VACUUM keeps it. Questions and changes are over
// after changeWait; what other programs do is not waited for longer.
func (d *Database) unseen(ctx context.Context) error {
	var now string
	if err := d.pool.QueryRowContext(ctx, `SELECT pg_current_xact_id()::TEXT`).Scan(&now); err != nil {
		return err
	}
	for end := time.Now().Add(changeWait); ; {
		var see int // a connection that is being made has no database yet
		err := d.pool.QueryRowContext(ctx, `SELECT count(*) + CASE
				WHEN pg_snapshot_xmin(pg_current_snapshot()) <= $1::XID8 THEN 1 ELSE 0 END FROM pg_stat_activity
			WHERE pid <> pg_backend_pid() AND (datname = current_database() OR datname IS NULL)
				AND age(backend_xmin) >= age($1::XID8::XID)`, now).Scan(&see)
		if err != nil || see == 0 || time.Now().After(end) {
			return err
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(unseenEvery):
		}
	}
}
