// Package s3 keeps a depot in a bucket of an S3-compatible store.
//
// Objects of up to a few MiB are stored in one request, larger ones in parts. S3 knows no SHA-256 of an object that was
// stored in parts, so each object has its own in its metadata. What is created once is created with If-None-Match: a
// store that ignores that is refused by Make.
package s3

import (
	"bytes"
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"strings"
	"time"

	"github.com/minio/minio-go/v7"
	"github.com/minio/minio-go/v7/pkg/credentials"

	"halfturn/coach/archive/depot"
)

// Options say which bucket it is, and how it is reached.
type Options struct {
	Endpoint string // host and port
	Secure   bool   // by TLS
	TLS      *tls.Config
	Region   string // "" is us-east-1
	Bucket   string
	Key      string // an access key, and its secret
	Secret   string
	Session  string        // a session token; "" is none
	Timeout  time.Duration // to connect, and for the store to begin an answer; 10 s
	Retries  int           // of a request that failed; 2, negative: none. Stores close connections whenever they like.
	TempDir  string        // for what is stored in parts and cannot be read twice; "" is that of the system
}

// A Bucket is a depot.
type Bucket struct {
	opt  Options
	core *minio.Core
	idle func() // closes connections that wait
	says *listening
}

var (
	_ depot.Depot   = (*Bucket)(nil)
	_ depot.Sweeper = (*Bucket)(nil)
)

const (
	onePart   = 5 << 20  // what is stored in one request, bytes at most
	partSize  = 16 << 20 // of larger ones; 10,000 parts are the most
	sumHeader = "Sha256" // in the metadata
)

// Open prepares a connection. It asks the store nothing: Make does.
func Open(o Options) (*Bucket, error) {
	if o.Timeout <= 0 {
		o.Timeout = 10 * time.Second
	}
	if o.Retries == 0 {
		o.Retries = 2
	}
	if o.Region == "" {
		o.Region = "us-east-1"
	}
	transport := &http.Transport{
		Proxy:                 http.ProxyFromEnvironment,
		DialContext:           (&net.Dialer{Timeout: o.Timeout, KeepAlive: 15 * time.Second}).DialContext,
		TLSClientConfig:       o.TLS,
		TLSHandshakeTimeout:   o.Timeout,
		ResponseHeaderTimeout: o.Timeout,
		IdleConnTimeout:       time.Minute,
		MaxIdleConnsPerHost:   16,
		DisableCompression:    true, // objects are passed as they are
	}
	says := &listening{RoundTripper: transport}
	core, err := minio.NewCore(o.Endpoint, &minio.Options{
		Creds:      credentials.NewStaticV4(o.Key, o.Secret, o.Session),
		Secure:     o.Secure,
		Region:     o.Region,
		Transport:  says,
		MaxRetries: max(o.Retries, 0) + 1,
	})
	if err != nil {
		return nil, fmt.Errorf("the S3 store at %q cannot be used: %w; the endpoint must be a host and a port",
			o.Endpoint, err)
	}
	return &Bucket{opt: o, core: core, idle: transport.CloseIdleConnections, says: says}, nil
}

// Close closes connections that wait.
func (b *Bucket) Close() { b.idle() }

// String names the bucket and where it is.
func (b *Bucket) String() string {
	return fmt.Sprintf("bucket %s at %s", b.opt.Bucket, b.core.EndpointURL())
}

// Make makes the bucket where there is none, makes it that of a cluster, and tries out what the store must be able to
// do. It can be repeated. The error is a [depot.ErrDenied] or [depot.ErrAway].
func (b *Bucket) Make(ctx context.Context, cluster string) error {
	_, err := b.make(ctx, cluster)
	return err
}

// make is Make; it reports whether there was a bucket.
func (b *Bucket) make(ctx context.Context, cluster string) (was bool, err error) {
	was, err = b.core.BucketExists(ctx, b.opt.Bucket)
	if err == nil && !was {
		err = b.core.MakeBucket(ctx, b.opt.Bucket, minio.MakeBucketOptions{Region: b.opt.Region})
		if code := minio.ToErrorResponse(err).Code; code == "BucketAlreadyOwnedByYou" || code == "BucketAlreadyExists" {
			err = nil // another node made it; whose it is follows
		}
	}
	if err != nil {
		return was, b.plain("", err)
	}
	if err := depot.Own(ctx, b, cluster); err != nil {
		return was, err
	}
	_, err = b.Create(ctx, depot.OwnerName, strings.NewReader(""), 0)
	switch {
	case errors.Is(err, depot.ErrExists):
		return was, nil
	case err == nil:
		return was, fmt.Errorf("%w: %s overwrites objects that may be written only once (If-None-Match is ignored); "+
			"use a store or a version that heeds it", depot.ErrDenied, b)
	}
	return was, err
}

