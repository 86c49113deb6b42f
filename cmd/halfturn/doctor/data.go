package doctor

import (
	"io/fs"
	"path/filepath"
	"slices"
	"time"

	"halfturn/coach/archive/folder"
)

// assumedPerHour is what an hour of flight takes where none was flown: 60 datagrams a second of 200 bytes, with the 60
// bytes that the recording adds to each, uncompressed.
const assumedPerHour = 60 * 3600 * (200 + 60)

// Of how many sessions, the newest first, the size is measured, and how long one must be at least.
const (
	mostMeasured  = 20
	leastMeasured = 30 * time.Second
)

// measured says how many bytes an hour of flight takes by the newest sessions of a data directory, 0 where they do not
// say, and when the newest one ended. ok is false where there is none.
func measured(data string) (perHour int64, newest time.Time, ok bool) {
	ids, err := folder.IDs(folder.Sessions(data))
	if err != nil || len(ids) == 0 {
		return 0, newest, false
	}
	slices.Sort(ids) // they begin with the time
	var bytes int64
	var flown time.Duration
	for _, id := range ids[max(0, len(ids)-mostMeasured):] {
		dir := filepath.Join(folder.Sessions(data), id)
		report, there, err := folder.ReadReport(filepath.Join(dir, "summary.json"))
		if err != nil || !there || report.Session == nil {
			continue
		}
		began, err1 := time.Parse(time.RFC3339, report.Session.Began)
		ended, err2 := time.Parse(time.RFC3339, report.Session.Ended)
		if err1 != nil || err2 != nil {
			continue
		}
		if ended.After(newest) {
			newest = ended
		}
		if took := ended.Sub(began); took >= leastMeasured {
			flown += took
			bytes += sizeOf(dir)
		}
	}
	if flown > 0 {
		perHour = int64(float64(bytes) / flown.Hours())
	}
	return perHour, newest, true
}

// sizeOf is how many bytes the files of a folder take.
func sizeOf(dir string) (n int64) {
	_ = filepath.WalkDir(dir, func(_ string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return nil // what cannot be read is not counted
		}
		if info, err := e.Info(); err == nil {
			n += info.Size()
		}
		return nil
	})
	return n
}
