package certificates

import (
	"bytes"
	"crypto/tls"
	"crypto/x509"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"halfturn/cmd/halfturn/base"
)

func none(string) (string, bool) { return "", false }

// run runs the command with a data directory, and returns what it prints.
func run(t *testing.T, data string, names ...string) string {
	t.Helper()
	var out bytes.Buffer
	c := initCmd{Data: data, Name: names}
	if err := c.Run(base.Streams{Out: &out, Err: io.Discard, Env: none}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// A client that trusts the authority, and nothing else, reaches a server with the certificate by its names, and by no
// other name.
func TestServe(t *testing.T) {
	data := t.TempDir()
	says := run(t, data, "desk.example", "192.0.2.7")
	dir := filepath.Join(data, "tls")
	pair, err := tls.LoadX509KeyPair(filepath.Join(dir, serverFile), filepath.Join(dir, serverKey))
	if err != nil {
		t.Fatal(err)
	}
	l, err := tls.Listen("tcp", "127.0.0.1:0", &tls.Config{Certificates: []tls.Certificate{pair}})
	if err != nil {
		t.Fatal(err)
	}
	srv := &http.Server{
		Handler:           http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) { io.WriteString(w, "page") }),
		ReadHeaderTimeout: time.Second,
	}
	done := make(chan error, 1)
	go func() { done <- srv.Serve(l) }()
	defer func() { srv.Close(); <-done }()
	trusted := x509.NewCertPool()
	text, err := os.ReadFile(filepath.Join(dir, authorityFile))
	if err != nil || !trusted.AppendCertsFromPEM(text) {
		t.Fatalf("the authority: %v", err)
	}
	for name, good := range map[string]bool{
		"localhost": true, "127.0.0.1": true, "desk.example": true, "192.0.2.7": true, "evil.example": false,
		"192.0.2.8": false,
	} {
		c, err := tls.DialWithDialer(&net.Dialer{Timeout: 5 * time.Second}, "tcp", l.Addr().String(),
			&tls.Config{RootCAs: trusted, ServerName: name})
		if (err == nil) != good {
			t.Errorf("%s: %v; must be trusted: %v", name, err, good)
		}
		if err == nil {
			c.Close()
		}
	}
	if _, err := tls.Dial("tcp", l.Addr().String(), &tls.Config{ServerName: "localhost"}); err == nil {
		t.Error("somebody who was told nothing trusts it")
	}
	for _, system := range []string{"Windows", "macOS", "Debian", "Fedora", "iPhone", "Android", "Firefox"} {
		if !strings.Contains(says, system) {
			t.Errorf("nothing is said of %s", system)
		}
	}
	for file, mode := range map[string]os.FileMode{authorityKey: 0o600, serverKey: 0o600, serverFile: 0o644} {
		if info, err := os.Stat(filepath.Join(dir, file)); err != nil || info.Mode().Perm() != mode {
			t.Errorf("%s: %v, %v; must be %v", file, info.Mode(), err, mode)
		}
	}
}

// A further run keeps the authority, for the other devices trust it; a broken one is not written over.
func TestAgain(t *testing.T) {
	data := t.TempDir()
	run(t, data)
	dir := filepath.Join(data, "tls")
	read := func(name string) string {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	authority, server := read(authorityFile), read(serverFile)
	if says := run(t, data); !strings.Contains(says, "the same as before") || strings.Contains(says, "certutil") {
		t.Errorf("the second run says %s", says)
	}
	if read(authorityFile) != authority || read(serverFile) == server {
		t.Error("the authority is another one, or the certificate is not")
	}
	if err := os.WriteFile(filepath.Join(dir, authorityKey), []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	c := initCmd{Data: data}
	if err := c.Run(base.Streams{Out: io.Discard, Env: none}); err == nil || !strings.Contains(err.Error(), "PEM") {
		t.Errorf("a broken key: %v", err)
	}
	if read(authorityFile) != authority {
		t.Error("a broken authority is written over")
	}
}