// Put stores an object in the place of another.
func (b *Bucket) Put(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	return b.store(ctx, name, r, size, false)
}

// Create stores an object where there is none.
func (b *Bucket) Create(ctx context.Context, name string, r io.Reader, size int64) (depot.Object, error) {
	return b.store(ctx, name, r, size, true)
}

func (b *Bucket) store(ctx context.Context, name string, r io.Reader, size int64, once bool) (depot.Object, error) {
	if err := errors.Join(depot.CheckName(name), ctx.Err()); err != nil {
		return depot.Object{}, err
	}
	body, err := b.prepare(ctx, name, r, size)
	if err != nil {
		return depot.Object{}, err
	}
	defer body.close()
	opts := minio.PutObjectOptions{
		ContentType:  "application/octet-stream",
		UserMetadata: map[string]string{sumHeader: body.sum},
		PartSize:     partSize,
		NumThreads:   2,
		// Only an object that is stored in one request is stored where there is none: the client asks for that with no
		// other request.
		DisableMultipart: once || body.size <= onePart,
	}
	if once {
		opts.SetMatchETagExcept("*")
	}
	if _, err := b.core.Client.PutObject(ctx, b.opt.Bucket, name, body, body.size, opts); err != nil {
		return depot.Object{}, b.plain(name, err)
	}
	return depot.Object{Name: name, Size: body.size, Sum: body.sum, Stored: time.Now()}, nil
}

// Open reads a part of an object.
func (b *Bucket) Open(ctx context.Context, name string, from, length int64) (io.ReadCloser, error) {
	if err := errors.Join(depot.CheckName(name), ctx.Err()); err != nil {
		return nil, err
	}
	from = max(from, 0)
	if length == 0 {
		_, err := b.Stat(ctx, name)
		return http.NoBody, err
	}
	var opts minio.GetObjectOptions
	var err error
	switch {
	case length > 0:
		err = opts.SetRange(from, from+length-1)
	case from > 0:
		err = opts.SetRange(from, 0)
	}
	if err != nil {
		return nil, err
	}
	r, _, _, err := b.core.GetObject(ctx, b.opt.Bucket, name, opts)
	if err == nil {
		return &reading{r, func(err error) error { return b.plain(name, err) }}, nil
	}
	if minio.ToErrorResponse(err).Code == "InvalidRange" {
		return http.NoBody, nil
	}
	return nil, b.plain(name, err)
}

// A reading maps errors of reading.
type reading struct {
	io.ReadCloser
	plain func(error) error
}

func (r *reading) Read(p []byte) (int, error) {
	n, err := r.ReadCloser.Read(p)
	if err != nil && !errors.Is(err, io.EOF) {
		err = r.plain(err)
	}
	return n, err
}

// Stat returns what is known of an object.
func (b *Bucket) Stat(ctx context.Context, name string) (depot.Object, error) {
	if err := errors.Join(depot.CheckName(name), ctx.Err()); err != nil {
		return depot.Object{}, err
	}
	info, err := b.core.Client.StatObject(ctx, b.opt.Bucket, name, minio.StatObjectOptions{})
	if err != nil {
		return depot.Object{}, b.plain(name, err)
	}
	sum := ""
	for key, value := range info.UserMetadata {
		if strings.EqualFold(key, sumHeader) {
			sum = value
		}
	}
	return depot.Object{Name: name, Size: info.Size, Sum: sum, Stored: info.LastModified}, nil
}

// List lists objects.
func (b *Bucket) List(ctx context.Context, prefix string, each func(depot.Object) error) error {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	if err := ctx.Err(); err != nil {
		return err
	}
	all := b.core.Client.ListObjectsIter(ctx, b.opt.Bucket, minio.ListObjectsOptions{Prefix: prefix, Recursive: true})
	for info := range all {
		if info.Err != nil {
			return b.plain(prefix, info.Err)
		}
		if err := each(depot.Object{Name: info.Key, Size: info.Size, Stored: info.LastModified}); err != nil {
			return err
		}
	}
	return ctx.Err()
}

