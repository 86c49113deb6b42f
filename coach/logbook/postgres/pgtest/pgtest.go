// Package pgtest starts a PostgreSQL of a test's own, on a socket in a temporary folder, with the programs that are
// installed. Where there are none a test is skipped, and fails where the variable CI is set.
package pgtest

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"slices"
	"strconv"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// A Cluster is a PostgreSQL that runs. It is started once for all tests of a program: databases are cheap.
type Cluster struct {
	dir   string
	run   *exec.Cmd
	names atomic.Int64
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
	defer c.Stop()
	use(c)
	return m.Run()
}

// account is who PostgreSQL runs as: it refuses to be run by root.
func account() (*syscall.Credential, error) {
	if os.Getuid() != 0 {
		return nil, nil
	}
	u, err := user.Lookup("postgres")
	if err != nil {
		return nil, err
	}
	uid, err := strconv.ParseUint(u.Uid, 10, 32)
	if err != nil {
		return nil, err
	}
	gid, err := strconv.ParseUint(u.Gid, 10, 32)
	return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, err
}

func start(programs string) (c *Cluster, err error) {
	as, err := account()
	if err != nil {
		return nil, err
	}
	// Not in the folder of a test, which others than root may not enter; and short, as it is in the name of a socket.
	dir, err := os.MkdirTemp("", "pg")
	if err != nil {
		return nil, err
	}
	c = &Cluster{dir: dir}
	defer func() {
		if err != nil {
			c.Stop()
		}
	}()
	if as != nil {
		if err := os.Chown(dir, int(as.Uid), int(as.Gid)); err != nil {
			return nil, err
		}
	}
	data := filepath.Join(dir, "d")
	command := func(name string, args ...string) *exec.Cmd {
		cmd := exec.Command(filepath.Join(programs, name), args...)
		cmd.Dir, cmd.Env = dir, []string{"PATH=/usr/bin:/bin", "LC_ALL=C"}
		cmd.SysProcAttr = attributes(as)
		return cmd
	}
	out, err := command("initdb", "-D", data, "-U", "app", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync",
		"--no-instructions").CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("initdb: %w: %s", err, out)
	}
	c.run = command("postgres", "-D", data, "-k", dir, "-c", "listen_addresses=", "-c", "fsync=off", "-c",
		"synchronous_commit=off", "-c", "full_page_writes=off", "-c", "timezone=UTC", "-c", "logging_collector=off")
	if err := c.run.Start(); err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 30*time.Second)
	defer cancel()
	return c, c.await(ctx)
}

// await waits until the cluster answers.
func (c *Cluster) await(ctx context.Context) error {
	tick := time.NewTicker(5 * time.Millisecond)
	defer tick.Stop()
	for {
		conn, err := pgx.Connect(ctx, c.dsn("postgres"))
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

func (c *Cluster) dsn(database string) string { return "host=" + c.dir + " user=app dbname=" + database }

// Stop ends the cluster and removes it.
func (c *Cluster) Stop() {
	if c.run != nil && c.run.Process != nil {
		_ = c.run.Process.Signal(syscall.SIGQUIT)
		_ = c.run.Wait()
	}
	_ = os.RemoveAll(c.dir)
}

// New makes a database that holds nothing, and returns how to connect to it. It is removed with the cluster. A test
// that has no cluster is skipped, and fails where CI is set.
func (c *Cluster) New(t testing.TB) (dsn string) {
	t.Helper()
	if c == nil {
		const words = "PostgreSQL is not installed: apt-get install postgresql"
		if os.Getenv("CI") != "" {
			t.Fatal(words)
		}
		t.Skip(words)
	}
	name := fmt.Sprintf("test%d", c.names.Add(1))
	ctx := t.Context()
	conn, err := pgx.Connect(ctx, c.dsn("postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close(ctx)
	if _, err := conn.Exec(ctx, "CREATE DATABASE "+name); err != nil {
		t.Fatal(err)
	}
	return c.dsn(name)
}
