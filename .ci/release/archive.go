package main

import (
	"archive/tar"
	"archive/zip"
	"bufio"
	"compress/gzip"
	"crypto/sha256"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"
)

// A File is one file of an archive.
type File struct {
	Name    string
	Data    []byte
	Program bool // may be executed
}

// mode is the file's mode, the same wherever it is built.
func (f *File) mode() os.FileMode {
	if f.Program {
		return 0o755
	}
	return 0o644
}

// WriteArchive writes a target's archive, which holds one folder, and returns its name: a zip where a double click
// unpacks it, tar and gzip elsewhere. All files carry one time, so the same files give the same bytes.
func WriteArchive(into string, t Target, files []File, at time.Time) (string, error) {
	name, write := t.Name()+".zip", writeZip
	if t.System == "linux" {
		name, write = t.Name()+".tar.gz", writeTar
	}
	out, err := os.Create(filepath.Join(into, name))
	if err != nil {
		return "", err
	}
	buffered := bufio.NewWriter(out)
	err = write(buffered, t.Name(), files, at)
	if err == nil {
		err = buffered.Flush()
	}
	if closed := out.Close(); err == nil {
		err = closed
	}
	return name, err
}

func writeZip(w io.Writer, folder string, files []File, at time.Time) error {
	z := zip.NewWriter(w)
	for i := range files {
		f := &files[i]
		h := &zip.FileHeader{Name: path.Join(folder, f.Name), Method: zip.Deflate, Modified: at}
		h.SetMode(f.mode())
		out, err := z.CreateHeader(h)
		if err != nil {
			return err
		}
		if _, err := out.Write(f.Data); err != nil {
			return err
		}
	}
	return z.Close()
}

func writeTar(w io.Writer, folder string, files []File, at time.Time) error {
	packed, err := gzip.NewWriterLevel(w, gzip.BestCompression)
	if err != nil {
		return err
	}
	t := tar.NewWriter(packed)
	for i := range files {
		f := &files[i]
		err := t.WriteHeader(&tar.Header{
			Name:    path.Join(folder, f.Name),
			Mode:    int64(f.mode()),
			Size:    int64(len(f.Data)),
			ModTime: at,
			Format:  tar.FormatUSTAR,
		})
		if err != nil {
			return err
		}
		if _, err := t.Write(f.Data); err != nil {
			return err
		}
	}
	if err := t.Close(); err != nil {
		return err
	}
	return packed.Close()
}

// WriteSums writes the file SHA256SUMS of a folder's archives, as sha256sum -c reads it.
func WriteSums(into string, names []string) error {
	var b strings.Builder
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(into, name))
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(data), name)
	}
	return os.WriteFile(filepath.Join(into, "SHA256SUMS"), []byte(b.String()), 0o644)
}
