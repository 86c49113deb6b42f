package main

import (
	"fmt"
	"runtime/debug"
)

// version is Halfturn's own, as in CHANGELOG.md.
const version = "0.1.0"

type versionCmd struct{}

// Run prints the version and what it was built from.
func (versionCmd) Run(io streams) error {
	built := ""
	if info, ok := debug.ReadBuildInfo(); ok {
		built = info.GoVersion
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				built += ", revision " + s.Value[:min(12, len(s.Value))]
			}
		}
	}
	_, err := fmt.Fprintf(io.out, "halfturn %s (%s)\n", version, built)
	return err
}
