package check

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/logbook/postgres/pgtest"
	"halfturn/engines/natsserver"
	"halfturn/engines/s3"
)

// engines are those of a cluster, and a program that is a node of it.
type engines struct {
	t       *testing.T
	program string
	dir     string
	keys    map[string]string // of the file, as good ones are
	env     map[string]string
}

// run writes the file with other keys, and runs the program with other variables. No secret may be in what it prints.
func (e *engines) run(keys, env map[string]string, args ...string) (says string, status int) {
	e.t.Helper()
	c := e.command(keys, env, args...)
	out, _ := c.CombinedOutput() // the status says what came of it
	for _, secret := range []string{e.env["SECRET"], e.env["PASSWORD"], "wrong-secret"} {
		if strings.Contains(string(out), secret) {
			e.t.Errorf("the secret is in what it prints: %s", out)
		}
	}
	return string(out), c.ProcessState.ExitCode()
}

// command is the program with the file as its last argument.
func (e *engines) command(keys, env map[string]string, args ...string) *exec.Cmd {
	e.t.Helper()
	text, all := "", maps.Clone(e.keys)
	maps.Copy(all, keys)
	for _, key := range slices.Sorted(maps.Keys(all)) {
		text += key + " = " + all[key] + "\n"
	}
	file := filepath.Join(e.dir, "cluster.toml")
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		e.t.Fatal(err)
	}
	c := exec.CommandContext(e.t.Context(), e.program, append(args, file)...)
	c.Env, all = os.Environ(), maps.Clone(e.env)
	maps.Copy(all, env)
	for name, value := range all {
		c.Env = append(c.Env, name+"="+value)
	}
	return c
}

// start starts the engines of a cluster, and builds the program.
func start(t *testing.T) (e *engines, bucket *s3.Server, urls []string, dsn string) {
	t.Helper()
	store, dsn := s3.Start(t), postgres.New(t)
	urls = natsserver.Run(t, 1, func(c *natsserver.Config) { c.User, c.Pass = "node", "a-nats-secret" })
	dir := t.TempDir()
	return &engines{
		t: t, program: built(t, dir), dir: dir,
		keys: map[string]string{
			"node": "'n1'", "cluster": "'ours'", "nats.urls": fmt.Sprintf("[%q]", urls[0]), "nats.streams": "2",
			"nats.user": "'node'", "nats.password-env": "'PASSWORD'", "nats.prefix": "'ours'",
			"postgres.dsn-env": "'DSN'", "s3.endpoint": "'http://" + store.Address + "'", "s3.bucket": "'ours'",
			"s3.access-key-env": "'KEY'", "s3.secret-key-env": "'SECRET'",
		},
		env: map[string]string{"DSN": dsn, "KEY": s3.Key, "SECRET": s3.Secret, "PASSWORD": "a-nats-secret"},
	}, store, urls, dsn
}

// TestBad: where waiting mends nothing a check says what is wrong, where, and what to do, of each engine by itself, and
// a server says it and does not start.
func TestBad(t *testing.T) {
	e, store, urls, dsn := start(t)
	if says, status := e.run(nil, nil, "cluster", "check"); status != 0 {
		t.Fatalf("what is good is refused: %s", says)
	}
	newer := postgres.New(t)
	if says, status := e.run(nil, map[string]string{"DSN": newer}, "cluster", "check"); status != 0 {
		t.Fatalf("another database is refused: %s", says)
	}
	psql := exec.Command(filepath.Join(pgtest.Programs(), "psql"), newer, "-c",
		"UPDATE halfturn_logbook.shape SET shape = 9999")
	if out, err := psql.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	type vars = map[string]string
	for name, c := range map[string]struct {
		keys, env vars
		says      []string
	}{
		"password": {nil, vars{"PASSWORD": "wrong-secret"},
			[]string{"the server at " + urls[0][len("nats://"):] + " refuses the credentials; check the user"}},
		"secret": {nil, vars{"SECRET": "wrong-secret"}, []string{"http://" + store.Address, "check the keys"}},
		"key":    {nil, vars{"KEY": "nobody"}, []string{"it does not know the access key; check the key"}},
		"user": {nil, vars{"DSN": dsn + " user=nobody password=wrong-secret"},
			[]string{"there is no such user, or it may not connect from here: create it, or see pg_hba.conf"}},
		"shape": {nil, vars{"DSN": newer}, []string{"was written by a newer version of halfturn", "update halfturn"}},
		"streams of another cluster": {vars{"cluster": "'theirs'", "s3.bucket": "'theirs'"}, nil,
			[]string{`belongs to the cluster "ours", this is "theirs"; set another prefix`}},
		"bucket of another cluster": {vars{"cluster": "'theirs'", "nats.prefix": "'theirs'"}, nil,
			[]string{`is of the cluster "ours", this node is of "theirs"; name another bucket`}},
		"layout": {vars{"nats.streams": "3"}, nil,
			[]string{"streams is 3; must be 2, as it was when stream ours-st-0"}},
	} {
		t.Run(name, func(t *testing.T) {
			e.t = t
			serve := []string{"serve", "--http", "127.0.0.1:0", "--udp", "127.0.0.1:0", "--data", t.TempDir()}
			serve = append(serve, "--cluster")
			for _, args := range [][]string{{"cluster", "check"}, serve} {
				out, status := e.run(c.keys, c.env, args...)
				for _, words := range c.says {
					if status != 1 || !strings.Contains(out, words) {
						t.Errorf("%s: status %d, must be 1 and say %q: %s", args[0], status, words, out)
					}
				}
			}
		})
	}
}
