package live

import (
	"crypto/tls"
	"path/filepath"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/people/sqlite"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web/access"
)

// openPeople opens the list of people, and makes what lets them in.
func (s *Server) openPeople(dir string) (err error) {
	if s.people, err = sqlite.Open(filepath.Join(dir, sqlite.FileName)); err != nil {
		return err
	}
	cfg := s.options.Config
	s.access = access.New(access.Config{
		Store: s.people,
		Home:  cfg.Access.HomeIsOwner,
		TLS:   cfg.TLS.On(),
		Log:   s.log,
	})
	return nil
}

// certificates are those of the configuration; nil where there are none.
func certificates(cfg *settings.Config, in *phrase.Language) (*tls.Config, error) {
	if !cfg.TLS.On() {
		return nil, nil
	}
	pair, err := tls.LoadX509KeyPair(cfg.TLS.Certificate, cfg.TLS.Key)
	if err != nil {
		return nil, settings.NewError(cfg.Blame("tls.certificate",
			base.Failf(in, "the certificate and its key cannot be used: %w", err)))
	}
	return &tls.Config{
		Certificates: []tls.Certificate{pair},
		MinVersion:   tls.VersionTLS12,
		NextProtos:   []string{"http/1.1"}, // the live socket needs a connection of its own
	}, nil
}
