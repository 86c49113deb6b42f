package nats

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"time"

	client "github.com/nats-io/nats.go"
)

// notes are of what no call returns: connections note it by themselves, or messages bring it, as often as they like.
type notes struct {
	mu     sync.Mutex
	said   map[string]time.Time // what was said, and when
	denied error                // what this node may not do that it must for the store
	when   time.Time            // it was told so
	twin   time.Time            // when a node of this one's name was first heard
}

const (
	sayAgain  = time.Minute      // the same
	mostSaid  = 100              // different things in that time
	deniedFor = 10 * time.Second // then it may be allowed
	twinAfter = time.Second      // a node that was heard this long ago is no remainder of one that was killed
)

// warn says something, unless it was said within a minute, or too much was.
func (e *Engine) warn(err error) {
	if e.notes.fresh(err.Error(), time.Now()) {
		e.set.Trouble(err)
	}
}

// fresh reports whether something is to be said.
func (n *notes) fresh(words string, now time.Time) bool {
	n.mu.Lock()
	defer n.mu.Unlock()
	if last, was := n.said[words]; was && now.Sub(last) < sayAgain {
		return false
	}
	if len(n.said) >= mostSaid {
		for what, last := range n.said {
			if now.Sub(last) >= sayAgain {
				delete(n.said, what)
			}
		}
		if len(n.said) >= mostSaid {
			return false
		}
	}
	if n.said == nil {
		n.said = map[string]time.Time{}
	}
	n.said[words] = now
	return true
}

// trouble takes what a connection notes by itself.
func (e *Engine) trouble(c *client.Conn, sub *client.Subscription, err error) {
	at := c.ConnectedAddr()
	if at == "" {
		at = e.set.addresses()
	}
	switch fault := e.set.connectFault(err); {
	case errors.Is(err, client.ErrSlowConsumer):
		e.ears.slow(e, sub)
	case errors.Is(err, client.ErrPermissionViolation):
		e.warn(e.lacks(at, err))
	case errors.Is(fault, ErrRefused):
		e.warn(fault)
	default:
		e.warn(fmt.Errorf("the connection to NATS at %s: %w", at, err))
	}
}

// lacks is what this node may not do. What it must for the store is noted: a server does not answer then.
func (e *Engine) lacks(at string, err error) error {
	what := err.Error()
	if _, after, cut := strings.Cut(what, "Permissions Violation for "); cut {
		what = strings.Replace(strings.Replace(after, "Publish to", "publish to", 1), "Subscription to",
			"subscribe to", 1)
	}
	err = fmt.Errorf("%w: NATS at %s does not let this node %s; give its user the right to publish and subscribe to "+
		"%s.>, $JS.API.> and _INBOX.>", ErrRefused, at, what, e.set.Prefix)
	if strings.Contains(what, `"$JS.`) || strings.Contains(what, `"_INBOX`) || strings.Contains(what, `"`+e.set.Prefix+
		".st.") {
		e.notes.mu.Lock()
		e.notes.denied, e.notes.when = err, time.Now()
		e.notes.mu.Unlock()
	}
	return err
}

// lacking is what the node was told lately that it may not do; nil is nothing.
func (n *notes) lacking(now time.Time) error {
	n.mu.Lock()
	defer n.mu.Unlock()
	if now.Sub(n.when) > deniedFor {
		return nil
	}
	return n.denied
}

// twin takes that a node tells under this one's name. Two of them can start while they cannot ask each other.
func (e *Engine) twin(now time.Time) {
	n := &e.notes
	n.mu.Lock()
	if n.twin.IsZero() {
		n.twin = now
	}
	is := now.Sub(n.twin) >= twinAfter
	n.mu.Unlock()
	if is {
		e.warn(e.sameName())
	}
}

func (e *Engine) sameName() error {
	return fmt.Errorf("another node called %s is in the cluster; must have a name of its own", e.set.Node)
}