// Delete removes an object.
func (b *Bucket) Delete(ctx context.Context, name string) error {
	if err := errors.Join(depot.CheckName(name), ctx.Err()); err != nil {
		return err
	}
	err := b.core.Client.RemoveObject(ctx, b.opt.Bucket, name, minio.RemoveObjectOptions{})
	if err == nil {
		return nil
	}
	if err = b.plain(name, err); errors.Is(err, depot.ErrNotFound) {
		return nil
	}
	return err
}

// Sweep ends uploads in parts that were begun before a time and not completed, by a program that died.
func (b *Bucket) Sweep(ctx context.Context, before time.Time) (n int, err error) {
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	for upload := range b.core.Client.ListIncompleteUploads(ctx, b.opt.Bucket, "", true) {
		if upload.Err != nil {
			return n, b.plain("", upload.Err)
		}
		if !upload.Initiated.Before(before) {
			continue
		}
		err := b.core.AbortMultipartUpload(ctx, b.opt.Bucket, upload.Key, upload.UploadID)
		if err != nil && minio.ToErrorResponse(err).Code != "NoSuchUpload" {
			return n, b.plain(upload.Key, err)
		}
		n++
	}
	return n, ctx.Err()
}

// A body is what is stored. It can be read more than once, and its size and sum are known.
type body struct {
	io.ReadSeeker
	size  int64
	sum   string
	close func()
}

// ReadAt lets the client read parts from a file by themselves.
func (b *body) ReadAt(p []byte, off int64) (int, error) {
	if at, ok := b.ReadSeeker.(io.ReaderAt); ok {
		return at.ReadAt(p, off)
	}
	return 0, errors.ErrUnsupported
}

// prepare reads what is to be stored once, for its sum and its size: of what is small into memory, else from the file
// it is in, or into one.
func (b *Bucket) prepare(ctx context.Context, name string, r io.Reader, size int64) (*body, error) {
	out := &body{close: func() {}}
	sum := sha256.New()
	most := int64(onePart) + 1
	var head bytes.Buffer // grows as it is read: nearly all that is stored is small
	if size >= 0 && size < onePart {
		most = size + 1
		head.Grow(int(most) + bytes.MinRead)
	}
	n, err := head.ReadFrom(io.LimitReader(&within{ctx, r}, most))
	switch {
	case err != nil:
		return nil, err
	case n < most:
		out.ReadSeeker, out.size = bytes.NewReader(head.Bytes()), n
		sum.Write(head.Bytes())
	case size >= 0 && size < n:
		return nil, wrongSize(name, n, size)
	default:
		if err := b.large(ctx, out, sum, head.Bytes(), r); err != nil {
			out.close()
			return nil, err
		}
	}
	if size >= 0 && out.size != size {
		out.close()
		return nil, wrongSize(name, out.size, size)
	}
	out.sum = hex.EncodeToString(sum.Sum(nil))
	return out, nil
}

func wrongSize(name string, is, must int64) error {
	return fmt.Errorf("object %s has %d bytes or more; must be %d", name, is, must)
}

// large prepares what is stored in parts, of which the head was read.
func (b *Bucket) large(ctx context.Context, out *body, sum io.Writer, head []byte, r io.Reader) error {
	if f, ok := r.(*os.File); ok {
		if at, err := f.Seek(0, io.SeekCurrent); err == nil {
			begin := at - int64(len(head))
			if _, err := sum.Write(head); err != nil {
				return err
			}
			n, err := io.Copy(sum, &within{ctx, f})
			if err != nil {
				return err
			}
			out.size = int64(len(head)) + n
			out.ReadSeeker = io.NewSectionReader(f, begin, out.size)
			return nil
		}
	}
	f, err := os.CreateTemp(b.opt.TempDir, ".storing-*")
	if err != nil {
		return err
	}
	out.close = func() {
		_ = f.Close() // it is removed
		_ = os.Remove(f.Name())
	}
	to := io.MultiWriter(f, sum)
	if _, err := to.Write(head); err != nil {
		return err
	}
	n, err := io.Copy(to, &within{ctx, r})
	if err != nil {
		return err
	}
	out.size = int64(len(head)) + n
	out.ReadSeeker = io.NewSectionReader(f, 0, out.size)
	return nil
}

// within reads until a context ends.
type within struct {
	ctx context.Context
	r   io.Reader
}

func (w *within) Read(p []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	return w.r.Read(p)
}
