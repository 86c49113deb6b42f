// Package cluster reads the file that makes a server one node of a cluster (halfturn serve --cluster FILE): its
// engines, and what is bounded. All nodes can have the same file, as a node is named by its machine unless the file
// says otherwise.
//
// No secret stands in the file. Where one is needed there are two keys, of which one is set: KEY-file names a file that
// holds it, and KEY-env an environment variable. Relative names of files are relative to the cluster's file.
package cluster

import (
	"crypto/tls"
	"crypto/x509"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"

	"halfturn/configs/strict"
	"halfturn/configs/tomlfile"
)

// A Config is what the file says, with the secrets read.
type Config struct {
	Cluster  string   `toml:"cluster"` // its name, noted in its engines
	Node     string   `toml:"node"`    // "" is the name of the machine
	NATS     NATS     `toml:"nats"`
	Postgres Postgres `toml:"postgres"`
	S3       S3       `toml:"s3"`
	Waiting  Waiting  `toml:"waiting"`
	Times    Times    `toml:"times"`

	file *strict.File
	dir  string
	env  func(string) (string, bool)
}

// NATS says where what flows goes.
type NATS struct {
	URLs        []string `toml:"urls"`
	Prefix      string   `toml:"prefix"` // of subjects and streams
	User        string   `toml:"user"`
	Credentials string   `toml:"credentials"` // a file, with a JSON web token and its seed
	NKey        string   `toml:"nkey"`        // a file, with a seed
	CA          string   `toml:"ca"`
	Certificate string   `toml:"certificate"`
	Key         string   `toml:"key"`
	Streams     int      `toml:"streams"`
	Replicas    int      `toml:"replicas"`
	KeepHours   int      `toml:"keep-hours"`
	KeepGB      int      `toml:"keep-gb"` // 0 is no limit

	PasswordFile string `toml:"password-file"`
	PasswordEnv  string `toml:"password-env"`
	TokenFile    string `toml:"token-file"`
	TokenEnv     string `toml:"token-env"`

	Password string      `toml:"-"`
	Token    string      `toml:"-"`
	TLS      *tls.Config `toml:"-"` // nil: as the URLs ask for it
}

// Postgres says where what is known is kept. Without it each node has its own logbook and people.
type Postgres struct {
	DSNFile string `toml:"dsn-file"`
	DSNEnv  string `toml:"dsn-env"`

	DSN string `toml:"-"`
}

// S3 says where the folders of sessions are kept. It is used with Postgres, or neither is: then sessions stay in the
// data directory of each node.
type S3 struct {
	Endpoint string `toml:"endpoint"` // a URL
	Bucket   string `toml:"bucket"`
	Region   string `toml:"region"`
	CA       string `toml:"ca"`

	KeyFile    string `toml:"access-key-file"`
	KeyEnv     string `toml:"access-key-env"`
	SecretFile string `toml:"secret-key-file"`
	SecretEnv  string `toml:"secret-key-env"`

	Host   string      `toml:"-"` // of the endpoint
	Secure bool        `toml:"-"`
	Access string      `toml:"-"`
	Secret string      `toml:"-"`
	TLS    *tls.Config `toml:"-"`
}

// Waiting bounds what waits on a node while the store does not answer.
type Waiting struct {
	Station int `toml:"station-mb"`
	All     int `toml:"all-mb"`
}

// Times say how soon a node is missed.
type Times struct {
	Heartbeat Duration `toml:"heartbeat"`
	Dead      Duration `toml:"dead"`
}

// A Duration is written as in "250ms".
type Duration struct{ time.Duration }

// UnmarshalText reads "250ms".
func (d *Duration) UnmarshalText(b []byte) (err error) {
	d.Duration, err = time.ParseDuration(string(b))
	return err
}

// defaults is what holds where the file says nothing.
func defaults() *Config {
	return &Config{
		Cluster:  "halfturn",
		NATS:     NATS{Prefix: "halfturn", Streams: 16, Replicas: 1, KeepHours: 24},
		Waiting:  Waiting{Station: 8, All: 256},
		Times:    Times{Heartbeat: Duration{250 * time.Millisecond}, Dead: Duration{time.Second}},
		S3:       S3{Region: "us-east-1"},
		Postgres: Postgres{},
	}
}

