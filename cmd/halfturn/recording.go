package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"time"

	"halfturn/coach/archive"
	"halfturn/configs/strict"
	"halfturn/web/desk"
)

// recordingConfig says how sessions are recorded.
type recordingConfig struct {
	Enabled  bool `toml:"enabled"`
	Rotate   int  `toml:"rotate-size"` // MB
	Compress bool `toml:"compress"`
	KeepDays int  `toml:"keep-days"`
	KeepSize int  `toml:"keep-size"` // MB
}

const megabyte = 1_000_000

func (r *recordingConfig) validate(f *origins) error {
	switch {
	case r.Rotate < 1 || r.Rotate > 100_000:
		return f.Errorf("recording.rotate-size", "is %d; allowed: 1 to 100000 MB", r.Rotate)
	case r.KeepDays < 0 || r.KeepDays > 100_000:
		return f.Errorf("recording.keep-days", "is %d; allowed: 0 (for ever) to 100000", r.KeepDays)
	case r.KeepSize < 0 || r.KeepSize > 100_000_000:
		return f.Errorf("recording.keep-size", "is %d; allowed: 0 (no limit) to 100000000 MB", r.KeepSize)
	}
	return nil
}

// recording is that for the desk, nil when nothing is to be recorded.
func (c *config) recording() *desk.Recording {
	r := &c.Recording
	if !r.Enabled {
		return nil
	}
	return &desk.Recording{Rotate: int64(r.Rotate) * megabyte, Compress: r.Compress,
		Retention: archive.Retention{Age: time.Duration(r.KeepDays) * 24 * time.Hour, Size: int64(r.KeepSize) * megabyte}}
}

// mapsHash stands for the user's column maps and what else decides how streams are read.
func (c *config) mapsHash() (string, error) {
	h := sha256.New()
	fmt.Fprintln(h, c.Rows, c.Standard)
	for _, name := range c.Maps {
		data, err := strict.ReadFile(name)
		if err != nil {
			return "", usagef("the map cannot be read: %v", err)
		}
		h.Write(data)
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
