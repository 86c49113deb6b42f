package postgres

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"
)

// heldBy names the database of a node that takes a lock and is then killed.
const heldBy = "HALFTURN_TEST_LOCK"

// holdLock is that node: it says that it has the lock, and waits for its end.
func holdLock(dsn string) int {
	b, err := Engine{DSN: dsn}.Open("", false)
	if err == nil {
		_, err = b.(*book).LockSession(context.Background(), "x")
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	fmt.Println("locked")
	_, _ = bufio.NewReader(os.Stdin).ReadByte()
	return 0
}

// TestLockSession: a session is locked by one node at a time, other sessions are free, and the lock of a node that was
// killed is free again.
func TestLockSession(t *testing.T) {
	t.Parallel()
	b := opened(t)
	node := exec.Command(os.Args[0])
	node.Env = append(os.Environ(), heldBy+"="+shared().dsn)
	in, err := node.StdinPipe()
	must(t, err)
	defer in.Close()
	out, err := node.StdoutPipe()
	must(t, err, node.Start())
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || strings.TrimSpace(line) != "locked" {
		_ = node.Process.Kill()
		t.Fatalf("the other node says %q, %v", line, err)
	}
	short, cancel := context.WithTimeout(t.Context(), 100*time.Millisecond)
	defer cancel()
	if _, err := b.LockSession(short, "x"); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("locked by two nodes: %v", err)
	}
	other, err := b.LockSession(t.Context(), "y")
	must(t, err)
	must(t, node.Process.Kill())
	_ = node.Wait() // killed
	long, cancel := context.WithTimeout(t.Context(), 10*time.Second)
	defer cancel()
	unlock, err := b.LockSession(long, "x")
	must(t, err)
	other()
	unlock()
	again, err := b.LockSession(long, "x")
	must(t, err)
	again()
}
