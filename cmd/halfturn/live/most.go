package live

import (
	"github.com/rs/zerolog"

	"halfturn/cmd/halfturn/capacity"
	"halfturn/configs/settings"
)

// unmeasured is how many stations are taken where the machine could not be measured.
const unmeasured = 64

// mostStations is how many stations are taken: as many as the configuration says, or as this machine can take.
func mostStations(cfg *settings.Config, log zerolog.Logger) int {
	if cfg.MaxStations > 0 {
		return cfg.MaxStations
	}
	o, err := cfg.Session()
	var m capacity.Machine
	if err == nil {
		m, err = capacity.Measure(o)
	}
	if err != nil { // a card that cannot be used is reported by the desk
		log.Debug().Err(err).Int("stations", unmeasured).Msg("how many stations this machine can take is not known")
		return unmeasured
	}
	n := m.Stations()
	log.Info().Int("stations", n).Dur("sample", m.Sample).Int("processors", m.Processors).
		Msg("as many stations are taken as this machine can do; the key max-stations in the configuration changes that")
	return n
}
