package s3

import (
	"context"
	"errors"
	"fmt"
	"net/url"

	"github.com/minio/minio-go/v7"

	"halfturn/coach/archive/depot"
)

// refusals are what a store says that does not let this program do what it must, and what to do about it.
var refusals = map[string]string{
	"AccessDenied":          "its keys do not let this program in, or not do that; check the keys and their rights",
	"AllAccessDisabled":     "access to the bucket is switched off; switch it on",
	"InvalidAccessKeyId":    "it does not know the access key; check the key",
	"XAdminUserNotFound":    "it does not know the access key; check the key",
	"SignatureDoesNotMatch": "the secret does not belong to the access key; check the secret",
	"ExpiredToken":          "the session token has expired; get a new one",
	"InvalidToken":          "the session token is not valid; get a new one",
	"RequestTimeTooSkewed":  "the clocks of this machine and of the store are too far apart; set both by a time server",
	"NoSuchBucket":          "there is no such bucket; halfturn cluster check makes it",
	"InvalidBucketName":     "that is no name of a bucket; must be 3 to 63 lower-case letters, digits and hyphens",
	"PermanentRedirect":     "the bucket is in another region; name its region and endpoint",
	"QuotaExceeded":         "there is no room for more; raise the quota or have less kept",
	"XMinioStorageFull":     "there is no room for more; make room or have less kept",
	"EntityTooLarge":        "the store takes no object of that size",
}

// plain says in one sentence where something failed, why, and what to do. No message of the store is repeated for what
// has to do with keys.
func (b *Bucket) plain(name string, err error) error {
	where := b.String()
	if name != "" {
		where = name + " in " + where
	}
	if errors.Is(err, context.Canceled) {
		return context.Canceled
	}
	var answer minio.ErrorResponse
	if !errors.As(err, &answer) {
		var network *url.Error
		if errors.As(err, &network) {
			err = network.Err // without the address, which stands before it
		}
		return fmt.Errorf("%w: %s: %w; start the store, or check the endpoint and the network",
			depot.ErrAway, where, err)
	}
	switch code := answer.Code; {
	case code == "NoSuchKey":
		return fmt.Errorf("%w: %s", depot.ErrNotFound, where)
	case code == "PreconditionFailed", code == "ConditionalRequestConflict", answer.StatusCode == 412:
		return fmt.Errorf("%w: %s", depot.ErrExists, where)
	case refusals[code] != "":
		return fmt.Errorf("%w: %s: %s", depot.ErrDenied, where, refusals[code])
	case answer.StatusCode == 401, answer.StatusCode == 403:
		return fmt.Errorf("%w: %s: %s", depot.ErrDenied, where, refusals["AccessDenied"])
	default:
		return fmt.Errorf("%w: %s: it answers %s (%d); look at its log, it is tried again", depot.ErrAway, where, code,
			answer.StatusCode)
	}
}
