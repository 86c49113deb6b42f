package s3

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/minio/minio-go/v7"
	"github.com/minio/minio-go/v7/pkg/credentials"

	"halfturn/coach/archive/depot"
	"halfturn/coach/archive/depot/depottest"
	"halfturn/coach/archive/depot/s3"
)

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

// TestContract: a real store keeps to the contract.
func TestContract(t *testing.T) {
	server, n := Start(t), 0
	depottest.Run(t, func(t *testing.T) depot.Depot {
		n++
		b := server.Bucket(t, fmt.Sprintf("bucket-%d", n))
		must(t, b.Delete(t.Context(), depot.OwnerName)) // the tests count objects
		return b
	})
}

// TestMake: the bucket is made once, belongs to one cluster, and one of somebody else is refused and left as it is.
func TestMake(t *testing.T) {
	server := Start(t)
	b := server.Bucket(t, "ours")
	for range 2 {
		must(t, b.Make(t.Context(), "test"))
	}
	refused(t, b.Make(t.Context(), "another"), `is of the cluster "test", this node is of "another"`)
	var wait sync.WaitGroup
	for range 4 { // nodes that start together
		wait.Go(func() {
			if err := server.open(t, "together").Make(t.Context(), "test"); err != nil {
				t.Error(err)
			}
		})
	}
	wait.Wait()
	foreign := server.Bucket(t, "foreign")
	_, err := foreign.Put(t.Context(), "holiday.jpg", strings.NewReader("x"), 1)
	must(t, err, foreign.Delete(t.Context(), depot.OwnerName))
	refused(t, foreign.Make(t.Context(), "test"), "is not empty and not of Halfturn (it holds holiday.jpg)")
	text := `{"program": "halfturn", "layout": 99, "cluster": "test"}`
	_, err = b.Put(t.Context(), depot.OwnerName, strings.NewReader(text), -1)
	must(t, err)
	refused(t, b.Make(t.Context(), "test"), "made by a newer version")
}

func (s *Server) open(t *testing.T, bucket string) *s3.Bucket {
	t.Helper()
	b, err := s3.Open(s.Options(bucket))
	must(t, err)
	t.Cleanup(b.Close)
	return b
}

func refused(t *testing.T, err error, words string) {
	t.Helper()
	if !errors.Is(err, depot.ErrDenied) || !strings.Contains(err.Error(), words) {
		t.Errorf("the error is %v; must say %q", err, words)
	}
}

// TestRefusals: what is wrong with keys and bucket is said in one sentence that names the place, and no key.
func TestRefusals(t *testing.T) {
	server := Start(t)
	server.Bucket(t, "ours")
	for name, c := range map[string]struct {
		change func(*s3.Options)
		words  string
	}{
		"a wrong key":    {func(o *s3.Options) { o.Key = "AKIAWRONGWRONG" }, "key"},
		"a wrong secret": {func(o *s3.Options) { o.Secret = "wrong-secret-wrong" }, "key"},
		"no bucket":      {func(o *s3.Options) { o.Bucket = "missing" }, "there is no such bucket"},
	} {
		o := server.Options("ours")
		c.change(&o)
		b, err := s3.Open(o)
		must(t, err)
		defer b.Close()
		_, put := b.Put(t.Context(), "x", strings.NewReader("x"), 1)
		list := b.List(t.Context(), "", func(depot.Object) error { return nil })
		_, open := b.Open(t.Context(), "x", 0, -1)
		for call, err := range map[string]error{"put": put, "list": list, "open": open} {
			if !errors.Is(err, depot.ErrDenied) {
				t.Errorf("%s: %s: %v", name, call, err)
				continue
			}
			words := err.Error()
			if !strings.Contains(words, c.words) || !strings.Contains(words, server.Address) ||
				strings.Contains(words, o.Key) || strings.Contains(words, o.Secret) || strings.Contains(words, "\n") {
				t.Errorf("%s: %s: %s", name, call, words)
			}
		}
	}
}

