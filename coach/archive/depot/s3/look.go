package s3

import (
	"context"
	"net/http"
	"sync/atomic"
)

// A Found is what is found of a store and of a bucket.
type Found struct {
	Server string // what the store calls itself: often with no version; "" where it says nothing
	Made   bool   // the bucket was made now
	// Versions says that the bucket keeps old versions of objects: what is forgotten stays in them.
	Versions bool
}

// Look makes the bucket as Make does, and says what it found.
func (b *Bucket) Look(ctx context.Context, cluster string) (f Found, err error) {
	was, err := b.make(ctx, cluster)
	if name := b.says.name.Load(); name != nil {
		f.Server = *name
	}
	if err != nil {
		return f, err
	}
	f.Made = !was
	// Stores that have no versions answer with errors of all kinds.
	v, unknown := b.core.GetBucketVersioning(ctx, b.opt.Bucket)
	f.Versions = unknown == nil && v.Enabled()
	return f, nil
}

// listening hears how a store calls itself.
type listening struct {
	http.RoundTripper
	name atomic.Pointer[string]
}

// RoundTrip sends a request.
func (l *listening) RoundTrip(r *http.Request) (*http.Response, error) {
	answer, err := l.RoundTripper.RoundTrip(r)
	if err == nil && l.name.Load() == nil {
		if name := answer.Header.Get("Server"); name != "" {
			l.name.Store(&name)
		}
	}
	return answer, err
}
