package db

import (
	"cmp"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strconv"
	"strings"
	"time"

	"halfturn/coach/logbook"
)

// A Schema says which tables a database is to have, and how they are brought to their newest shape. They lie in a
// schema of PostgreSQL of their own, so that those of the logbook and of people may have one database.
type Schema struct {
	Of     string   // what a failure calls it: "the logbook"
	Name   string   // of the schema; it begins with [prefix]
	Steps  fs.FS    // migrations/0001.sql and so on: the shapes, and what makes each of the one before
	Names  []string // tables that hold names and words of people
	Locked []string // tables that others would write

	lockWait   time.Duration // for others who make or change the tables; 0 is lockWait
	changeWait time.Duration // for a change, and for a question; 0 is changeWait
}

// patience is how long a change may take, and a question.
func (s *Schema) patience() time.Duration { return cmp.Or(s.changeWait, changeWait) }

// lockWait is short: whoever asks something of a table waits behind whoever waits to change it.
const lockWait = 15 * time.Second

// prefix begins the names of all schemas of this program.
const prefix = "halfturn_"

// lockNumber is that of the advisory lock behind which tables are made.
const lockNumber = 0x48544c42

func (s Schema) steps() (list []string, err error) { return fs.Glob(s.Steps, "migrations/*.sql") }

func shapeOf(file string) int {
	n, _ := strconv.Atoi(strings.TrimSuffix(path.Base(file), ".sql"))
	return n
}

// A queryer is a pool of connections, or a transaction.
type queryer interface {
	QueryRowContext(ctx context.Context, q string, args ...any) *sql.Row
}

// version is the shape of the tables; 0 where there are none. The error tells of one that is newer than this program,
// and of a database that is another program's.
func (d *Database) version(ctx context.Context, on queryer) (n int, err error) {
	// Not by to_regclass: it may answer from what was known when the transaction began.
	var there int
	err = on.QueryRowContext(ctx, `SELECT count(*) FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
		WHERE n.nspname = $1 AND c.relname = 'shape'`, d.Name).Scan(&there)
	if err != nil {
		return 0, err
	}
	if there == 0 {
		return 0, d.foreign(ctx, on)
	}
	if err := on.QueryRowContext(ctx, `SELECT shape FROM `+d.Name+`.shape`).Scan(&n); err != nil {
		return 0, err
	}
	list, err := d.steps()
	if err != nil {
		return 0, err
	}
	if newest := shapeOf(list[len(list)-1]); n > newest {
		return 0, &logbook.Failure{Words: fmt.Sprintf("%s in %s was written by a newer version of halfturn "+
			"(shape %d, this one knows %d): update halfturn", d.Of, d.where, n, newest)}
	}
	d.shape = n
	return n, nil
}

// foreign refuses a database that holds tables of another program and none of ours. Those that an extension brings
// count for nothing.
func (d *Database) foreign(ctx context.Context, on queryer) error {
	var ours int
	err := on.QueryRowContext(ctx, `SELECT count(*) FROM pg_namespace WHERE starts_with(nspname, $1)`, prefix).
		Scan(&ours)
	if err != nil || ours > 0 {
		return err
	}
	var table string
	err = on.QueryRowContext(ctx, `SELECT n.nspname || '.' || c.relname FROM pg_class c
		JOIN pg_namespace n ON n.oid = c.relnamespace
		WHERE c.relkind IN ('r', 'p') AND NOT starts_with(n.nspname, 'pg_') AND NOT starts_with(n.nspname, $1)
			AND n.nspname <> 'information_schema'
			AND NOT EXISTS (SELECT 1 FROM pg_depend d WHERE d.objid = c.oid AND d.deptype = 'e')
		ORDER BY 1 LIMIT 1`, prefix).Scan(&table)
	if errors.Is(err, sql.ErrNoRows) {
		return nil
	}
	if err != nil {
		return err
	}
	return &logbook.Failure{Words: fmt.Sprintf("%s holds tables of another program, such as %s, and was left alone: "+
		"make a database for halfturn (CREATE DATABASE halfturn), and name that one", d.where, table)}
}

// migrate brings the tables to the newest shape. Of several programs that do so at once one does, and the others wait.
func (d *Database) migrate(ctx context.Context) error {
	list, err := d.steps()
	if err != nil {
		return err
	}
	if n, err := d.version(ctx, d.pool); err != nil || n == shapeOf(list[len(list)-1]) {
		return err
	}
	tx, err := d.pool.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	wait := fmt.Sprintf(`SET LOCAL lock_timeout = %d`, cmp.Or(d.lockWait, lockWait).Milliseconds())
	if _, err := tx.ExecContext(ctx, wait); err != nil {
		return err
	}
	if _, err := tx.ExecContext(ctx, `SELECT pg_advisory_xact_lock($1)`, lockNumber); err != nil {
		return err
	}
	is, err := d.version(ctx, tx) // again, now that nobody else can migrate
	if err != nil {
		return err
	}
	if is == 0 {
		_, err := tx.ExecContext(ctx, `CREATE SCHEMA IF NOT EXISTS `+d.Name+`;
			CREATE TABLE `+d.Name+`.shape (shape INTEGER NOT NULL);
			INSERT INTO `+d.Name+`.shape (shape) VALUES (0)`)
		if err != nil {
			return err
		}
	}
	for _, file := range list {
		to := shapeOf(file)
		if to <= is {
			continue
		}
		text, err := fs.ReadFile(d.Steps, file)
		if err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, string(text)); err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		if _, err := tx.ExecContext(ctx, `UPDATE `+d.Name+`.shape SET shape = $1`, to); err != nil {
			return err
		}
		d.shape = to
	}
	return tx.Commit()
}
