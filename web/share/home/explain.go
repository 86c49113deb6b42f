package home

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"io"
	"net"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/gorilla/websocket"

	"halfturn/web/share/link"
)

// A troubleError says in plain words why there is no link.
type troubleError struct {
	words string
	cause error // as the network or a library says it; it may be nil
}

// Error says what is wrong, at which address, and what to do.
func (e *troubleError) Error() string { return e.words }

// Unwrap returns the cause.
func (e *troubleError) Unwrap() error { return e.cause }

// trouble words an error about the address of the school, which stands between two parts of the sentence.
func (s *Sharer) trouble(cause error, before, after string) error {
	return &troubleError{before + s.opt.URL.Redacted() + after, cause}
}

// A nonsenseError is something sent that no school of this version sends.
type nonsenseError string

// Error says what it is.
func (e nonsenseError) Error() string { return string(e) }

var errTooLong = nonsenseError(fmt.Sprintf("a message of more than %d bytes", link.MostBytes))

// unreached says why the socket could not be opened, and nothing was answered.
func (s *Sharer) unreached(err error) error {
	var unknown *net.DNSError
	var certificate *tls.CertificateVerificationError
	var authority x509.UnknownAuthorityError
	var operation *net.OpError
	var record tls.RecordHeaderError
	switch {
	case isTimeout(err):
		return s.trouble(err, "", " does not answer within "+handshake.String()+
			"; check the network, and that the school runs")
	case errors.As(err, &unknown):
		return s.trouble(err, "the name in ", " is not known; check share.url and the network")
	case errors.As(err, &certificate), errors.As(err, &authority):
		return s.trouble(err, "the certificate of ", " is not trusted by this machine; ask the school for that of "+
			"its authority (share.ca)")
	case errors.As(err, &record):
		return s.trouble(err, "", " does not speak TLS; check share.url and its port")
	case errors.Is(err, syscall.ECONNREFUSED):
		return s.trouble(err, "nothing listens at ", "; check share.url, and that the school runs")
	case errors.As(err, &operation) && !isLost(err):
		return s.trouble(err, "", " is not reached; check the network, and that the school runs")
	case isLost(err):
		return s.trouble(err, "the way to ", " is closed before it answers; check share.url and the network")
	}
	return s.trouble(err, "", " answers with what is no HTTP; check share.url")
}

// explain says why a link ended, which was silent for no longer than a time.
func (s *Sharer) explain(err error, silent time.Duration) error {
	var bye *byeError
	var nonsense nonsenseError
	switch {
	case errors.As(err, &bye), errors.Is(err, context.Canceled):
		return err
	case errors.As(err, &nonsense):
		return s.trouble(nil, "", " sends "+string(nonsense)+
			"; check share.url, and that both run the same version of Halfturn")
	case errors.Is(err, websocket.ErrReadLimit):
		return s.explain(errTooLong, silent)
	case isTimeout(err):
		return s.trouble(err, "", " was silent for "+silent.String()+"; check the network, and that the school runs")
	case strings.HasPrefix(err.Error(), "websocket: ") && !isLost(err):
		return s.trouble(err, "", " sends what is no message of a link; check share.url, and what stands between")
	}
	return s.trouble(err, "", " closed the link, or the network did; check the network, and that the school runs")
}

func isTimeout(err error) bool {
	var slow net.Error
	return errors.Is(err, context.DeadlineExceeded) || errors.As(err, &slow) && slow.Timeout()
}

// ended are the errors of a connection that has ended.
var ended = []error{io.EOF, io.ErrUnexpectedEOF, io.ErrClosedPipe, net.ErrClosed, syscall.ECONNRESET, syscall.EPIPE}

// isLost reports whether an error is that of a connection which has ended.
func isLost(err error) bool {
	var closed *websocket.CloseError
	return errors.As(err, &closed) || slices.ContainsFunc(ended, func(e error) bool { return errors.Is(err, e) })
}
