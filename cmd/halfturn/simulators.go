package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"text/tabwriter"

	"halfturn/configs"
	"halfturn/configs/guide"
)

type simulatorsCmd struct {
	List simulatorsList `cmd:"" default:"1" help:"List the simulators there are guides for."`
	Show simulatorsShow `cmd:"" help:"Print the steps for one."`
	Copy simulatorsCopy `cmd:"" help:"Write the files for simulators into a folder."`
}

type simulatorsList struct{}

// Run lists the guides.
func (simulatorsList) Run(io streams) error {
	list, err := guide.All()
	if err != nil {
		return err
	}
	t := tabwriter.NewWriter(io.out, 0, 8, 2, ' ', 0)
	for i := range list {
		fmt.Fprintf(t, "%s\t%s\n", list[i].Name, list[i].Title)
	}
	if err := t.Flush(); err != nil {
		return err
	}
	_, err = fmt.Fprintln(io.out, "\nThe steps: halfturn simulators show NAME. The files: halfturn simulators copy DIR")
	return err
}

type simulatorsShow struct {
	Name string `arg:"" help:"A name of the list."`
}

// Run prints a guide.
func (s *simulatorsShow) Run(io streams) error {
	list, err := guide.All()
	if err != nil {
		return err
	}
	names := []string{}
	for i := range list {
		if list[i].Name == s.Name {
			_, err := fmt.Fprint(io.out, list[i].Text())
			return err
		}
		names = append(names, list[i].Name)
	}
	return usagef("there is no guide %q; there are: %s", s.Name, strings.Join(names, ", "))
}

type simulatorsCopy struct {
	Dir string `arg:"" help:"Folder to write into; it is made where it is not there." type:"path"`
}

// Run writes the files out, never over others. A file that is there already with the same text
// is left as it is.
func (s *simulatorsCopy) Run(io streams) error {
	err := fs.WalkDir(configs.FS, "simulators", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasSuffix(name, "guides.toml") {
			return err
		}
		data, err := configs.FS.ReadFile(name)
		if err != nil {
			return err
		}
		path := filepath.Join(s.Dir, filepath.FromSlash(strings.TrimPrefix(name, "simulators/")))
		if err := writeNew(path, data); err != nil {
			return err
		}
		fmt.Fprintln(io.out, path)
		return nil
	})
	if err != nil {
		return fmt.Errorf("the files cannot be written: %w", err)
	}
	_, err = fmt.Fprintf(io.out, "\nThe steps are in %s, and in: halfturn simulators show NAME\n",
		filepath.Join(s.Dir, "README.md"))
	return err
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

// same tells whether a file holds just this.
func same(path string, data []byte) bool {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() != int64(len(data)) {
		return false // a pipe would be waited for
	}
	old, err := os.ReadFile(path)
	return err == nil && string(old) == string(data)
}
