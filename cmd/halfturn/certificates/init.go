// Package certificates holds the command that makes what serves the pages over TLS in one's own network: an authority,
// a certificate of this machine that it vouches for, and what to do on each system so that browsers believe it.
package certificates

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"crypto/x509/pkix"
	"encoding/pem"
	"math/big"
	"net"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
	"halfturn/stream/phrase"
	"halfturn/web/lan"
)

// Command is what is done for TLS.
type Command struct {
	Init initCmd `cmd:"" help:"Make a local authority and a certificate of this machine, and say what to do with them."`
}

type initCmd struct {
	Config string   `help:"Configuration file; HALFTURN_CONFIG names one too." placeholder:"FILE" type:"path"`
	Data   string   `help:"Data directory; the files go into its folder tls." placeholder:"DIR" type:"path"`
	Name   []string `help:"Further host name or address of this machine; repeatable." placeholder:"HOST"`
}

// Help says what else there is to know.
func (initCmd) Help() string {
	return "A further run makes a new certificate by the same authority, so that nothing has to be done again on the " +
		"other devices: when it has run out, or this machine has another name or address."
}

// How long they last. A browser takes no certificate of a server that lasts longer than 398 days (CA/Browser Forum,
// Baseline Requirements, 6.3.2); of a local authority some take 825.
const (
	authorityLasts = 10 * 365 * 24 * time.Hour
	serverLasts    = 397 * 24 * time.Hour
	before         = time.Hour // clocks differ
)

// The files.
const (
	authorityFile = "authority.pem"
	authorityKey  = "authority-key.pem"
	serverFile    = "server.pem"
	serverKey     = "server-key.pem"
)

// Run makes the files and prints what to do.
func (c *initCmd) Run(s base.Streams) error {
	cfg, err := base.Load(&base.Flags{Config: c.Config}, s.Env)
	if err != nil {
		return err
	}
	dir, err := base.DataDir(s.Language, cfg, c.Data)
	if err != nil {
		return err
	}
	dir = filepath.Join(dir, "tls")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	hosts := append(machine(), cfg.Hosts...)
	hosts = append(hosts, c.Name...)
	now := time.Now()
	by, fresh, err := authorityIn(s.Language, dir, now)
	if err != nil {
		return err
	}
	if err := by.serve(s.Language, dir, hosts, now); err != nil {
		return err
	}
	return instruct(s.Out, s.Language, dir, hosts, fresh, now.Add(serverLasts))
}

// machine lists the names and addresses of this machine.
func machine() []string {
	hosts := []string{"localhost", "127.0.0.1", "::1"}
	if name, err := os.Hostname(); err == nil && name != "" {
		name = strings.ToLower(name)
		hosts = append(hosts, name)
		if !strings.Contains(name, ".") {
			hosts = append(hosts, name+".local") // multicast DNS, RFC 6762
		}
	}
	for _, ip := range lan.Addresses() {
		hosts = append(hosts, ip.String())
	}
	return hosts
}

// An authority vouches for certificates.
type authority struct {
	certificate *x509.Certificate
	key         *ecdsa.PrivateKey
}

// authorityIn reads the authority of a folder, or makes one; fresh is whether it did.
func authorityIn(in *phrase.Language, dir string, now time.Time) (a *authority, fresh bool, err error) {
	file := filepath.Join(dir, authorityFile)
	if _, err := os.Stat(file); err == nil {
		a, err := readAuthority(in, dir)
		if err != nil {
			return nil, false, base.Failf(in,
				"the authority in %s cannot be used: %w; move both files away to make another", file, err)
		}
		if now.After(a.certificate.NotAfter) {
			return nil, false, base.Failf(in, "the authority in %s has run out; move it away to make another",
				file)
		}
		return a, false, nil
	}
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return nil, false, err
	}
	host, _ := os.Hostname()
	t := &x509.Certificate{
		SerialNumber:          serial(),
		Subject:               pkix.Name{CommonName: "Halfturn at " + host},
		NotBefore:             now.Add(-before),
		NotAfter:              now.Add(authorityLasts),
		IsCA:                  true,
		BasicConstraintsValid: true,
		MaxPathLenZero:        true,
		KeyUsage:              x509.KeyUsageCertSign,
	}
	der, err := x509.CreateCertificate(rand.Reader, t, t, &key.PublicKey, key)
	if err != nil {
		return nil, false, err
	}
	if err := write(dir, authorityFile, authorityKey, key, der); err != nil {
		return nil, false, err
	}
	a, err = readAuthority(in, dir)
	return a, true, err
}

