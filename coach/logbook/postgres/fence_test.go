package postgres

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"halfturn/coach"
	"halfturn/coach/archive"
	"halfturn/coach/archive/queue"
	"halfturn/coach/logbook"
	"halfturn/coach/logbook/booktest"
	"halfturn/coach/logbook/tables"
)

// stillIn names the database of a node that stands still in the middle of a change.
const stillIn = "HALFTURN_TEST_STILL"

const flownID = "2031-05-04T09-00-07Z_seat"

// standStill is that node: it has begun to enter something under its fence, says so, and goes on when it is told to.
func standStill(dsn string) int {
	made, err := Engine{DSN: dsn}.Open("", false)
	if err == nil {
		asked := 0
		err = made.(*book).Change(func(tx *tables.Tx) error {
			_, err := tx.Exec(`UPDATE sessions SET fence = 1 WHERE id = ? AND fence <= 1`, flownID)
			if asked++; err == nil && asked == 1 {
				fmt.Println("entering")
				_, err = bufio.NewReader(os.Stdin).ReadByte()
			}
			if err == nil {
				_, err = tx.Exec(`UPDATE sessions SET score = 1 WHERE id = ? AND fence <= 1`, flownID)
			}
			return err
		})
	}
	fmt.Println("done", err)
	return 0
}

func scored(score float64) *logbook.Stored {
	return &logbook.Stored{
		Entry:  *booktest.Entry(flownID, booktest.Began, "Ada Example"),
		Report: booktest.Report(flownID, booktest.Flight(1, coach.Finished, coach.Near, coach.Good, score, "")),
	}
}

// TestStoppedInAChange: a node is stopped in the middle of a change. Its successor enters the session all the same,
// soon, and what the first one goes on to write when it is woken does not get in.
func TestStoppedInAChange(t *testing.T) {
	t.Parallel()
	dsn := cluster.New(t) + " idle_in_transaction_session_timeout=300"
	made, err := Engine{DSN: dsn}.Open("", false)
	must(t, err)
	defer made.Close()
	must(t, logbook.Under(made, 1).Begin(&scored(0).Entry))
	node := exec.Command(os.Args[0])
	node.Env = append(os.Environ(), stillIn+"="+dsn)
	node.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	in, err := node.StdinPipe()
	must(t, err)
	out, err := node.StdoutPipe()
	must(t, err, node.Start())
	said := bufio.NewReader(out)
	defer func() {
		_ = node.Process.Kill()
		_ = node.Wait() // killed, or over
	}()
	if line, err := said.ReadString('\n'); err != nil || line != "entering\n" {
		t.Fatalf("the other node says %q, %v", line, err)
	}
	must(t, node.Process.Signal(syscall.SIGSTOP))
	began := time.Now()
	must(t, logbook.Under(made, 2).Keep(flownID, scored(90).Report))
	t.Logf("the successor waited %v", time.Since(began))
	was := booktest.Whole(t, made)
	must(t, node.Process.Signal(syscall.SIGCONT))
	_, err = in.Write([]byte("\n"))
	must(t, err)
	if line, err := said.ReadString('\n'); err != nil || !strings.HasPrefix(line, "done") {
		t.Fatalf("the other node says %q, %v", line, err)
	}
	if d := cmp.Diff(was, booktest.Whole(t, made)); d != "" {
		t.Errorf("the node that was woken changed (-was +is):\n%s", d)
	}
}

// TestPausedAfterAsking: a writer that may enter a session stands still before it does. Meanwhile another node takes
// the session over and enters it. What the first one enters then is refused, and told; nothing of it is in the logbook.
func TestPausedAfterAsking(t *testing.T) {
	t.Parallel()
	engine := Engine{DSN: cluster.New(t)}
	type node struct {
		book   *archive.Archive
		writer *queue.Writer
		warned chan error
	}
	start := func(fence uint64, asked, goes chan struct{}) *node {
		n := &node{warned: make(chan error, 10)}
		book, err := archive.Open(t.TempDir(), archive.Options{Engine: engine})
		must(t, err)
		t.Cleanup(func() { must(t, book.Close()) })
		n.book, n.writer = book, queue.New(book, func(err error) { n.warned <- err })
		n.writer.Gate(func(string) (uint64, error) {
			if asked != nil {
				asked <- struct{}{}
				<-goes
			}
			return fence, nil
		})
		return n
	}
	asked, goes := make(chan struct{}), make(chan struct{})
	first, second := start(4, asked, goes), start(5, nil, nil)
	for _, n := range []*node{first, second} {
		if !n.book.Folders().Take(flownID) {
			t.Fatal("the name is taken")
		}
	}
	first.writer.Begin(scored(10).Entry)
	first.writer.Keep(flownID, scored(10).Report)
	first.writer.End(flownID, booktest.Began.Add(time.Hour))
	<-asked // it may, and stands still
	second.writer.Begin(scored(90).Entry)
	second.writer.Keep(flownID, scored(90).Report)
	second.writer.Close()
	was := booktest.Whole(t, second.book)
	close(goes)
	go func() { // it may be asked again at the end
		for range asked {
		}
	}()
	defer close(asked)
	first.writer.Close()
	var fenced *logbook.Fenced
	if err := <-first.warned; !errors.As(err, &fenced) || fenced.Fence != 4 || fenced.Is != 5 {
		t.Errorf("it was told %v", err)
	}
	if d := cmp.Diff(was, booktest.Whole(t, second.book)); d != "" {
		t.Errorf("the former holder changed (-was +is):\n%s", d)
	}
	d, err := second.book.Session(context.Background(), flownID)
	if must(t, err); d.Score == nil || *d.Score != 90 || d.Ended != "" {
		t.Errorf("%+v", d.SessionRow)
	}
}
