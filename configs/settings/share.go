package settings

import (
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net/netip"
	"net/url"
	"os"
	"strings"
	"time"

	"halfturn/coach/names"
)

// Share says with which Halfturn a station is shared.
type Share struct {
	URL     string `toml:"url"`      // "" is none
	KeyFile string `toml:"key-file"` // of the station
	Station string `toml:"station"`  // "" is the first that flies
	CA      string `toml:"ca"`       // certificates that vouch for the school; "" are those of the system
	// At a school: how long a home may have no link before its session is ended without it.
	Wait Duration `toml:"wait"`
}

// mostShareWait is a month.
const mostShareWait = 720 * time.Hour

// ShareWith takes --share and --station-key; nil is a flag that was not given.
func (c *Config) ShareWith(url, keyFile *string) {
	SetFrom(c, "share.url", "--share", &c.Share.URL, url)
	SetFrom(c, "share.key-file", "--station-key", &c.Share.KeyFile, keyFile)
}

func (c *Config) validateShare() error {
	s := &c.Share
	if s.Wait.Duration < time.Minute || s.Wait.Duration > mostShareWait {
		return c.Errorf("share.wait", "is %v; must be between 1m and 720h", s.Wait.Duration)
	}
	if s.URL == "" {
		return nil
	}
	if _, err := s.Address(); err != nil {
		return c.Errorf("share.url", "%v", err)
	}
	switch {
	case s.KeyFile == "":
		return c.Errorf("share.key-file",
			"is empty; must be the file with the key that the school gave (--station-key)")
	case !c.Recording.Enabled:
		return c.Errorf("recording.enabled",
			"is false; must be true where a station is shared: recordings are what is sent")
	}
	if s.Station == "" {
		return nil
	}
	if _, err := names.Station(s.Station); err != nil {
		return c.Errorf("share.station", "%v", err)
	}
	return nil
}

// Address is where the school is. A key is sent in the clear to this machine alone.
func (s *Share) Address() (*url.URL, error) {
	u, err := url.Parse(s.URL)
	if err != nil || u.Host == "" || u.User != nil || u.RawQuery != "" || u.Fragment != "" {
		return nil, fmt.Errorf("is %q; must be the address of the school, such as https://desk.example", s.URL)
	}
	if u.Scheme != "https" && !(u.Scheme == "http" && isThisMachine(u.Hostname())) {
		return nil, fmt.Errorf("is %q; must begin with https://, so that nobody on the way reads the key", s.URL)
	}
	return u, nil
}

func isThisMachine(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback()
}

// mostKeyFile is the longest file of a key, bytes.
const mostKeyFile = 4 << 10

// ShareKey reads the key of the station.
func (c *Config) ShareKey() (string, error) {
	text, err := os.ReadFile(c.Share.KeyFile)
	key := strings.TrimSpace(string(text))
	switch {
	case err != nil:
	case key == "" || len(text) > mostKeyFile || strings.ContainsFunc(key, notInKey):
		err = fmt.Errorf("%s holds no key; must be the file that halfturn stations add wrote", c.Share.KeyFile)
	default:
		return key, nil
	}
	return "", Error{c.Blame("share.key-file", fmt.Errorf("the key of the station cannot be read: %w", err))}
}

func notInKey(r rune) bool { return r <= ' ' || r > '~' }

// ShareTLS says whom a school's certificate must come from.
func (c *Config) ShareTLS() (*tls.Config, error) {
	o := &tls.Config{MinVersion: tls.VersionTLS12}
	if c.Share.CA == "" {
		return o, nil
	}
	text, err := os.ReadFile(c.Share.CA)
	o.RootCAs = x509.NewCertPool()
	if err == nil && !o.RootCAs.AppendCertsFromPEM(text) {
		err = errors.New("it holds no certificate in PEM")
	}
	if err != nil {
		return nil, Error{c.Blame("share.ca", fmt.Errorf("the certificates of %s cannot be used: %w", c.Share.CA, err))}
	}
	return o, nil
}