func readAuthority(in *phrase.Language, dir string) (*authority, error) {
	cert, err := block(in, filepath.Join(dir, authorityFile))
	if err != nil {
		return nil, err
	}
	key, err := block(in, filepath.Join(dir, authorityKey))
	if err != nil {
		return nil, err
	}
	a := &authority{}
	if a.certificate, err = x509.ParseCertificate(cert); err != nil {
		return nil, err
	}
	parsed, err := x509.ParsePKCS8PrivateKey(key)
	if err != nil {
		return nil, err
	}
	var ok bool
	if a.key, ok = parsed.(*ecdsa.PrivateKey); !ok || !a.key.PublicKey.Equal(a.certificate.PublicKey) {
		return nil, base.Failf(in, "%s is not its key", authorityKey)
	}
	return a, nil
}

// block reads the first block of a PEM file.
func block(in *phrase.Language, file string) ([]byte, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	b, _ := pem.Decode(data)
	if b == nil {
		return nil, base.Failf(in, "%s is no PEM file", filepath.Base(file))
	}
	return b.Bytes, nil
}

// serve makes the certificate of a server with these names and addresses.
func (a *authority) serve(in *phrase.Language, dir string, hosts []string, now time.Time) error {
	key, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		return err
	}
	until := now.Add(serverLasts)
	if until.After(a.certificate.NotAfter) {
		until = a.certificate.NotAfter
	}
	t := &x509.Certificate{
		SerialNumber: serial(),
		Subject:      pkix.Name{CommonName: "Halfturn"},
		NotBefore:    now.Add(-before),
		NotAfter:     until,
		KeyUsage:     x509.KeyUsageDigitalSignature,
		ExtKeyUsage:  []x509.ExtKeyUsage{x509.ExtKeyUsageServerAuth},
	}
	for _, host := range hosts {
		if ip, err := netip.ParseAddr(strings.Trim(host, "[]")); err == nil {
			t.IPAddresses = append(t.IPAddresses, net.IP(ip.AsSlice()))
		} else if !slices.Contains(t.DNSNames, host) {
			t.DNSNames = append(t.DNSNames, host)
		}
	}
	der, err := x509.CreateCertificate(rand.Reader, t, a.certificate, &key.PublicKey, a.key)
	if err != nil {
		return base.Failf(in, "the certificate cannot be made for %s: %w", strings.Join(hosts, ", "), err)
	}
	return write(dir, serverFile, serverKey, key, der, a.certificate.Raw)
}

// serial is a random serial number of 128 bits.
func serial() *big.Int {
	n, err := rand.Int(rand.Reader, new(big.Int).Lsh(big.NewInt(1), 127))
	if err != nil {
		panic(err) // documented never to happen
	}
	return n
}

// write writes certificates, and the key of the first, which only the user can read.
func write(dir, file, keyFile string, key *ecdsa.PrivateKey, certificates ...[]byte) error {
	der, err := x509.MarshalPKCS8PrivateKey(key)
	if err != nil {
		return err
	}
	text := pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: der})
	if err := replace(filepath.Join(dir, keyFile), text, 0o600); err != nil {
		return err
	}
	text = nil
	for _, c := range certificates {
		text = append(text, pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: c})...)
	}
	return replace(filepath.Join(dir, file), text, 0o644)
}

// replace writes a file whole or not at all.
func replace(file string, text []byte, mode os.FileMode) error {
	next := file + ".new"
	_ = os.Remove(next)
	if err := os.WriteFile(next, text, mode); err != nil {
		return err
	}
	return os.Rename(next, file)
}
