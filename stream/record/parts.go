package record

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/klauspost/compress/zstd"

	"halfturn/stream/capture"
)

// partFile is a file of a recording: its number, and whether it is compressed.
var partFile = regexp.MustCompile(`^stream-(\d{4,})\.pcapng(\.zst)?$`)

// PartName is the name of the n-th file of a recording, from 1.
func PartName(n int) string { return fmt.Sprintf("stream-%04d.pcapng", n) }

// PartNumber returns which file of a recording a name is that of, from 1; 0 when it is not one of a recording.
func PartNumber(name string) int {
	m := partFile.FindStringSubmatch(filepath.Base(name))
	if m == nil {
		return 0
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		return 0
	}
	return n
}

// IsPart reports whether a file of this name is one of a recording.
func IsPart(name string) bool { return partFile.MatchString(name) }

// Parts returns the files of the recording in a folder in the order in which they were written.
// Where a file exists both compressed and not, because the uncompressed one was not removed yet, one is returned.
func Parts(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	type part struct {
		n    int
		name string
	}
	var parts []part
	for _, e := range entries {
		m := partFile.FindStringSubmatch(e.Name())
		if m == nil || !e.Type().IsRegular() {
			continue
		}
		n, err := strconv.Atoi(m[1])
		if err != nil {
			continue
		}
		if k := slices.IndexFunc(parts, func(p part) bool { return p.n == n }); k >= 0 {
			if m[2] == "" {
				parts[k].name = e.Name()
			}
			continue
		}
		parts = append(parts, part{n, e.Name()})
	}
	slices.SortFunc(parts, func(a, b part) int { return a.n - b.n })
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = filepath.Join(dir, p.name)
	}
	return names, nil
}

// lastPart returns the number of the last file in a folder, 0 when there is none.
func lastPart(dir string) int {
	parts, err := Parts(dir)
	if err != nil || len(parts) == 0 {
		return 0
	}
	return PartNumber(parts[len(parts)-1])
}

// mostTorn is the most that is cut off the end of a file, bytes: what may have been being
// written when the power failed. More than that is damage in the middle, and what follows it may be readable.
const mostTorn = 4 << 20

// Repair cuts the files of a recording that was not closed back to their last whole block, and
// returns how many bytes each lost, by name. A file that was torn within its head holds nothing and is removed,
// and so is what Tidy removes.
func Repair(dir string) (cut map[string]int64, err error) {
	parts, err := Parts(dir)
	if err == nil {
		err = Tidy(dir)
	}
	if err != nil {
		return nil, err
	}
	cut = map[string]int64{}
	for _, name := range parts {
		if strings.HasSuffix(name, ".zst") {
			continue // complete, otherwise it would not have its name
		}
		n, failed := repair(name)
		if n > 0 {
			cut[filepath.Base(name)] = n
		}
		err = errors.Join(err, failed)
	}
	return cut, err
}

// leastHead is how many bytes of a file are needed to recognize it.
const leastHead = 4

func repair(name string) (cut int64, err error) {
	f, err := os.OpenFile(name, os.O_RDWR, 0)
	if err != nil {
		return 0, err
	}
	empty := false
	defer func() {
		if err = errors.Join(err, f.Close()); empty && err == nil {
			err = os.Remove(name)
		}
	}()
	info, err := f.Stat()
	if err != nil {
		return 0, err
	}
	whole, err := capture.Whole(f)
	var format *capture.FormatError
	cut = info.Size() - whole.Bytes
	switch {
	case info.Size() < leastHead, err == nil && whole.Interfaces == 0 && cut <= mostTorn:
		empty = true // torn within its head
		return info.Size(), nil
	case errors.As(err, &format):
		return 0, nil // not ours
	case err != nil:
		return 0, err
	case cut == 0, cut > mostTorn:
		return 0, nil
	}
	if err := f.Truncate(whole.Bytes); err != nil {
		return 0, err
	}
	return cut, f.Sync()
}

// halfCompressed begins the names of files that Compress has not finished.
const halfCompressed = ".zst-"

// Compress compresses a complete file by zstd and removes it once the compressed one is on the disk. Where it
// is stopped on the way, Tidy and the next Compress of the file clear up.
func Compress(name string) error { return compress(name, func(string) {}) }

// compress calls done after each step, where a test may stop it.
func compress(name string, after func(step string)) (err error) {
	in, err := os.Open(name)
	if err != nil {
		return err
	}
	defer in.Close()
	part := filepath.Join(filepath.Dir(name), halfCompressed+filepath.Base(name))
	out, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o640)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(part))
		}
	}()
	after("create")
	z, err := zstd.NewWriter(out, zstd.WithEncoderConcurrency(1))
	if err != nil {
		return errors.Join(err, out.Close())
	}
	_, err = io.Copy(z, in)
	after("copy")
	if err = errors.Join(err, z.Close(), out.Sync(), out.Close()); err != nil {
		return err
	}
	after("sync")
	if err = os.Rename(part, name+".zst"); err != nil {
		return err
	}
	after("rename")
	// Otherwise a power failure might leave neither the old name nor the new one.
	if failed := syncDir(filepath.Dir(name)); failed != nil {
		return failed
	}
	return os.Remove(name)
}

// syncDir puts the names in a folder on the disk. Where folders cannot be synced, there is nothing to do.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	if err = d.Sync(); errors.Is(err, errors.ErrUnsupported) || errors.Is(err, os.ErrInvalid) ||
		errors.Is(err, os.ErrPermission) {
		err = nil
	}
	return errors.Join(err, d.Close())
}

// Tidy removes from the folder of a recording what a Compress that was stopped left there. It is for the owner of the
// folder, while nothing is compressed in it.
func Tidy(dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), halfCompressed) && e.Type().IsRegular() {
			err = errors.Join(err, os.Remove(filepath.Join(dir, e.Name())))
		}
	}
	return err
}

// unfinishedName marks the folder of a session that is not over.
const unfinishedName = "unfinished"

// IsMark reports whether a file of this name marks a session as unfinished.
func IsMark(name string) bool { return name == unfinishedName }

// Unfinished reports whether a session is not over.
func Unfinished(dir string) bool {
	_, err := os.Stat(filepath.Join(dir, unfinishedName))
	return err == nil
}

// Mark marks a session as unfinished.
func Mark(dir string) error {
	return os.WriteFile(filepath.Join(dir, unfinishedName), []byte("This session is not over, or the program that "+
		"recorded it was stopped. Its next start ends it.\n"), 0o640)
}

// Finish removes the mark.
func Finish(dir string) error {
	err := os.Remove(filepath.Join(dir, unfinishedName))
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	return err
}
