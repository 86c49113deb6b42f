// Package s3 runs the tests of what is kept in an S3-compatible store against a real one: versitygw, which keeps the
// objects in a directory. bin/versitygw is built from the nested module beside: sh .ci/engines/versitygw/build.
package s3

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"syscall"
	"testing"
	"time"

	"halfturn/coach/archive/depot/s3"
)

// Keys of the server.
const (
	Key    = "halfturn-test"
	Secret = "not-a-secret-0123456789"
)

// A Server is a store of its own, in a process of its own.
type Server struct {
	Address string
	Dir     string // a bucket is a folder in it, an object a file
	beside  string // where it keeps what files cannot carry; "": they can
	process *exec.Cmd
	ended   chan struct{} // once it has
}

// Start starts a server with an empty directory, which ends with the test. Without the program the test is skipped by
// hand, and fails where CI is set.
func Start(t testing.TB) *Server {
	t.Helper()
	if _, err := os.Stat(program); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not there; sh .ci/engines/versitygw/build builds it", program)
		}
		t.Skipf("%s is not there; sh .ci/engines/versitygw/build builds it", program)
	}
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := &Server{Address: free.Addr().String(), Dir: t.TempDir()}
	if err := free.Close(); err != nil {
		t.Fatal(err)
	}
	// In memory files have no attributes of a user's own before Linux 6.6.
	if syscall.Setxattr(s.Dir, "user.test", []byte("x"), 0) != nil {
		s.beside = t.TempDir()
	}
	t.Cleanup(s.Kill)
	s.Run(t)
	return s
}

// program is where the server lies, from the folder of a package of this module, in which its tests run.
const program = "../../../bin/versitygw"

// Run starts the server again, with what it has.
func (s *Server) Run(t testing.TB) {
	t.Helper()
	args := []string{s.Address, s.Dir}
	if s.beside != "" {
		args = append(args, s.beside)
	}
	s.process = exec.Command(program, args...)
	s.process.Env = append(os.Environ(), "ROOT_ACCESS_KEY="+Key, "ROOT_SECRET_KEY="+Secret)
	s.process.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	s.process.Stderr = os.Stderr
	if err := s.process.Start(); err != nil {
		t.Fatal(err)
	}
	process, ended := s.process, make(chan struct{})
	s.ended = ended
	go func() {
		defer close(ended)
		_ = process.Wait() // it says why, or was killed
	}()
	ctx, stop := context.WithTimeout(t.Context(), 20*time.Second)
	defer stop()
	for {
		err := s.healthy(ctx)
		if err == nil {
			return
		}
		select {
		case <-ctx.Done():
			t.Fatalf("the server does not answer: %v", err)
		case <-ended:
			t.Fatal("the server ended")
		case <-time.After(10 * time.Millisecond):
		}
	}
}

func (s *Server) healthy(ctx context.Context) error {
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+s.Address+"/healthz", nil)
	if err != nil {
		return err
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return err
	}
	if answer.StatusCode != http.StatusOK {
		err = fmt.Errorf("it answers %s", answer.Status)
	}
	return errors.Join(err, answer.Body.Close())
}

// Kill ends the server as a power failure would.
func (s *Server) Kill() {
	if s.process == nil {
		return
	}
	_ = s.process.Process.Kill() // it may have ended
	<-s.ended
	s.process = nil
}

// Options are those for a bucket of the server.
func (s *Server) Options(bucket string) s3.Options {
	return s3.Options{Endpoint: s.Address, Bucket: bucket, Key: Key, Secret: Secret, Timeout: 5 * time.Second}
}

// Bucket makes a bucket of the cluster "test", and opens it.
func (s *Server) Bucket(t testing.TB, bucket string) *s3.Bucket {
	t.Helper()
	b, err := s3.Open(s.Options(bucket))
	if err == nil {
		err = b.Make(t.Context(), "test")
	}
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(b.Close)
	return b
}
