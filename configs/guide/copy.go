package guide

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"net/netip"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"halfturn/configs"
)

// Copy writes the files for simulators into a folder, which it makes where there is none, never over others. A file
// that is there already with the same text is left as it is. written is called with the path of each.
func Copy(dir string, written func(path string)) error {
	return fs.WalkDir(configs.FS, "simulators", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasSuffix(name, "guides.toml") {
			return err
		}
		data, err := configs.FS.ReadFile(name)
		if err != nil {
			return err
		}
		path := filepath.Join(dir, filepath.FromSlash(strings.TrimPrefix(name, "simulators/")))
		if err := writeNew(path, data); err != nil {
			return err
		}
		written(path)
		return nil
	})
}

// File returns a file that a guide lists, by the names of both; ok is false where there is no such guide or file.
func File(name, file string) (data []byte, ok bool, err error) {
	list, err := All()
	if err != nil {
		return nil, false, err
	}
	for i := range list {
		if list[i].Name == name && slices.Contains(list[i].Files, file) {
			data, err = configs.FS.ReadFile("simulators/" + file)
			return data, err == nil, err
		}
	}
	return nil, false, nil
}

// Addressed returns a shipped file that sends to another host and port than Halfturn's usual ones, which stand in it.
func Addressed(file []byte, host netip.Addr, port uint16) []byte {
	file = bytes.ReplaceAll(file, []byte("127.0.0.1"), []byte(host.String()))
	return bytes.ReplaceAll(file, []byte("7181"), strconv.AppendUint(nil, uint64(port), 10))
}

// writeNew writes a file that is not there yet.
func writeNew(path string, data []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		if same(path, data) {
			return nil
		}
		return fmt.Errorf("%s is there already and differs; move it away, or choose another folder", path)
	}
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Close())
}

// same reports whether a file holds exactly these bytes.
func same(path string, data []byte) bool {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return false // a pipe would be waited for
	}
	old, err := os.ReadFile(path)
	return err == nil && string(old) == string(data)
}
