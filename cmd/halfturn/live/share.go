package live

import (
	"context"
	"errors"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"halfturn/coach/command"
	"halfturn/coach/maneuver"
	"halfturn/coach/people"
	"halfturn/coach/people/secret"
	"halfturn/coach/plan"
	"halfturn/coach/session"
	"halfturn/web/desk"
	"halfturn/web/desk/practice"
	"halfturn/web/hub"
	"halfturn/web/share/home"
	"halfturn/web/share/school"
)

// share makes what shares a station with a school, where that is configured, and what takes stations at home.
func (s *Server) share(hub *hub.Hub, o *desk.Config, reg prometheus.Registerer) error {
	if err := s.shareHome(hub, o); err != nil {
		return err
	}
	s.school = school.New(school.Options{
		Keys:     keys{s.people},
		Book:     s.book,
		Grade:    judge(s.config).Whole,
		Complete: func(file string) { s.desk.Complete(file) },
		Session:  func() session.Options { return s.desk.Options() },
		Plans:    func(c maneuver.Choice) (*plan.Plan, []*plan.Plan, error) { return s.desk.Plans(c) },
		Output:   s.shares(hub),
		Has:      func(station string) bool { return s.desk.Has(station) },
		Watching: hub.Audience,
		Idle:     o.Idle,
		Wait:     s.options.Config.Share.Wait.Duration,
		Log:      s.log,
		Faults:   s.faults,
	})
	o.Reserved = s.school.Has
	all := s.school.Collectors()
	if s.home != nil {
		all = append(all, s.home.Collectors()...)
	}
	for _, c := range all {
		if err := reg.Register(c); err != nil {
			return err
		}
	}
	return nil
}

// shares is where the messages of stations at home go.
func (s *Server) shares(hub *hub.Hub) session.Output {
	if s.node != nil {
		return s.node.Output(hub)
	}
	return hub
}

// shareHome makes what shares a station with a school, where that is configured.
func (s *Server) shareHome(hub *hub.Hub, o *desk.Config) error {
	cfg := s.options.Config
	if cfg.Share.URL == "" {
		return nil
	}
	at, err := cfg.Share.Address()
	if err != nil {
		return err
	}
	key, err := cfg.ShareKey()
	if err != nil {
		return err
	}
	trust, err := cfg.ShareTLS()
	if err != nil {
		return err
	}
	s.home, err = home.New(home.Options{
		URL:     at,
		Key:     key,
		Data:    cfg.Data,
		Station: cfg.Share.Station,
		Version: s.options.Version,
		TLS:     trust,
		Do:      func(ctx context.Context, c command.Command) error { return s.desk.Do(ctx, c) },
		Watched: hub.Elsewhere,
		Log:     s.log,
		Faults:  s.faults,
	}, time.Now())
	if err != nil {
		s.log.Warn().Err(err).Msg("sharing")
	}
	o.Tap = practice.Taps(o.Tap, s.home)
	return nil
}

// keys finds the stations of keys in the list of people.
type keys struct{ people.Stations }

// StationOf returns the name of the station of a key.
func (k keys) StationOf(ctx context.Context, key string, now time.Time) (string, error) {
	station, err := k.Stations.StationOf(ctx, secret.Hash(key), now)
	var none *people.NotFound
	if errors.As(err, &none) {
		return "", school.ErrNoKey
	}
	return station.Name, err
}