// Load reads a file; env looks an environment variable up. An error names the file, the line and the key, and no
// secret.
func Load(name string, env func(string) (string, bool)) (*Config, error) {
	data, err := tomlfile.Read(name)
	if err != nil {
		return nil, err
	}
	c := defaults()
	if c.file, err = strict.Decode(name, data, c); err != nil {
		return nil, err
	}
	c.dir, c.env = filepath.Dir(name), env
	if c.Node == "" {
		if c.Node, err = os.Hostname(); err != nil {
			return nil, c.file.Errorf("node", "is not set, and the machine does not say its name: %v", err)
		}
	}
	for _, check := range []func() error{c.checkNames, c.checkNATS, c.checkPostgres, c.checkS3, c.checkBounds} {
		if err := check(); err != nil {
			return nil, err
		}
	}
	return c, nil
}

// plainName matches names that can be part of any engine's names.
var plainName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_.-]{0,62}$`)

func (c *Config) checkNames() error {
	for _, n := range []struct{ key, is string }{
		{"cluster", c.Cluster}, {"node", c.Node}, {"nats.prefix", c.NATS.Prefix},
	} {
		if !plainName.MatchString(n.is) || n.key == "nats.prefix" && strings.Contains(n.is, ".") {
			return c.file.Errorf(n.key, "is %q; must be letters, digits, - and _", n.is)
		}
	}
	return nil
}

// schemes are how an address of a NATS server may begin.
var schemes = []string{"nats", "tls", "ws", "wss"}

func (c *Config) checkNATS() (err error) {
	n := &c.NATS
	if len(n.URLs) == 0 {
		return c.file.Errorf("nats.urls",
			"is empty; must be the addresses of NATS servers, such as nats://10.0.0.1:4222")
	}
	for _, text := range n.URLs {
		u, err := url.Parse(text)
		switch {
		case err != nil || u.Host == "" || !slices.Contains(schemes, u.Scheme):
			return c.file.Errorf("nats.urls", "has one that is no address; must be like nats://10.0.0.1:4222")
		case u.User != nil:
			return c.file.Errorf("nats.urls", "has one with a password; must be named by user and password-file")
		}
	}
	if n.Password, err = c.secret("nats.password", n.PasswordFile, n.PasswordEnv); err != nil {
		return err
	}
	if n.Token, err = c.secret("nats.token", n.TokenFile, n.TokenEnv); err != nil {
		return err
	}
	ways := 0
	for _, is := range []bool{n.User != "", n.Token != "", n.Credentials != "", n.NKey != ""} {
		if is {
			ways++
		}
	}
	if ways > 1 || n.User == "" && n.Password != "" {
		return c.file.Errorf("nats", "says more than one way to log in; must be one of user with its password, "+
			"token, credentials or nkey")
	}
	n.Credentials, n.NKey = c.path(n.Credentials), c.path(n.NKey)
	if n.TLS, err = c.trust("nats", n.CA, n.Certificate, n.Key); err != nil {
		return err
	}
	if n.Replicas != 1 && n.Replicas != 3 && n.Replicas != 5 {
		return c.file.Errorf("nats.replicas", "is %d; must be 1, 3 or 5", n.Replicas)
	}
	return c.between("nats.streams", n.Streams, 1, 256, c.between("nats.keep-hours", n.KeepHours, 1, 24*365,
		c.between("nats.keep-gb", n.KeepGB, 0, 1_000_000, nil)))
}

// between checks a number, and returns another error where it is right.
func (c *Config) between(key string, is, least, most int, otherwise error) error {
	if is < least || is > most {
		return c.file.Errorf(key, "is %d; must be between %d and %d", is, least, most)
	}
	return otherwise
}

func (c *Config) checkPostgres() (err error) {
	c.Postgres.DSN, err = c.secret("postgres.dsn", c.Postgres.DSNFile, c.Postgres.DSNEnv)
	return err
}

func (c *Config) checkS3() (err error) {
	s := &c.S3
	if s.Bucket == "" {
		switch {
		case s.Endpoint != "":
			return c.file.Errorf("s3.bucket", "is empty; must be the bucket of the sessions")
		case c.Postgres.DSN != "":
			return c.file.Errorf("s3.bucket", "is not set; must be where the nodes have one logbook, as each shows "+
				"the sessions of all")
		}
		return nil
	}
	u, err := url.Parse(s.Endpoint)
	if err != nil || u.Host == "" || u.User != nil || u.Scheme != "https" && u.Scheme != "http" ||
		strings.Trim(u.Path, "/") != "" {
		return c.file.Errorf("s3.endpoint", "is no address; must be like https://s3.example:9000")
	}
	s.Host, s.Secure = u.Host, u.Scheme == "https"
	if s.Access, err = c.secret("s3.access-key", s.KeyFile, s.KeyEnv); err != nil {
		return err
	}
	if s.Secret, err = c.secret("s3.secret-key", s.SecretFile, s.SecretEnv); err != nil {
		return err
	}
	if s.Access == "" || s.Secret == "" {
		return c.file.Errorf("s3.access-key-file", "or s3.secret-key-file is not set; must both be, or those that end "+
			"in -env")
	}
	if c.Postgres.DSN == "" {
		return c.file.Errorf("postgres.dsn-file", "is not set; must be where sessions are in a bucket, as the nodes "+
			"need one logbook of them")
	}
	s.TLS, err = c.trust("s3", s.CA, "", "")
	return err
}

// Bounds of the times.
const (
	leastBeat = 50 * time.Millisecond
	mostDead  = time.Minute
)

func (c *Config) checkBounds() error {
	t := &c.Times
	switch {
	case t.Heartbeat.Duration < leastBeat:
		return c.file.Errorf("times.heartbeat", "is %v; must be at least %v", t.Heartbeat.Duration, leastBeat)
	case t.Dead.Duration < 3*t.Heartbeat.Duration || t.Dead.Duration > mostDead:
		return c.file.Errorf("times.dead", "is %v; must be between three heartbeats and %v", t.Dead.Duration, mostDead)
	}
	return c.between("waiting.station-mb", c.Waiting.Station, 1, 1000,
		c.between("waiting.all-mb", c.Waiting.All, c.Waiting.Station, 100_000, nil))
}

// path is a file that is named relative to the cluster's file.
func (c *Config) path(name string) string {
	if name == "" || filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(c.dir, name)
}

// mostSecret is the longest secret, in bytes.
const mostSecret = 16 << 10

// secret reads one from a file or an environment variable; "" where neither is set.
func (c *Config) secret(key, file, variable string) (string, error) {
	switch {
	case file != "" && variable != "":
		return "", c.file.Errorf(key+"-file", "and %s-env are both set; must be one of them", key)
	case variable != "":
		text, ok := c.env(variable)
		if !ok || text == "" {
			return "", c.file.Errorf(key+"-env", "names the environment variable %s, which is not set", variable)
		}
		return text, nil
	case file == "":
		return "", nil
	}
	info, err := os.Stat(c.path(file))
	if err == nil && (!info.Mode().IsRegular() || info.Size() > mostSecret) {
		return "", c.file.Errorf(key+"-file", "names %s, which is not a small file", file)
	}
	data := []byte(nil)
	if err == nil {
		data, err = os.ReadFile(c.path(file))
	}
	if err != nil {
		return "", c.file.Errorf(key+"-file", "names %s, which cannot be read: %v", file, strict.WithoutName(err))
	}
	if text := strings.TrimSpace(string(data)); text != "" {
		return text, nil
	}
	return "", c.file.Errorf(key+"-file", "names %s, which is empty", file)
}

// trust is TLS by one's own authority and certificate; nil where neither is named.
func (c *Config) trust(table, ca, certificate, key string) (*tls.Config, error) {
	if ca == "" && certificate == "" && key == "" {
		return nil, nil
	}
	t := &tls.Config{MinVersion: tls.VersionTLS12}
	if ca != "" {
		data, err := os.ReadFile(c.path(ca))
		if err != nil {
			return nil, c.file.Errorf(table+".ca", "names %s, which cannot be read: %v", ca, strict.WithoutName(err))
		}
		t.RootCAs = x509.NewCertPool()
		if !t.RootCAs.AppendCertsFromPEM(data) {
			return nil, c.file.Errorf(table+".ca", "names %s, which holds no certificate", ca)
		}
	}
	if certificate == "" && key == "" {
		return t, nil
	}
	pair, err := tls.LoadX509KeyPair(c.path(certificate), c.path(key))
	if err != nil {
		return nil, c.file.Errorf(table+".certificate", "and its key cannot be used: %v", strict.WithoutName(err))
	}
	t.Certificates = []tls.Certificate{pair}
	return t, nil
}
