package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"halfturn/coach"
	"halfturn/stream/phrase"
	"halfturn/web/languages"
)

// Systems and processors that must be there: those of home simulators and of what stands beside them.
func TestTargets(t *testing.T) {
	for _, system := range []string{"windows", "darwin", "linux"} {
		for _, processor := range []string{"amd64", "arm64"} {
			if !slices.Contains(Targets, Target{system, processor}) {
				t.Errorf("nothing is built for %s/%s", system, processor)
			}
		}
	}
	names := map[string]bool{}
	for _, target := range Targets {
		names[target.Name()] = true
	}
	if len(names) != len(Targets) {
		t.Errorf("the archives' names are %v; must differ", slices.Sorted(maps.Keys(names)))
	}
}

// The same files give the same bytes, whenever they are packed, and the sums are those of the archives.
func TestArchivesAreReproducible(t *testing.T) {
	files := []File{
		{Name: "halfturn", Data: bytes.Repeat([]byte("program "), 999), Program: true},
		{Name: "START.txt", Data: []byte("start\n")},
	}
	at := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	for _, target := range []Target{{"windows", "amd64"}, {"linux", "arm64"}} {
		var was []byte
		for range 2 {
			dir := t.TempDir()
			name, err := WriteArchive(dir, target, files, at)
			if err != nil {
				t.Fatal(err)
			}
			is, err := os.ReadFile(filepath.Join(dir, name))
			if err != nil {
				t.Fatal(err)
			}
			if was != nil && !bytes.Equal(was, is) {
				t.Errorf("%s: packed twice, it differs", name)
			}
			was = is
			if err := WriteSums(dir, []string{name}); err != nil {
				t.Fatal(err)
			}
			sums, err := os.ReadFile(filepath.Join(dir, "SHA256SUMS"))
			if err != nil {
				t.Fatal(err)
			}
			if want := fmt.Sprintf("%x  %s\n", sha256.Sum256(is), name); string(sums) != want {
				t.Errorf("the sums are %q; must be %q", sums, want)
			}
		}
	}
}

// What is unpacked is what was packed, in one folder; the program may be executed, the rest not.
func TestArchivesHoldTheFiles(t *testing.T) {
	files := []File{{Name: "halfturn", Data: []byte("p"), Program: true}, {Name: "START.txt", Data: []byte("s")}}
	at := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	for target, unpack := range map[Target]func(*testing.T, []byte) map[string]string{
		{"windows", "amd64"}: unzip,
		{"darwin", "arm64"}:  unzip,
		{"linux", "amd64"}:   untar,
	} {
		dir := t.TempDir()
		name, err := WriteArchive(dir, target, files, at)
		if err != nil {
			t.Fatal(err)
		}
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]string{
			target.Name() + "/halfturn":  "-rwxr-xr-x p 2026-03-01",
			target.Name() + "/START.txt": "-rw-r--r-- s 2026-03-01",
		}
		if got := unpack(t, data); !maps.Equal(got, want) {
			t.Errorf("%s holds %v; must hold %v", name, got, want)
		}
	}
}

func unzip(t *testing.T, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		all[f.Name] = fmt.Sprint(f.Mode(), " ", string(text), " ", f.Modified.UTC().Format(time.DateOnly))
	}
	return all
}

func untar(t *testing.T, data []byte) map[string]string {
	t.Helper()
	z, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	r := tar.NewReader(z)
	all := map[string]string{}
	for {
		h, err := r.Next()
		if errors.Is(err, io.EOF) {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		all[h.Name] = fmt.Sprint(h.FileInfo().Mode(), " ", string(text), " ", h.ModTime.UTC().Format(time.DateOnly))
	}
}

// Each archive holds the program, how to start it, its licenses, and what its system is given to keep it running.
func TestContents(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	built := filepath.Join(t.TempDir(), "halfturn")
	if err := os.WriteFile(built, []byte("program"), 0o600); err != nil {
		t.Fatal(err)
	}
	for system, services := range map[string][]string{
		"windows": {"halfturn-task.xml", "cluster.toml"},
		"darwin":  {"halfturn.plist", "cluster.toml"},
		"linux":   {"halfturn.service", "halfturn-cluster.conf", "cluster.toml"},
	} {
		files, err := contents(built, Target{system, "amd64"})
		if err != nil {
			t.Fatal(err)
		}
		var names []string
		for _, f := range files {
			names = append(names, f.Name)
			if len(f.Data) == 0 {
				t.Errorf("%s: %s is empty", system, f.Name)
			}
		}
		program := Target{system, "amd64"}.program()
		want := []string{program, "START.txt", "LICENSE.txt", "NOTICES.txt", "service/README.md"}
		for _, name := range services {
			want = append(want, "service/"+name)
		}
		if !slices.Equal(names, want) {
			t.Errorf("%s: %v; must be %v", system, names, want)
		}
	}
}

// The first steps stand in every language, with the caution, and name the buttons as the pages do; what they name is in
// every archive.
func TestStart(t *testing.T) {
	t.Chdir(filepath.Join("..", ".."))
	data, err := os.ReadFile(filepath.Join(".ci", "release", "START.txt"))
	if err != nil {
		t.Fatal(err)
	}
	start := strings.Join(strings.Fields(string(data)), " ")
	for _, code := range phrase.LanguageCodes {
		in, err := languages.Load(os.DirFS("web/static"), code)
		if err != nil {
			t.Fatal(err)
		}
		said := []string{in.Word("Show me one flown well"), in.Word("Press to hear Halfturn")}
		for _, caution := range coach.Cautions {
			said = append(said, in.Text(caution))
		}
		for _, words := range said {
			if !strings.Contains(start, words) {
				t.Errorf("%s: lacks %q", code, words)
			}
		}
	}
	built := filepath.Join(t.TempDir(), "halfturn")
	if err := os.WriteFile(built, []byte("program"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, target := range Targets {
		files, err := contents(built, target)
		if err != nil {
			t.Fatal(err)
		}
		for _, named := range []string{"LICENSE.txt", "NOTICES.txt", "service/README.md"} {
			there := slices.ContainsFunc(files, func(f File) bool { return f.Name == named })
			if !there || !strings.Contains(start, named) {
				t.Errorf("%s: %s: in the archive %v, in START.txt %v", target, named, there,
					strings.Contains(start, named))
			}
		}
	}
}
