package postgres

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"net"
	"path"
	"strconv"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"

	"halfturn/coach/logbook"
	"halfturn/coach/logbook/tables"
)

const (
	mostConnections = 16
	connectWait     = 10 * time.Second
	mostTries       = 20 // of a change that is in the way of others
	lockNumber      = 0x48544c42
)

// A database is a pool of connections.
type database struct {
	pool     *sql.DB
	where    string // as people know it, without the password
	readOnly bool
	is       int // the shape of the tables
}

var _ tables.Database = (*database)(nil)

// open connects. The error says what is wrong with the connection string, or why the database cannot be reached.
func open(ctx context.Context, dsn string) (*database, error) {
	cfg, err := pgx.ParseConfig(dsn)
	if err != nil {
		return nil, &logbook.Failure{Words: "the connection to PostgreSQL cannot be read: " + withoutPassword(err) +
			"; it must be such as postgres://halfturn@db.example/halfturn?sslmode=verify-full", Err: err}
	}
	d := &database{
		pool:  stdlib.OpenDB(*cfg),
		where: fmt.Sprintf("PostgreSQL at %s, database %s", net.JoinHostPort(cfg.Host, strconv.Itoa(int(cfg.Port))), cfg.Database),
	}
	d.pool.SetMaxOpenConns(mostConnections)
	d.pool.SetMaxIdleConns(mostConnections)
	ctx, cancel := context.WithTimeout(ctx, connectWait)
	defer cancel()
	if err := d.pool.PingContext(ctx); err != nil {
		return nil, errors.Join(d.plainly(err), d.Close())
	}
	return d, nil
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
func (d *database) Close() error { return d.pool.Close() }

//go:embed migrations/*.sql
var migrations embed.FS

// steps are the shapes that tables are brought to, in order, and the file of each.
func steps() (list []string, err error) { return fs.Glob(migrations, "migrations/*.sql") }

func shapeOf(file string) int {
	n, _ := strconv.Atoi(strings.TrimSuffix(path.Base(file), ".sql"))
	return n
}

// A queryer is a connection, a pool of them, or a transaction.
type queryer interface {
	QueryRowContext(ctx context.Context, q string, args ...any) *sql.Row
}

// shape is the shape of the tables; 0 where there are none. The error tells of one that is newer than this program.
func (d *database) shape(ctx context.Context, on queryer) (n int, err error) {
	var there bool
	err = on.QueryRowContext(ctx, `SELECT to_regclass('halfturn_logbook') IS NOT NULL`).Scan(&there)
	if err != nil || !there {
		return 0, err
	}
	if err := on.QueryRowContext(ctx, `SELECT shape FROM halfturn_logbook`).Scan(&n); err != nil {
		return 0, err
	}
	list, err := steps()
	if err != nil {
		return 0, err
	}
	d.is = n
	if newest := shapeOf(list[len(list)-1]); n > newest {
		return 0, &logbook.Failure{Words: fmt.Sprintf("the logbook in %s was written by a newer version of halfturn "+
			"(shape %d, this one knows %d): update halfturn", d.where, n, newest)}
	}
	return n, nil
}

// migrate brings the tables to the newest shape. Of several programs that do so at once one does, and the others wait.
func (d *database) migrate(ctx context.Context) error {
	tx, err := d.pool.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if _, err := tx.ExecContext(ctx, `SELECT pg_advisory_xact_lock($1)`, lockNumber); err != nil {
		return err
	}
	is, err := d.shape(ctx, tx)
	if err != nil {
		return err
	}
	list, err := steps()
	if err != nil {
		return err
	}
	if is == 0 {
		_, err := tx.ExecContext(ctx, `CREATE TABLE halfturn_logbook (shape INTEGER NOT NULL);
			INSERT INTO halfturn_logbook (shape) VALUES (0)`)
		if err != nil {
			return err
		}
	}
	for _, file := range list {
		to := shapeOf(file)
		if to <= is {
			continue
		}
		text, err := migrations.ReadFile(file)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, string(text)); err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		if _, err := tx.ExecContext(ctx, `UPDATE halfturn_logbook SET shape = $1`, to); err != nil {
			return err
		}
		d.is = to
	}
	return tx.Commit()
}

