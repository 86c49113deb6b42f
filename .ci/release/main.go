// Command release builds the archives that are downloaded: one for each system and processor, and their SHA-256 sums.
// The same commit, built by the same version of Go, gives the same bytes.
//
//	go run ./.ci/release [-into bin/release] [-only linux/amd64]
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"halfturn/cmd/halfturn/base"
)

// A Target is what a program is built for, as Go names it.
type Target struct{ System, Processor string }

// Targets are what is released.
var Targets = []Target{
	{"windows", "amd64"},
	{"windows", "arm64"},
	{"darwin", "amd64"},
	{"darwin", "arm64"},
	{"linux", "amd64"},
	{"linux", "arm64"},
}

// systems are the names that people know the systems by.
var systems = map[string]string{"windows": "windows", "darwin": "macos", "linux": "linux"}

// services are the files by which a system keeps the program running, as one of several machines too.
var services = map[string][]string{
	"windows": {"halfturn-task.xml", "cluster.toml"},
	"darwin":  {"halfturn.plist", "cluster.toml"},
	"linux":   {"halfturn.service", "halfturn-cluster.conf", "cluster.toml"},
}

// Name is the archive's name without its ending, and the name of the folder in it.
func (t Target) Name() string {
	return strings.Join([]string{"halfturn", base.Version, systems[t.System], t.Processor}, "-")
}

// program is the name of the program's file.
func (t Target) program() string {
	if t.System == "windows" {
		return "halfturn.exe"
	}
	return "halfturn"
}

func main() {
	into := flag.String("into", "bin/release", "the folder the archives are written to")
	only := flag.String("only", "", "build only this SYSTEM/PROCESSOR")
	flag.Parse()
	if err := release(*into, *only); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

// release writes the archives and their sums.
func release(into, only string) error {
	at, err := committed()
	if err != nil {
		return err
	}
	if err := os.MkdirAll(into, 0o750); err != nil {
		return err
	}
	var names []string
	for _, t := range Targets {
		if only != "" && only != t.System+"/"+t.Processor {
			continue
		}
		name, err := pack(into, t, at)
		if err != nil {
			return fmt.Errorf("%s: %w", t.Name(), err)
		}
		fmt.Println(filepath.Join(into, name))
		names = append(names, name)
	}
	if len(names) == 0 {
		return fmt.Errorf("-only is %q; must be one of %v", only, Targets)
	}
	return WriteSums(into, names)
}

// pack builds the program for a target and writes its archive, whose name is returned.
func pack(into string, t Target, at time.Time) (string, error) {
	dir, err := os.MkdirTemp("", "halfturn-release-")
	if err != nil {
		return "", err
	}
	defer os.RemoveAll(dir)
	built := filepath.Join(dir, t.program())
	cmd := exec.Command("go", "build", "-trimpath", "-ldflags=-s -w -buildid=", "-o", built,
		"./cmd/halfturn")
	cmd.Env = append(os.Environ(), "GOOS="+t.System, "GOARCH="+t.Processor, "CGO_ENABLED=0", "GOFLAGS=")
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	files, err := contents(built, t)
	if err != nil {
		return "", err
	}
	return WriteArchive(into, t, files, at)
}

// contents are the files of an archive, in their order.
func contents(built string, t Target) ([]File, error) {
	files := []File{
		{Name: t.program(), Program: true},
		{Name: "START.txt"},
		{Name: "LICENSE.txt"},
		{Name: "NOTICES.txt"},
	}
	sources := []string{built, ".ci/release/START.txt", "LICENSE", "cmd/halfturn/notices.txt"}
	for _, name := range append([]string{"README.md"}, services[t.System]...) {
		files = append(files, File{Name: "service/" + name})
		sources = append(sources, "configs/service/"+name)
	}
	for i, from := range sources {
		data, err := os.ReadFile(from)
		if err != nil {
			return nil, err
		}
		if t.System == "windows" && !files[i].Program { // the line ends that all of its editors show
			data = bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n"))
		}
		files[i].Data = data
	}
	return files, nil
}

// committed is the time that the files in the archives carry: SOURCE_DATE_EPOCH, or that of the commit.
func committed() (time.Time, error) {
	text := os.Getenv("SOURCE_DATE_EPOCH")
	if text == "" {
		out, err := exec.Command("git", "log", "-1", "--format=%ct").Output()
		if err != nil {
			return time.Time{}, errors.New(
				"git does not tell the time of the commit; set SOURCE_DATE_EPOCH, in seconds")
		}
		text = strings.TrimSpace(string(out))
	}
	seconds, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		return time.Time{}, fmt.Errorf("SOURCE_DATE_EPOCH is %q; must be a number of seconds", text)
	}
	return time.Unix(seconds, 0).UTC(), nil
}

// String is the target as Go writes it.
func (t Target) String() string { return t.System + "/" + t.Processor }
