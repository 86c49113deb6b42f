package main

import (
	"time"

	"halfturn/coach/archive"
	"halfturn/configs/settings"
	"halfturn/web/desk"
)

const megabyte = 1_000_000

// recordingOf says to the desk how sessions are recorded; nil when nothing is to be recorded.
func recordingOf(c *settings.Config) *desk.Recording {
	r := &c.Recording
	if !r.Enabled {
		return nil
	}
	return &desk.Recording{
		Rotate:   int64(r.Rotate) * megabyte,
		Compress: r.Compress,
		Retention: archive.Retention{
			Age:  time.Duration(r.KeepDays) * 24 * time.Hour,
			Size: int64(r.KeepSize) * megabyte,
		},
	}
}
