package nats

import (
	"crypto/tls"
	"errors"
	"fmt"
	"net/url"
	"strings"
	"time"

	client "github.com/nats-io/nats.go"

	"halfturn/web/cluster/flow"
)

// Settings say which servers an engine connects to, and as which node.
type Settings struct {
	Node    string // name of this node, of its own in the cluster
	Cluster string // name of the cluster, noted in its streams
	Prefix  string // of subjects and streams; "" is DefaultPrefix
	URLs    []string
	Access  Access
	Keeping Keeping
	Trouble func(error)      // takes faults that no call returns, from any goroutine; nil: they are only counted
	Clock   func() time.Time // nil: that of the machine
}

// Access is how the servers know who connects. At most one way is set.
type Access struct {
	User, Password  string
	Token           string
	CredentialsFile string      // of a JSON web token and its seed
	NKeyFile        string      // of a seed
	TLS             *tls.Config // nil: as the URLs and the servers ask for it
}

// Keeping is how streams are made. It has to be the same at all nodes.
type Keeping struct {
	Streams    int           // over which stations are spread; 0 is DefaultStreams; cannot be changed later
	Replicas   int           // servers that hold each stream: 1, 3 or 5; 0 is 1
	MaxAge     time.Duration // of batches; 0 is DefaultMaxAge
	MaxBytes   int64         // of all streams together, in each server; 0 is no limit
	Compressed bool          // files are compressed with S2: less disk space, but reading takes several times as long
}

// What settings are where they say nothing.
const (
	DefaultPrefix  = "halfturn"
	DefaultStreams = 16
	DefaultMaxAge  = 24 * time.Hour
)

// Limits of settings.
const (
	mostStreams   = 256
	leastMaxAge   = 10 * time.Minute
	leastMaxBytes = 4 << 20 // of each stream: a batch may have a fourth of it
)

// complete sets what settings leave open, and checks them.
func (s *Settings) complete() error {
	k := &s.Keeping
	if s.Prefix == "" {
		s.Prefix = DefaultPrefix
	}
	if k.Streams == 0 {
		k.Streams = DefaultStreams
	}
	if k.Replicas == 0 {
		k.Replicas = 1
	}
	if k.MaxAge == 0 {
		k.MaxAge = DefaultMaxAge
	}
	if s.Trouble == nil {
		s.Trouble = func(error) {}
	}
	if s.Clock == nil {
		s.Clock = time.Now
	}
	return s.check()
}

func (s *Settings) check() error {
	k := &s.Keeping
	switch {
	case s.Node == "":
		return errors.New("the node has no name")
	case s.Cluster == "":
		return errors.New("the cluster has no name")
	case token(s.Prefix) != s.Prefix:
		return fmt.Errorf("prefix is %q; must be of letters, digits, - and _", s.Prefix)
	case len(s.URLs) == 0:
		return errors.New("no NATS server is named")
	case k.Streams < 1 || k.Streams > mostStreams:
		return fmt.Errorf("streams is %d; must be between 1 and %d", k.Streams, mostStreams)
	case k.Replicas != 1 && k.Replicas != 3 && k.Replicas != 5:
		return fmt.Errorf("replicas is %d; must be 1, 3 or 5", k.Replicas)
	case k.MaxAge < leastMaxAge:
		return fmt.Errorf("max age is %v; must be at least %v", k.MaxAge, leastMaxAge)
	case k.MaxBytes != 0 && k.MaxBytes < leastMaxBytes*int64(k.Streams):
		return fmt.Errorf("max bytes is %d; must be at least %d for %d streams", k.MaxBytes,
			leastMaxBytes*int64(k.Streams), k.Streams)
	}
	for _, u := range s.URLs {
		if _, err := address(u); err != nil {
			return err
		}
	}
	return s.Access.check()
}

func (a *Access) check() error {
	ways := 0
	for _, way := range []string{a.User + a.Password, a.Token, a.CredentialsFile, a.NKeyFile} {
		if way != "" {
			ways++
		}
	}
	if ways > 1 {
		return errors.New("access to NATS is set in several ways; must be one of user and password, token, " +
			"credentials file, and nkey file")
	}
	return nil
}

// address is the host and port of a server's URL, without user and password.
func address(server string) (string, error) {
	text := server
	if !strings.Contains(text, "://") {
		text = "nats://" + text
	}
	u, err := url.Parse(text)
	if err != nil || u.Host == "" { // the error would repeat a password
		return "", errors.New("the URL of a NATS server cannot be read; must be like nats://host:4222")
	}
	switch u.Scheme {
	case "nats", "tls", "ws", "wss":
		return u.Host, nil
	}
	return "", fmt.Errorf("the URL of the NATS server at %s begins with %q; must be nats, tls, ws or wss", u.Host,
		u.Scheme)
}

// addresses lists the servers.
func (s *Settings) addresses() string {
	var all []string
	for _, u := range s.URLs {
		if at, err := address(u); err == nil {
			all = append(all, at)
		}
	}
	return strings.Join(all, ", ")
}

// How connections notice that a server is gone, and how long they try.
const (
	pingInterval = 500 * time.Millisecond
	mostPings    = 2 // unanswered; then the connection is given up
	dialTimeout  = 2 * time.Second
	writeTimeout = time.Second // of a write to a server that is frozen
)

// options are those of a connection. Nothing is held back while there is none: what waits is the caller's, who knows
// whether it still counts.
func (s *Settings) options(what string) ([]client.Option, error) {
	all := []client.Option{
		client.Name(fmt.Sprintf("halfturn %s (%s)", s.Node, what)),
		client.MaxReconnects(-1),
		client.ReconnectWait(250 * time.Millisecond),
		client.ReconnectJitter(100*time.Millisecond, 100*time.Millisecond),
		client.ReconnectBufSize(-1),
		client.PingInterval(pingInterval),
		client.MaxPingsOutstanding(mostPings),
		client.Timeout(dialTimeout),
		client.FlusherTimeout(writeTimeout),
		client.IgnoreAuthErrorAbort(), // credentials may become valid again
	}
	a := &s.Access
	switch {
	case a.CredentialsFile != "":
		all = append(all, client.UserCredentials(a.CredentialsFile))
	case a.NKeyFile != "":
		key, err := client.NkeyOptionFromSeed(a.NKeyFile)
		if err != nil {
			return nil, fmt.Errorf("the nkey file %s cannot be used: %w", a.NKeyFile, err)
		}
		all = append(all, key)
	case a.Token != "":
		all = append(all, client.Token(a.Token))
	case a.User != "":
		all = append(all, client.UserInfo(a.User, a.Password))
	}
	if a.TLS != nil {
		all = append(all, client.Secure(a.TLS.Clone()))
	}
	return all, nil
}

// connect connects to a server. When none can be reached it fails, or, with later, goes on trying.
func (s *Settings) connect(what string, later bool, more ...client.Option) (*client.Conn, error) {
	all, err := s.options(what)
	if err != nil {
		return nil, err
	}
	conn, err := client.Connect(strings.Join(s.URLs, ","), append(all, more...)...)
	if err == nil {
		return conn, nil
	}
	err = s.connectFault(err)
	if !later || !errors.Is(err, flow.ErrAway) {
		return nil, err
	}
	return client.Connect(strings.Join(s.URLs, ","), append(append(all, more...), client.RetryOnFailedConnect(true))...)
}
