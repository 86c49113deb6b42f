// Package pgtest starts a PostgreSQL of a test's own, on a socket in a temporary folder, with the programs that are
// installed. Where there are none a test is skipped, and fails where the variable CI is set.
package pgtest

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// A Cluster is a PostgreSQL that runs. It is started once for all tests of a program: databases are cheap.
type Cluster struct {
	dir     string
	command func(name string, args ...string) *exec.Cmd
	run     *exec.Cmd // nil while it is stopped

	mu     sync.Mutex
	names  int
	models map[string]error // databases that others are copies of, and why one could not be made
}

// Programs is the folder of PostgreSQL's programs; "" where it is not installed.
func Programs() string {
	found, _ := filepath.Glob("/usr/lib/postgresql/*/bin/initdb") // Debian's, which are not in PATH
	slices.Sort(found)
	if name, err := exec.LookPath("initdb"); err == nil {
		found = append(found, name)
	}
	if len(found) == 0 {
		return ""
	}
	real, err := filepath.EvalSymlinks(found[len(found)-1])
	if err != nil {
		return ""
	}
	return filepath.Dir(real)
}

// Main runs the tests of a program beside a cluster, which is nil where PostgreSQL is not installed.
func Main(m *testing.M, use func(*Cluster)) int {
	programs := Programs()
	if programs == "" {
		return m.Run()
	}
	c, err := start(programs)
	if err != nil {
		fmt.Fprintln(os.Stderr, "PostgreSQL cannot be started:", err)
		return 1
	}
	defer c.remove()
	use(c)
	return m.Run()
}

// start makes a cluster and starts it.
func start(programs string) (*Cluster, error) {
	// Not in the folder of a test, which others than root may not enter; and short, as it is in the name of a socket.
	dir, err := os.MkdirTemp("", "pg")
	if err != nil {
		return nil, err
	}
	c := &Cluster{dir: dir, models: map[string]error{}}
	process, err := processOf(dir)
	c.command = func(name string, args ...string) *exec.Cmd {
		cmd := exec.Command(filepath.Join(programs, name), args...)
		cmd.Dir, cmd.Env = dir, []string{"PATH=/usr/bin:/bin", "LC_ALL=C"}
		cmd.SysProcAttr = process
		return cmd
	}
	if err == nil {
		out, failed := c.command("initdb", "-D", c.data(), "-U", "app", "-A", "trust", "-E", "UTF8", "--locale=C",
			"--no-sync", "--no-instructions").CombinedOutput()
		if err = failed; err != nil {
			err = fmt.Errorf("initdb: %w: %s", err, out)
		}
	}
	if err == nil {
		err = c.Start()
	}
	if err != nil {
		c.remove()
		return nil, err
	}
	return c, nil
}

func (c *Cluster) data() string { return filepath.Join(c.dir, "d") }

// Start starts a cluster that was stopped, and waits until it answers.
func (c *Cluster) Start() error {
	c.run = c.command("postgres", "-D", c.data(), "-k", c.dir, "-c", "listen_addresses=", "-c", "fsync=off", "-c",
		"full_page_writes=off", "-c", "timezone=UTC", "-c", "logging_collector=off",
		"-c", "log_min_messages=fatal", "-c", "autovacuum=off")
	if err := c.run.Start(); err != nil {
		c.run = nil
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	tick := time.NewTicker(5 * time.Millisecond)
	defer tick.Stop()
	for {
		conn, err := pgx.Connect(ctx, c.DSN("postgres"))
		if err == nil {
			return conn.Close(ctx)
		}
		select {
		case <-ctx.Done():
			return errors.Join(err, ctx.Err())
		case <-tick.C:
		}
	}
}

// Stop ends the cluster at once, as a machine that fails does. What was committed is there when it starts again.
func (c *Cluster) Stop() {
	if c.run == nil {
		return
	}
	_ = c.run.Process.Signal(syscall.SIGQUIT)
	_ = c.run.Wait()
	c.run = nil
}

func (c *Cluster) remove() {
	c.Stop()
	_ = os.RemoveAll(c.dir)
}

// DSN is how to connect to a database of the cluster.
func (c *Cluster) DSN(database string) string {
	return "host=" + c.dir + " user=app dbname=" + database
}

// New makes a database that holds nothing, and returns how to connect to it. It is removed with the cluster. A test
// that has no cluster is skipped, and fails where CI is set.
func (c *Cluster) New(t testing.TB) (dsn string) {
	t.Helper()
	return c.Copy(t, "template0", nil)
}

// Need skips a test that has no cluster, and fails it where CI is set.
func (c *Cluster) Need(t testing.TB) {
	t.Helper()
	if c != nil {
		return
	}
	const words = "PostgreSQL is not installed: apt-get install postgresql"
	if os.Getenv("CI") != "" {
		t.Fatal(words)
	}
	t.Skip(words)
}

// Make makes a database that holds nothing, by a name that no other has, and returns how to connect to it.
func (c *Cluster) Make(name string) (dsn string, err error) {
	return c.DSN(name), c.create(name, "template0")
}

// Copy makes a database that is a copy of another, which is made at the first time: to copy tables takes less than to
// make them. The model is a name that no other database has.
func (c *Cluster) Copy(t testing.TB, model string, make func(dsn string) error) (dsn string) {
	t.Helper()
	c.Need(t)
	c.mu.Lock()
	defer c.mu.Unlock()
	if _, made := c.models[model]; !made && make != nil {
		err := c.create(model, "template0")
		if err == nil {
			err = make(c.DSN(model))
		}
		c.models[model] = err
	}
	if err := c.models[model]; err != nil {
		t.Fatal(err)
	}
	c.names++
	name := fmt.Sprintf("test%d", c.names)
	if err := c.create(name, model); err != nil {
		t.Fatal(err)
	}
	return c.DSN(name)
}

// create makes a database as a copy of another.
func (c *Cluster) create(name, model string) error {
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, c.DSN("postgres"))
	if err != nil {
		return err
	}
	_, err = conn.Exec(ctx, "CREATE DATABASE "+name+" TEMPLATE "+model)
	return errors.Join(err, conn.Close(ctx))
}