// ShapeIs is the version of the tables.
func (d *database) ShapeIs() int { return d.is }

// Change makes a change in a serializable transaction, and again while it is in the way of another.
func (d *database) Change(f func(*tables.Tx) error) error {
	for try := 1; ; try++ {
		err := d.change(sql.LevelSerializable, "", f)
		if code := codeOf(err); try == mostTries || code != serializationFailure && code != deadlock {
			return d.plainly(err)
		}
		<-time.After(rand.N(time.Duration(try) * 5 * time.Millisecond))
	}
}

// ChangeAlone makes a change while all tables that others would write are locked; they are read as they were.
func (d *database) ChangeAlone(f func(*tables.Tx) error) error {
	const lock = `LOCK TABLE students, sessions, remarks, cards, left_out, stations IN EXCLUSIVE MODE`
	return d.plainly(d.change(sql.LevelReadCommitted, lock, f))
}

func (d *database) change(level sql.IsolationLevel, first string, f func(*tables.Tx) error) error {
	if d.readOnly {
		return &logbook.Failure{Words: "the logbook in " + d.where + " was opened to be read only"}
	}
	tx, err := d.pool.BeginTx(context.Background(), &sql.TxOptions{Isolation: level})
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if first != "" {
		if _, err := tx.Exec(first); err != nil {
			return err
		}
	}
	if err := f(tables.NewTx(tx, dialect{})); err != nil {
		return err
	}
	return tx.Commit()
}

// Ask reads in one state of the database, whatever is written meanwhile.
func (d *database) Ask(ctx context.Context, f func(*tables.Tx) error) error {
	tx, err := d.pool.BeginTx(ctx, &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true})
	if err != nil {
		return d.plainly(err)
	}
	defer tx.Rollback()
	return d.plainly(f(tables.NewTx(tx, dialect{})))
}

// Rewrite takes what was deleted out of the tables that hold names and words. What the database keeps beside them, its
// write-ahead log and its backups, is for who runs it to delete.
func (d *database) Rewrite() error {
	for _, table := range []string{"students", "sessions", "remarks", "stations"} {
		if _, err := d.pool.Exec("VACUUM (FULL) " + table); err != nil {
			return d.plainly(err)
		}
	}
	return nil
}

// lost reports whether the database cannot be reached, or is going away (class 57 of its errors, or 08).
func lost(err error) bool {
	var dial *pgconn.ConnectError
	var network net.Error
	code := codeOf(err)
	return errors.As(err, &dial) || code == "" && errors.As(err, &network) ||
		strings.HasPrefix(code, "57P") || strings.HasPrefix(code, "08") || pgconn.SafeToRetry(err)
}

// meanings are what errors of PostgreSQL mean to people, and what to do, by code.
var meanings = map[string]string{
	"28P01":              "the password is wrong",
	"28000":              "this user may not connect from here: see pg_hba.conf",
	"3D000":              "there is no such database: create it",
	"42501":              "this user may not do that: grant it the tables, and CREATE on the schema",
	"25006":              "it takes no changes: it is a standby, or its transactions are read only",
	"53100":              "its disk is full: make room there",
	"53300":              "it has too many connections already: raise max_connections, or run fewer nodes",
	serializationFailure: "too many change the same session at once: try again",
}

// plainly says what a failure of the database means, and what to do. Other errors stay as they are.
func (d *database) plainly(err error) error {
	var told *logbook.Failure
	if err == nil || errors.As(err, &told) {
		return err
	}
	what, known := meanings[codeOf(err)]
	gone := lost(err)
	switch {
	case known:
	case gone:
		what = "it cannot be reached: see that it runs, and that this machine may connect (" + err.Error() + ")"
	default:
		return err
	}
	return &logbook.Failure{Words: "the logbook in " + d.where + ": " + what, Err: err, Lost: gone,
		Unwritable: codeOf(err) == "25006" || codeOf(err) == "53100"}
}
