package live

import (
	"crypto/tls"

	"halfturn/cmd/halfturn/base"
	"halfturn/coach/storage"
	"halfturn/configs/settings"
	"halfturn/stream/phrase"
	"halfturn/web/access"
)

// openPeople opens the list of people, and makes what lets them in.
func (s *Server) openPeople(dir string) (err error) {
	if s.people, err = s.storage(dir).People(); err != nil {
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

// storage is where the logbook and the list of people are kept.
func (s *Server) storage(dir string) storage.Place {
	if s.options.Storage != nil {
		return *s.options.Storage
	}
	return storage.Directory(dir)
}

// certificate reads that of the configuration; nil where there is none.
func certificate(cfg *settings.Config, in *phrase.Language) (*tls.Certificate, error) {
	if !cfg.TLS.On() {
		return nil, nil
	}
	pair, err := tls.LoadX509KeyPair(cfg.TLS.Certificate, cfg.TLS.Key)
	if err != nil {
		return nil, settings.NewError(cfg.Blame("tls.certificate",
			base.Failf(in, "the certificate and its key cannot be used: %w", err)))
	}
	return &pair, nil
}

// secure is how the pages are served over TLS; nil where they are not. A certificate that is read again serves the
// connections that are opened after that.
func (s *Server) secure() (*tls.Config, error) {
	pair, err := certificate(s.options.Config, s.options.Words)
	if pair == nil {
		return nil, err
	}
	s.certificate.Store(pair)
	return &tls.Config{
		GetCertificate: func(*tls.ClientHelloInfo) (*tls.Certificate, error) { return s.certificate.Load(), nil },
		MinVersion:     tls.VersionTLS12,
		NextProtos:     []string{"http/1.1"}, // the live socket needs a connection of its own
	}, nil
}