// TestServerKilled: an upload whose server is killed fails soon, leaves no object, and succeeds when it is repeated.
func TestServerKilled(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for a server that is gone; see make engines")
	}
	server := Start(t)
	b := server.Bucket(t, "ours")
	small := strings.Repeat("s", 1000)
	_, err := b.Put(t.Context(), "stays", strings.NewReader(small), -1)
	must(t, err)
	file := filepath.Join(t.TempDir(), "large")
	data := bytes.Repeat([]byte("large "), 40<<20/6)
	must(t, os.WriteFile(file, data, 0o600))
	f, err := os.Open(file)
	must(t, err)
	defer f.Close()
	done := make(chan error, 1)
	go func() {
		_, err := b.Put(t.Context(), "large", f, int64(len(data)))
		done <- err
	}()
	until(t, func() bool { // the first part is there
		parts, _ := filepath.Glob(filepath.Join(server.Dir, "ours", ".sgwtmp", "multipart", "*", "*", "*"))
		return len(parts) > 0
	})
	server.Kill()
	began := time.Now()
	if err := <-done; !errors.Is(err, depot.ErrAway) {
		t.Errorf("the server is gone: %v", err)
	}
	if took := time.Since(began); took > 10*time.Second {
		t.Errorf("it took %v to notice", took)
	}
	_, err = b.Stat(t.Context(), "stays")
	if !errors.Is(err, depot.ErrAway) || !strings.Contains(err.Error(), server.Address) {
		t.Errorf("the server is gone: %v", err)
	}
	server.Run(t)
	if _, err := b.Stat(t.Context(), "large"); !errors.Is(err, depot.ErrNotFound) {
		t.Errorf("half an object is there: %v", err)
	}
	is, err := depot.Read(t.Context(), b, "stays")
	must(t, err)
	if string(is) != small {
		t.Error("what was stored before is lost")
	}
	_, err = f.Seek(0, io.SeekStart)
	must(t, err)
	o, err := b.Put(t.Context(), "large", f, int64(len(data)))
	must(t, err)
	if o.Size != int64(len(data)) {
		t.Errorf("stored are %d bytes", o.Size)
	}
	middle, err := b.Open(t.Context(), "large", 17<<20, 12)
	must(t, err)
	text, err := io.ReadAll(middle)
	must(t, err, middle.Close())
	if string(text) != string(data[17<<20:17<<20+12]) {
		t.Errorf("from the middle %q is read", text)
	}
	n, err := b.Sweep(t.Context(), time.Now().Add(time.Hour))
	if must(t, err); n == 0 {
		t.Error("what the interrupted upload left is not found")
	}
}

func until(t *testing.T, is func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !is(); <-time.After(time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("it does not happen")
		}
	}
}

const childBucket = "HALFTURN_TEST_ENDPOINT"

// TestMain is also the program that is killed while it uploads.
func TestMain(m *testing.M) {
	if at := os.Getenv(childBucket); at != "" {
		b, err := s3.Open(s3.Options{Endpoint: at, Bucket: "ours", Key: Key, Secret: Secret})
		if err == nil {
			err = halfAnUpload(at)
		}
		fmt.Println(b, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// halfAnUpload uploads a part of an object and waits to be killed.
func halfAnUpload(at string) error {
	core, err := minio.NewCore(at, &minio.Options{Creds: credentials.NewStaticV4(Key, Secret, ""), Region: "us-east-1"})
	if err != nil {
		return err
	}
	ctx := context.Background()
	id, err := core.NewMultipartUpload(ctx, "ours", "large", minio.PutObjectOptions{})
	if err != nil {
		return err
	}
	part := bytes.NewReader(make([]byte, 5<<20))
	_, err = core.PutObjectPart(ctx, "ours", "large", id, 1, part, 5<<20, minio.PutObjectPartOptions{})
	if err != nil {
		return err
	}
	fmt.Println("half")
	select {}
}

// TestClientKilled: what a program that was killed left of an upload is removed once it is old, and not before.
func TestClientKilled(t *testing.T) {
	server := Start(t)
	b := server.Bucket(t, "ours")
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), childBucket+"="+server.Address)
	child.SysProcAttr = &syscall.SysProcAttr{Pdeathsig: syscall.SIGKILL}
	out, err := child.StdoutPipe()
	must(t, err, child.Start())
	half := make([]byte, 5)
	_, err = io.ReadFull(out, half)
	must(t, err)
	if string(half) != "half\n" {
		rest, _ := io.ReadAll(out)
		t.Fatalf("the program says %s%s", half, rest)
	}
	must(t, child.Process.Kill())
	_ = child.Wait() // it was killed
	if n, err := b.Sweep(t.Context(), time.Now().AddDate(0, 0, -1)); n != 0 || err != nil {
		t.Errorf("%d uploads of today are removed, %v", n, err)
	}
	if n, err := b.Sweep(t.Context(), time.Now().Add(time.Minute)); n != 1 || err != nil {
		t.Errorf("%d uploads are removed, %v; must be 1", n, err)
	}
	if n, err := b.Sweep(t.Context(), time.Now().Add(time.Minute)); n != 0 || err != nil {
		t.Errorf("again %d uploads are removed, %v", n, err)
	}
	if _, err := b.Stat(t.Context(), "large"); !errors.Is(err, depot.ErrNotFound) {
		t.Errorf("half an object is there: %v", err)
	}
}
