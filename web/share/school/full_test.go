package school_test

import (
	"os"
	"path/filepath"
	"testing"
	"testing/synctest"
	"time"

	"halfturn/stream/phrase"
	"halfturn/stream/record"
)

// TestDiskFull: while the disk of the school is full, the link stays, the desk shows what is flown and says that it is
// not recorded, and why; once there is room, what is missing comes, and the recordings are equal to the byte. The error
// is that of Linux's /dev/full: full(4).
func TestDiskFull(t *testing.T) {
	const full = "/dev/full"
	if _, err := os.Stat(full); err != nil {
		t.Skip("this system has no device that is always full")
	}
	synctest.Test(t, func(t *testing.T) {
		doors := &pipes{}
		b := newBuilding(t, t.TempDir(), keys, doors)
		h := newHouse(t, t.TempDir(), "key-of-ada", doors, none)
		f := h.fly(t, 1)
		f.goOn(10 * time.Second)
		session := h.only(t)
		parts, err := record.Parts(filepath.Join(b.book.Dir(), session))
		if err != nil || len(parts) == 0 {
			t.Fatal(parts, err)
		}
		last := parts[len(parts)-1]
		doors.set(true) // lets go of the file
		synctest.Wait()
		if err := os.Rename(last, last+".aside"); err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(full, last); err != nil {
			t.Fatal(err)
		}
		doors.set(false)
		f.goOn(10 * time.Second)
		for range 20 {
			f.goOn(time.Second)
			s := b.info("Ada's seat")
			if s == nil || s.Link != "live" || !s.Share.Up || s.Recording != "failing" ||
				s.RecordingWords.Code() != phrase.NoRoom.Of().Code() {
				t.Errorf("while the disk is full the school shows %+v", s)
				break
			}
		}
		if err := os.Rename(last+".aside", last); err != nil {
			t.Fatal(err)
		}
		f.goOn(15 * time.Second)
		if s := b.info("Ada's seat"); s == nil || s.Recording != "on" {
			t.Errorf("once there is room the school shows %+v", s)
		}
		f.goOn(time.Hour)
		f.handler.End()
		equal(t, h, session, b, b.complete(t, "Ada's seat", session))
		h.close(t)
		b.close(t)
	})
}
