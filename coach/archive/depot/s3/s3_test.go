package s3

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strings"
	"testing"
	"time"

	"go.uber.org/goleak"

	"halfturn/coach/archive/depot"
)

func TestMain(m *testing.M) { goleak.VerifyTestMain(m) }

func must(t *testing.T, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

const secret = "a-secret-that-nobody-may-see"

// of opens a bucket at an address.
func of(t *testing.T, address string) *Bucket {
	t.Helper()
	b, err := Open(Options{
		Endpoint: address,
		Bucket:   "ours",
		Key:      "AKIAEXAMPLE",
		Secret:   secret,
		Timeout:  time.Second,
		Retries:  -1,
	})
	must(t, err)
	t.Cleanup(b.Close)
	return b
}

// answering is a bucket of a store that answers everything in one way.
func answering(t *testing.T, answer http.HandlerFunc) *Bucket {
	t.Helper()
	s := httptest.NewServer(answer)
	t.Cleanup(s.Close)
	return of(t, s.Listener.Addr().String())
}

// calls does everything that a depot can.
func calls(ctx context.Context, d depot.Depot) map[string]error {
	_, put := d.Put(ctx, "x", strings.NewReader("x"), 1)
	_, create := d.Create(ctx, "x", strings.NewReader("x"), 1)
	_, open := d.Open(ctx, "x", 0, -1)
	_, part := d.Open(ctx, "x", 5, 7)
	_, stat := d.Stat(ctx, "x")
	return map[string]error{
		"put": put, "create": create, "open": open, "open a part": part, "stat": stat,
		"list":   d.List(ctx, "", func(depot.Object) error { return nil }),
		"delete": d.Delete(ctx, "x"),
	}
}

// TestSentences: what a store says against this program is one sentence that says where and what to do, and no key. The
// codes are those of the S3 API reference, "Error responses".
func TestSentences(t *testing.T) {
	for code, c := range map[string]struct {
		status int
		is     error
		words  string
	}{
		"AccessDenied":          {403, depot.ErrDenied, "check the keys and their rights"},
		"InvalidAccessKeyId":    {403, depot.ErrDenied, "check the key"},
		"SignatureDoesNotMatch": {403, depot.ErrDenied, "check the secret"},
		"RequestTimeTooSkewed":  {403, depot.ErrDenied, "set both by a time server"},
		"ExpiredToken":          {400, depot.ErrDenied, "get a new one"},
		"NoSuchBucket":          {404, depot.ErrDenied, "halfturn cluster check makes it"},
		"NotHeardOfYet":         {403, depot.ErrDenied, "check the keys"},
		"SlowDown":              {503, depot.ErrAway, "it answers SlowDown (503)"},
		"InternalError":         {500, depot.ErrAway, "it is tried again"},
	} {
		b := answering(t, func(w http.ResponseWriter, r *http.Request) {
			_, _ = io.Copy(io.Discard, r.Body)
			w.Header().Set("Content-Type", "application/xml")
			w.WriteHeader(c.status)
			fmt.Fprintf(w, "<Error><Code>%s</Code><Message>your key is %s</Message></Error>", code, secret)
		})
		for call, err := range calls(t.Context(), b) {
			if call == "stat" && code != "AccessDenied" {
				continue // an answer to HEAD has no body: only the status is known
			}
			if !errors.Is(err, c.is) {
				t.Errorf("%s: %s: %v", code, call, err)
				continue
			}
			words := err.Error()
			if !strings.Contains(words, c.words) || !strings.Contains(words, b.String()) ||
				strings.Contains(words, secret) || strings.Contains(words, "AKIA") || strings.Contains(words, "\n") {
				t.Errorf("%s: %s: %s", code, call, words)
			}
		}
	}
}

// TestAway: nobody listens, or somebody who never answers: each call ends soon, and says where.
func TestAway(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	must(t, err)
	nobody := l.Addr().String()
	must(t, l.Close())
	silent, err := net.Listen("tcp", "127.0.0.1:0") // connections are taken by the system, and never answered
	must(t, err)
	defer silent.Close()
	for _, address := range []string{nobody, silent.Addr().String()} {
		b := of(t, address)
		ctx, stop := context.WithTimeout(t.Context(), 300*time.Millisecond)
		defer stop()
		began := time.Now()
		for call, err := range calls(ctx, b) {
			if !errors.Is(err, depot.ErrAway) && !errors.Is(err, context.DeadlineExceeded) {
				t.Errorf("%s: %v", call, err)
			}
			if errors.Is(err, depot.ErrAway) && !strings.Contains(err.Error(), address) {
				t.Errorf("%s does not say where: %v", call, err)
			}
		}
		if took := time.Since(began); took > 5*time.Second {
			t.Errorf("it took %v", took)
		}
	}
}

// TestNotOnce: a store that overwrites what may be written only once is refused.
func TestNotOnce(t *testing.T) {
	b := answering(t, func(w http.ResponseWriter, r *http.Request) {
		_, _ = io.Copy(io.Discard, r.Body)
		switch {
		case r.Method == http.MethodPut:
			w.Header().Set("ETag", `"x"`)
		case r.Method == http.MethodGet && strings.HasSuffix(r.URL.Path, depot.OwnerName):
			w.Header().Set("ETag", `"x"`)
			w.Header().Set("Last-Modified", "Mon, 02 Jan 2006 15:04:05 GMT")
			fmt.Fprint(w, `{"program": "halfturn", "layout": 1, "cluster": "c"}`)
		}
	})
	err := b.Make(t.Context(), "c")
	if !errors.Is(err, depot.ErrDenied) || !strings.Contains(err.Error(), "only once") {
		t.Errorf("the error is %v", err)
	}
}

// TestEndpoint: an address that can be none is refused at once.
func TestEndpoint(t *testing.T) {
	for _, bad := range []string{"", "http://host:9000/path", "host:port:9000", "a b"} {
		if _, err := Open(Options{Endpoint: bad, Bucket: "ours"}); err == nil ||
			!strings.Contains(err.Error(), "must be a host and a port") {
			t.Errorf("%q: %v", bad, err)
		}
	}
}

// TestSmallMemory: what is small takes little memory, also where it is not known how long it is. A node stores a piece
// of each recording every few seconds.
func TestSmallMemory(t *testing.T) {
	b := &Bucket{}
	const times, most = 100, 64 << 10
	for _, size := range []int64{1000, -1} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		for range times {
			body, err := b.prepare(t.Context(), "x", strings.NewReader(strings.Repeat("x", 1000)), size)
			if err != nil {
				t.Fatal(err)
			}
			body.close()
		}
		runtime.ReadMemStats(&after)
		if each := (after.TotalAlloc - before.TotalAlloc) / times; each > most {
			t.Errorf("1,000 bytes, said to be %d, take %d bytes of memory; must be at most %d", size, each, most)
		}
	}
}
