package nats

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	client "github.com/nats-io/nats.go"
	"github.com/nats-io/nats.go/jetstream"

	"halfturn/web/cluster/flow"
)

// What servers answer, beside what the client names (errors.json of the server).
const (
	inFlight        = jetstream.JSErrCodeStreamWrongLastSequenceConstant // of the subject; to be sent again
	sameInFlight    = jetstream.ErrorCode(10158)                         // a message with the same id
	wrongSequence   = jetstream.JSErrCodeStreamWrongLastSequence
	noReplicas      = jetstream.ErrorCode(10074) // a server without a cluster
	noPeers         = jetstream.ErrorCode(10005) // fewer servers than replicas
	overlap         = jetstream.ErrorCode(10065)
	storageExceeded = jetstream.ErrorCode(10047)
	noResources     = jetstream.ErrorCode(10023)
	noMemory        = jetstream.ErrorCode(10028)
	noStreamSpace   = jetstream.ErrorCode(10077) // it keeps what it has, and takes nothing more
)

// isFull says that the servers answer, and take nothing: their disk is full, or what they may use of it.
func isFull(err error) bool {
	switch code(err) {
	case storageExceeded, noResources, noMemory, noStreamSpace:
		return true
	}
	return false
}

// ErrForeign says that streams belong to another cluster, or another version, or are laid out differently: waiting does
// not mend it.
var ErrForeign = errors.New("these streams are not of this cluster")

// ErrRefused says that the servers do not let this node in.
var ErrRefused = errors.New("NATS does not let this node in")

// again says that a call is to be made again at once: the store answers.
var errAgain = errors.New("something is in flight")

// code is that of an answer of JetStream; 0 is none.
func code(err error) jetstream.ErrorCode {
	var api *jetstream.APIError
	if errors.As(err, &api) {
		return api.ErrorCode
	}
	return 0
}

// connectFault says why no server lets this node in, without its password. It is ErrAway when none can be reached, and
// ErrRefused when one refuses.
func (s *Settings) connectFault(err error) error {
	at := s.addresses()
	var unknown x509.UnknownAuthorityError
	var host x509.HostnameError
	var invalid x509.CertificateInvalidError
	var certificate *tls.CertificateVerificationError
	switch {
	case errors.Is(err, client.ErrAuthorization), errors.Is(err, client.ErrAuthExpired), errors.Is(err,
		client.ErrAuthRevoked), errors.Is(err, client.ErrAccountAuthExpired):
		return fmt.Errorf("%w: the server at %s refuses the credentials; check the user, token or credentials file",
			ErrRefused, at)
	case errors.Is(err, client.ErrNkeysNotSupported), errors.Is(err, client.ErrUserButNoSigCB):
		return fmt.Errorf("%w: the server at %s takes no keys; set what it takes", ErrRefused, at)
	case errors.Is(err, client.ErrSecureConnRequired), errors.Is(err, client.ErrSecureConnWanted):
		return fmt.Errorf("%w: the server at %s and this node do not agree on TLS (%w); set it at both or at neither",
			ErrRefused, at, err)
	case errors.As(err, &unknown), errors.As(err, &host), errors.As(err, &invalid), errors.As(err, &certificate):
		return fmt.Errorf("%w: the certificate of the server at %s is not good (%w); name its authority, or the host "+
			"as it stands there", ErrRefused, at, err)
	case s.Access.CredentialsFile != "" && isFile(err):
		return fmt.Errorf("%w: the credentials file %s cannot be used (%w)", ErrRefused, s.Access.CredentialsFile, err)
	}
	return &unreached{at: at, why: []error{err}}
}

// unreached is that no server can be reached, which is ErrAway.
type unreached struct {
	at  string  // all that were tried
	why []error // each reason once
}

func (u *unreached) Error() string {
	why := make([]string, len(u.why))
	for i, err := range u.why {
		why[i] = err.Error()
	}
	return fmt.Sprintf("%v: no NATS server can be reached at %s (%s); start one, or correct the addresses",
		flow.ErrAway, u.at, strings.Join(why, ", "))
}

func (u *unreached) Unwrap() []error { return append([]error{flow.ErrAway}, u.why...) }

// none says why none of the servers can be used, each of which was asked by itself: it names all of them, or the one
// that refuses, which waiting does not mend.
func (e *Engine) none(servers []Server) error {
	all := &unreached{at: e.set.addresses()}
	add := func(why error) {
		if !slices.ContainsFunc(all.why, func(had error) bool { return had.Error() == why.Error() }) {
			all.why = append(all.why, why)
		}
	}
	for _, s := range servers {
		var one *unreached
		switch {
		case errors.Is(s.Err, ErrRefused):
			return s.Err
		case errors.As(s.Err, &one):
			for _, why := range one.why {
				add(why)
			}
		case s.Err != nil:
			add(s.Err)
		}
	}
	if len(all.why) == 0 {
		add(errors.New("it does not answer"))
	}
	return all
}

// away is an error of a call whose time ended while the store did not answer.
func away(ctx context.Context, last error) error {
	if last == nil || errors.Is(last, ctx.Err()) {
		return fmt.Errorf("%w: %w", flow.ErrAway, ctx.Err())
	}
	return fmt.Errorf("%w (%w): %w", flow.ErrAway, last, ctx.Err())
}

// sentence says what an error of a stream means.
func (e *Engine) sentence(k int, err error) error {
	name, at := e.set.streamName(k), e.at()
	denied := e.notes.lacking(time.Now())
	switch {
	case errors.Is(err, context.DeadlineExceeded) && denied != nil:
		return fmt.Errorf("stream %s: %w", name, denied)
	case errors.Is(err, context.DeadlineExceeded):
		return fmt.Errorf("stream %s: NATS at %s does not answer in time", name, at)
	case errors.Is(err, jetstream.ErrNoStreamResponse), errors.Is(err, client.ErrNoResponders):
		return fmt.Errorf("stream %s has no leader at NATS (%s), or is not there", name, at)
	case errors.Is(err, jetstream.ErrStreamNotFound):
		return fmt.Errorf("stream %s is not there at NATS (%s); halfturn cluster check makes it", name, at)
	case errors.Is(err, jetstream.ErrJetStreamNotEnabled), errors.Is(err, jetstream.ErrJetStreamNotEnabledForAccount):
		return fmt.Errorf("NATS at %s has no JetStream for this node; enable it there", at)
	case errors.Is(err, client.ErrReconnectBufExceeded), errors.Is(err, client.ErrDisconnected):
		return fmt.Errorf("no NATS server can be reached at %s", e.set.addresses())
	case isFull(err):
		return fmt.Errorf("stream %s: the disk space of NATS at %s is used up; make room there, let it use more, or "+
			"have less kept (keep-gb, keep-hours)", name, at)
	}
	return fmt.Errorf("stream %s at NATS (%s): %w", name, at, err)
}
